"""How hard a sheet is to read, language by language, for the screen on which it is worded."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from outreach.prepared import Prepared
from outreach.wording import readability, readability_es

AIM = 6.0
LEVELS = {
    "very_hard": _("very hard"),
    "hard": _("rather hard"),
    "normal": _("middling"),
    "quite_easy": _("quite easy"),
    "very_easy": _("very easy"),
}


@dataclass(frozen=True)
class Reading:
    """One language: what was found, by which formula, whether it is easy enough, and the sentences that are long."""

    language: str | Promise
    found: str
    formula: str | Promise
    easy: bool
    long: tuple[str, ...] = ()


def typed_names(prepared: Prepared) -> tuple[str, ...]:
    """The fields whose texts are read while they are typed; none for a sheet that is not graded."""
    return tuple(getattr(prepared.module, "READ", ()))


def readings(prepared: Prepared, typed: dict[str, str] | None = None) -> list[Reading]:
    """With what is being typed in place of what is kept; nothing for a sheet that is not graded."""
    if not typed_names(prepared):
        return []
    facts = prepared.gather({**prepared.words, **(typed or {})})
    return [read(language, text) for language, text in prepared.module.read_texts(facts).items()]


def read(language: str, text: str) -> Reading:
    long = tuple(readability.long_sentences(text))
    if language == "es":
        score = readability_es.score(text) or 0.0
        step = LEVELS[readability_es.level(score)]
        found = _("%(score)d, %(step)s") % {"score": round(score), "step": step}
        return Reading(_("Spanish"), found, FORMULA_ES, score >= readability_es.QUITE_EASY, long)
    grade: Any = readability.grade(text) or 0.0
    found = _("grade %(grade).1f") % {"grade": max(grade, 0.0)}
    return Reading(_("English"), found, FORMULA_EN, grade <= AIM, long)


FORMULA_EN = _("Flesch–Kincaid (1975); letters home aim at grade 6 or below")
FORMULA_ES = _("Szigriszt-Pazos (1993) on the INFLESZ scale; 65 or more is what primary school reads")
