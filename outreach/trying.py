"""Own words tried on before they are kept: what is wrong with them, and how a sheet says them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap
from outreach.gathering.own_words import with_own
from outreach.page import unprintable
from outreach.registry import entry
from outreach.worded import Worded
from outreach.wording.blanks import mistakes
from outreach.wording.legend import LEGEND, spoken_to
from outreach.wording.own_words import HOUSE, LEFT_OUT, Heard, OwnWords, Part, heard
from partners.program.desk import Desk

LONGEST = 600
ROWS_TRIED = 4


@dataclass(frozen=True)
class Blank:
    """One of the short list: as it is typed, and what it stands for."""

    typed: str
    about: str | Promise


@dataclass(frozen=True)
class Example:
    """A part as a sheet says it; `of` is whom that sheet is for, "" where it is invented."""

    text: str
    empty: tuple[str, ...] = ()
    of: str = ""


def blanks_of(sheet: Worded, language: str, part: Part) -> dict[str, str | Promise]:
    """The blanks that may stand in the part, with what they stand for."""
    own = {name: LEGEND[name] for name in (*part.blanks, *sheet.blanks)}
    return {**own, **(spoken_to(sheet.verbs) if language == "es" else {})}


def refusals(sheet: Worded, language: str, part: Part, words: str) -> list[str | Promise]:
    """Why these words cannot be kept: blanks that are none, signs without a shape, what such a sheet must not say."""
    if words == LEFT_OUT:
        return [] if part.may_go else [_("This part cannot be left out.")]
    known = blanks_of(sheet, language, part)
    wrong = [_of_mistake(one) for one in mistakes(words, known)]
    lost = "".join(dict.fromkeys(unprintable(words)))
    if lost:
        wrong.append(format_lazy(_("The print font has no signs for: {signs}"), signs=lost))
    if wrong:
        return wrong
    return [gap.words for gap in _new_gaps(sheet, language, part, words) if gap.stops]


def cautions(sheet: Worded, language: str, part: Part, words: str) -> list[str | Promise]:
    """What is worth a thought and stops nothing."""
    if words in ("", LEFT_OUT):
        return []
    return [gap.words for gap in _new_gaps(sheet, language, part, words) if not gap.stops]


def _of_mistake(one: Any) -> str | Promise:
    if one.is_open:
        return format_lazy(_("A square bracket has no other half: {found}"), found=one.found)
    if not one.found.strip():
        return _("Nothing stands between [ and ]. Take a blank of the list.")
    if one.meant:
        words = _("There is no blank [{found}] here. Did you mean [{meant}]?")
        return format_lazy(words, found=one.found, meant=one.meant)
    return format_lazy(_("There is no blank [{found}] here. Take one of the list."), found=one.found)


def _new_gaps(sheet: Worded, language: str, part: Part, words: str) -> Iterator[Gap]:
    """What a sheet that is in order with the house's words is not with these."""
    facts = sheet.sample(language, part)
    before = {(gap.code, str(gap.words)) for gap in _gaps(sheet, facts)}
    own = OwnWords({(sheet.name, language, part.path): words})
    for gap in _gaps(sheet, with_own(facts, own)):
        if (gap.code, str(gap.words)) not in before:
            yield gap


def _gaps(sheet: Worded, facts: Any) -> tuple[Gap, ...]:
    if not sheet.slug:
        facts.said()
        return ()
    return tuple(entry(sheet.slug).module.gaps(facts))


def said(sheet: Worded, facts: Any, part: Part, language: str) -> Heard | None:
    """The part as a sheet with these facts says it; None where it does not."""
    with heard() as parts:
        _gaps(sheet, facts)
    found = [one for one in parts if (one.sheet, one.path, one.language) == (sheet.name, part.path, language)]
    return found[0] if found else None


def example(desk: Desk, sheet: Worded, language: str, part: Part, words: str) -> Example:
    """From the newest row of the record whose sheet says the part, and fills most blanks; else with invented facts."""
    own = OwnWords({(sheet.name, language, part.path): words}) if words else HOUSE
    best: Example | None = None
    for row in list(sheet.rows(desk, part)[:ROWS_TRIED]):
        one = entry(sheet.slug)
        row = one.rows(desk).filter(pk=row.pk).first()
        found = (
            said(sheet, with_own(one.gather(desk, row, {"language": language}), own), part, language) if row else None
        )
        if found and (best is None or len(found.empty) < len(best.empty)):
            best = Example(found.text, found.empty, str(one.to(row) or row))
        if best and not best.empty:
            break
    if best:
        return best
    made = said(sheet, with_own(sheet.sample(language, part), own), part, language)
    return Example(made.text, made.empty) if made else Example("")
