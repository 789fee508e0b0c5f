"""What a letter home is made of."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from outreach.page import Letterhead, unprintable
from outreach.wording.dates import spelled
from outreach.wording.family import NAME, WORDS
from outreach.wording.own_words import HOUSE, OwnWords, Voice


@dataclass(frozen=True)
class Thing:
    """Something from a household, or something that cannot be used, with its Spanish where there is one.

    `note` is what stands in brackets behind it in English.
    """

    english: str
    spanish: str = ""
    note: str = ""

    def said(self, language: str) -> str:
        return self.spanish or self.english if language == "es" else self.english

    @property
    def lacks_spanish(self) -> bool:
        return not self.spanish or bool(self.note and self.note in self.spanish)


@dataclass(frozen=True)
class Facts:
    """What the letter says. `other_*` is a third page, supplied by a translator; texts are never read as markup."""

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    teacher: str
    role: str = ""
    phone: str = ""
    email: str = ""
    things: tuple[Thing, ...] = ()
    cannot_use: tuple[Thing, ...] = ()
    drop_off: str = ""
    drop_off_es: str = ""
    first: date | None = None
    last: date | None = None
    return_by: date | None = None
    own: str = ""
    own_es: str = ""
    other_language: str = ""
    other_translator: str = ""
    other_text: str = ""
    other_slip: str = ""
    other_holds_promise: bool = False
    approved_by: str = ""
    left_out: tuple[str, ...] = ()
    wording: OwnWords = HOUSE

    def say(self, language: str) -> Voice:
        """The words of one side, with what fills their blanks."""
        values = {
            "teacher": self.teacher,
            "school": self.letterhead.school,
            "first day": spelled(self.first, language) if self.first else "",
            "last day": spelled(self.last, language) if self.last else "",
        }
        return Voice(NAME, language, WORDS[language], self.wording, values)

    @property
    def typed(self) -> str:
        """Everything that somebody wrote themselves, in whatever language."""
        own = (self.wording.said(NAME, language) for language in WORDS)
        return "\n".join((self.own, self.own_es, *own))

    @property
    def other_printable(self) -> bool:
        """Whether the print font has every sign of the third page; a page with holes is not printed at all."""
        return bool(self.other_text) and not unprintable(self.other_text + self.other_slip)
