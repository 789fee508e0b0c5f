"""What the site has to know of one document: how it comes from an address to the sheet, and who may open it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import ModuleType
from typing import Any

from django.db.models import QuerySet
from django.utils.functional import Promise

from outreach.forms import SheetWords
from partners.gifts.models import Thanks
from partners.program.desk import Desk
from partners.program.models import Language, Opened

Words = dict[str, Any]


def partner_of(row: Any) -> Any:
    """Whom a sheet about the row is for, where the row knows."""
    return getattr(row, "partner", None)


def itself(row: Any) -> Any:
    return row


def with_nothing(desk: Desk, row: Any, slug: str) -> tuple[Any, ...]:
    return ()


def no_thanks(desk: Desk, row: Any) -> Thanks | None:
    return None


def nothing_more(desk: Desk, row: Any, facts: Any) -> None:
    """Handing it over changes nothing else."""


def no_words(desk: Desk, row: Any) -> Words:
    return {}


def without_note(facts: Any) -> str:
    return ""


def nobody_else(desk: Desk, row: Any) -> Sequence[Any]:
    """The sheet is about its own row alone."""
    return (row,)


def as_they_are(desk: Desk, rows: Any) -> QuerySet[Any]:
    """Nothing is fetched together with the rows."""
    found: QuerySet[Any] = rows
    return found


def words_asked(asked: Mapping[str, str]) -> Words:
    """What an address may say of most sheets that are only printed: their language, their year."""
    language, year = asked.get("language", ""), asked.get("year", "")
    words: Words = {"language": language} if language in Language.values else {}
    if re.fullmatch(r"[12][0-9]{3}", year):
        words["year"] = int(year)
    return words


@dataclass(frozen=True)
class Entry:
    """One document: `rows` are those its number is read from, `gather(desk, row, words)` makes its facts.

    With `words` the teacher can change something, and the sheet goes out through the register, in the letter's column
    that the module's `ABOUT` names; without, it is simply printed as the record has it. `opened` is what a guest
    needs; TEACHERS_ONLY where phones and e-mails stand on it. `compared` is what `gaps` takes besides the facts,
    `thanks` the debt that is paid when the sheet goes out, `handed` what else changes then, and `begins` the words of
    a sheet that nobody began yet; the title names whom it is `to`, and a `note` on its facts. A `caution` is `of_tax`
    unless said otherwise. `without_a_row` lets number 0 stand for a sheet about nobody. `shared` are all rows that
    one sheet is about, first the one it stands with in the register: it is the same from the address of each. `asked`
    reads the words of a sheet that is only printed from its address, `together` fetches what many sheets need with
    their rows.
    """

    module: ModuleType
    rows: Callable[[Desk], QuerySet[Any]]
    gather: Callable[[Desk, Any, Words], Any]
    words: type[SheetWords] | None = None
    opened: str = Opened.LETTERS
    to: Callable[[Any], Any] = partner_of
    compared: Callable[[Desk, Any, str], tuple[Any, ...]] = with_nothing
    thanks: Callable[[Desk, Any], Thanks | None] = no_thanks
    begins: Callable[[Desk, Any], Words] = no_words
    note: Callable[[Any], Any] = without_note
    handed: Callable[[Desk, Any, Any], None] = nothing_more
    caution: str | Promise = ""
    of_tax: bool = True
    without_a_row: bool = False
    shared: Callable[[Desk, Any], Sequence[Any]] = nobody_else
    asked: Callable[[Mapping[str, str]], Words] = words_asked
    together: Callable[[Desk, Any], QuerySet[Any]] = as_they_are

    @property
    def slug(self) -> str:
        return str(self.module.SLUG)

    @property
    def column(self) -> str:
        return str(self.module.ABOUT)
