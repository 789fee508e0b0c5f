"""Everybody who was asked in a fiscal year, also who said no: some rules want all of them disclosed by name."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, when
from outreach.page import (
    Block,
    Book,
    Column,
    Letterhead,
    Paragraph,
    Run,
    Sheet,
    Table,
    bold,
    cells,
    draw_sheet,
    on_paper,
    paper,
    sideways,
)
from outreach.wording.board import LIST_SPILLED, day_of_year, looks, opening, year_words
from outreach.wording.counts import dollars, number
from outreach.wording.dates import spelled

SLUG = "places-asked"
TITLE = _("All places asked in a year")
ABOUT = "school"
HEADING = "All places asked"
NOT_IN_PUBLIC = "asks not to be named in public"
SHARES = (2.6, 1.3, 1.6, 3.1, 2.0)
TITLES = ("Place", "Asked on", "By", "For what", "Answer")
WHY = (
    "Some rules want everybody disclosed who was asked for the school, also those who said no (one example: "
    "Massachusetts State Ethics Commission, EC-COI-12-1, 2012). The district, the state and its counsel come first."
)
ANSWERS = {
    "yes": "yes",
    "some": "some of it",
    "no": "no",
    "no_reply": "no reply",
    "waiting": "no answer yet",
}


@dataclass(frozen=True)
class Asked:
    """One thing asked of one place. `answer` is one of ANSWERS; `cents` what was asked for in money.

    `private`: the place does not want to be named in public; this list is none, and names it with a remark.
    """

    place: str
    day: date
    by: str
    what: str
    answer: str
    answered_on: date | None = None
    cents: int | None = None
    school: str = ""
    grant: bool = False
    private: bool = False


@dataclass(frozen=True)
class Facts:
    """A fiscal year of one school (or of all of them) from `first` through `last`; `day` is the day of printing."""

    paper: str
    letterhead: Letterhead
    day: date
    first: date
    last: date
    year: str
    teacher: str = ""
    school: str = ""
    asks: tuple[Asked, ...] = ()

    @property
    def language(self) -> str:
        return "en"


def _book(facts: Facts) -> Book:
    clean = on_paper(facts)
    title = f"{HEADING}, {year_words(clean)}"
    return Book(sideways(paper(facts.paper)), title=title, author=facts.teacher, language="en")


def _put(facts: Facts, book: Book) -> None:
    clean = on_paper(facts)
    title = f"{HEADING}, {year_words(clean)}"
    draw_sheet(_sheet(clean, title), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    nobody = any(not one.by for one in facts.asks)
    return (
        *found(
            when(not facts.asks, "no-asks", _("Nobody was asked in that year: the list says so."), "asks"),
            when(nobody, "no-asker", _("It is not written down everywhere who asked."), "asks"),
        ),
        *missing_signs(facts),
    )


def summary(facts: Facts) -> str:
    """How many places, how often, and what they answered, in one sentence."""
    if not facts.asks:
        return "Nobody was asked in this time."
    places, asks = len({one.place for one in facts.asks}), len(facts.asks)
    counted = Counter(one.answer for one in facts.asks)
    answers = "; ".join(f"{words}: {number(counted[code])}" for code, words in ANSWERS.items() if counted[code])
    return (
        f"{number(places)} {'place was' if places == 1 else 'places were'} asked {number(asks)} "
        f"{'time' if asks == 1 else 'times'}. {answers[:1].upper()}{answers[1:]}."
    )


def _sheet(facts: Facts, title: str) -> Sheet:
    columns = tuple(Column(name, share) for name, share in zip(TITLES, SHARES, strict=True))
    return Sheet(
        title=title,
        head=(facts.letterhead,),
        flow=(
            *opening(title, facts),
            Paragraph((bold(summary(facts)),)),
            Paragraph(WHY, before=0.3),
            Table(columns, tuple(_row(facts, one) for one in facts.asks), before=0.7),
            Paragraph(f"Printed on {spelled(facts.day, 'en')}.", before=0.8),
        ),
        together=1,
        looks=looks(len(facts.asks)),
        spilled=LIST_SPILLED,
        running=", ".join(part for part in (title, facts.school) if part),
    )


def _row(facts: Facts, one: Asked) -> tuple[Block, ...]:
    answered = f", {day_of_year(one.answered_on)}" if one.answered_on else ""
    return cells(
        f"{one.place} ({NOT_IN_PUBLIC})" if one.private else one.place,
        day_of_year(one.day),
        one.by,
        _what(facts, one),
        f"{ANSWERS[one.answer]}{answered}",
    )


def _what(facts: Facts, one: Asked) -> str:
    money = dollars(one.cents) if one.cents else ""
    if one.grant:
        money = f"Grant of {money}" if money else "Grant"
    where = f" ({one.school})" if one.school and not facts.school else ""
    return ": ".join(part for part in (money, one.what) if part) + where
