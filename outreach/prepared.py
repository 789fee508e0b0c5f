"""One sheet on its way to paper: what it is about, its words so far, its facts and gaps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from types import ModuleType
from typing import Any

from django.http import Http404
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.entry import Entry, without_note
from outreach.gap import Gap, empty_blanks, said_again
from outreach.gathering.own_words import own_words, with_own
from outreach.gathering.said_before import Gone, said_before
from outreach.gathering.school import signature_picture
from outreach.wording.offices_es import in_spanish, is_english
from outreach.wording.own_words import OwnWords, heard
from outreach.wording.repeats import repeated, said_twice
from partners.directory.models import Partner
from partners.gifts.models import Thanks
from partners.program.desk import Desk
from partners.program.letter_pictures import may_sign

# What a sheet says in the words of the settings.
OF_THE_SETTINGS = ("role", "receipts_by")
AS_TYPED = _("“{words}” stands as it was typed in the settings, and the sheet is in Spanish.")
TWICE = _("It says this twice: “{sentence}”")


@dataclass
class Prepared:
    """The sheet of `entry` about `row`; `words` are the teacher's own, kept in its draft.

    `own` are the words of all sheets, `gone` the letters that its receivers read before, where a run of many has read
    them already.
    """

    desk: Desk
    entry: Entry
    pk: int
    row: Any
    words: dict[str, Any] = field(default_factory=dict)
    own: OwnWords | None = None
    gone: Mapping[int, list[Gone]] | None = None

    @cached_property
    def wording(self) -> OwnWords:
        """The teacher's own version of the house's words."""
        return own_words(self.desk) if self.own is None else self.own

    @cached_property
    def facts(self) -> Any:
        return self.gather(self.words)

    def gather(self, words: dict[str, Any]) -> Any:
        facts = in_its_language(with_own(self.entry.gather(self.desk, self.row, words), self.wording))
        return signed(self.desk, facts) if words.get("signed") and signs(facts) else facts

    @property
    def module(self) -> ModuleType:
        return self.entry.module

    @property
    def slug(self) -> str:
        return self.entry.slug

    @property
    def title(self) -> str:
        to = self.entry.to(self.row)
        note = "" if self.entry.note is without_note else self.entry.note(self.facts)
        kind = f"{self.module.TITLE}, {note}" if note else str(self.module.TITLE)
        return f"{kind}: {to}" if to else kind

    @property
    def about(self) -> dict[str, Any]:
        """The rows it is about by the columns of the register."""
        to = self.entry.to(self.row)
        known = {name: getattr(self.row, name, None) for name in ("partner", "school")}
        known["partner"] = to if isinstance(to, Partner) else known["partner"]
        return {**{name: row for name, row in known.items() if row}, self.entry.column: self.row}

    @property
    def also(self) -> Sequence[Any]:
        """What else the sheet is about."""
        return self.entry.shared(self.desk, self.row)[1:] if self.row is not None else ()

    @property
    def thanks(self) -> Thanks | None:
        """The thanks that are said when it goes out."""
        return self.entry.thanks(self.desk, self.row)

    @property
    def under(self) -> str:
        """The name it goes out under, where that is not the keeper's own and goes without saying."""
        name = name_under(self.facts)
        return "" if self.desk.keeps and name == self.desk.program.teacher else name

    def gaps(self, facts: Any = None) -> tuple[Gap, ...]:
        """What is missing or must not be there."""
        compared = self.entry.compared(self.desk, self.row, self.slug)
        with heard() as parts:
            gaps = tuple(self.module.gaps(facts or self.facts, *compared))
        return (*gaps, *as_typed(facts or self.facts), *self._again(facts or self.facts, gaps), *empty_blanks(parts))

    def _again(self, facts: Any, gaps: tuple[Gap, ...]) -> tuple[Gap, ...]:
        """Sentences that the receiver has read before; where it is the whole last letter, that is said already."""
        body = getattr(facts, "body", ())
        twice = tuple(Gap("said-twice", format_lazy(TWICE, sentence=one), "body") for one in said_twice(body))
        if not body or any(gap.code == "last-words" for gap in gaps):
            return twice
        return twice + said_again(
            repeated(body, said_before(self.desk, self.about, self.slug, self.entry.column, self.gone))
        )

    def form(self, data: Any = None) -> Any:
        form = words_form(self.entry)
        may = signs(self.facts) and may_sign(self.desk, name_under(self.facts))
        first = {**form.first(self), "signed": bool(self.words.get("signed"))}
        return form(data, desk=self.desk, initial=first, signs=may)

    @property
    def words_gone(self) -> dict[str, Any]:
        """The words as they go out now."""
        return dict(words_form(self.entry).gone(self))


def signs(facts: Any) -> bool:
    """Whether the sheet ends with room for a live signature."""
    return hasattr(facts, "signature")


def name_under(facts: Any) -> str:
    """Who signs."""
    return str(getattr(facts, "teacher", "") or getattr(getattr(facts, "about", None), "teacher", ""))


def signed(desk: Desk, facts: Any) -> Any:
    """With the picture of the signature, where it is that of the name below; else the room to sign stays."""
    return replace(facts, signature=signature_picture(desk, name_under(facts)))


def told_in_spanish(facts: Any) -> dict[str, str]:
    """What a Spanish sheet says in words of the settings, by its field, in Spanish where that is known."""
    if getattr(facts, "language", "") != "es":
        return {}
    said = {name: str(getattr(facts, name, "")) for name in OF_THE_SETTINGS}
    return {name: in_spanish(words) for name, words in said.items() if words}


def in_its_language(facts: Any) -> Any:
    told = told_in_spanish(facts)
    return replace(facts, **told) if told else facts


def as_typed(facts: Any) -> tuple[Gap, ...]:
    """What stays English on a Spanish sheet."""
    told = told_in_spanish(facts).items()
    return tuple(Gap("as-typed", format_lazy(AS_TYPED, words=words), name) for name, words in told if is_english(words))


def words_form(entry: Entry) -> Any:
    """Http404 where nothing is worded: such a sheet is only printed."""
    if entry.words is None:
        raise Http404
    return entry.words
