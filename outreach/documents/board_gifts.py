"""The gifts of one fiscal year as a list for the board: what came, from whom, who accepted it. No value of goods."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    Beside,
    Block,
    Book,
    Column,
    Letterhead,
    Paragraph,
    Run,
    Section,
    Sheet,
    Stack,
    Table,
    WriteIn,
    bold,
    cells,
    draw_sheet,
    on_paper,
    paper,
    sideways,
)
from outreach.wording.board import LIST_SPILLED, day_of_year, looks, opening, year_words
from outreach.wording.counts import dollars, joined, number
from outreach.wording.dates import spelled
from partners.gifts.letter_phrases import value_in_text

SLUG = "board-gifts"
TITLE = _("Gifts of a year, for the board")
ABOUT = "school"
HEADING = "Gifts received"
ASKS_NOT_TO_BE_NAMED = "a giver who asks not to be named"
NOT_IN_PUBLIC = "not to be named in public"
COLUMNS = (
    Column("Came on", 1.2),
    Column("From", 2.4),
    Column("What", 3.6),
    Column("Purpose", 1.6),
    Column("Accepted", 1.6),
)
IN_SUM = (Column("What", 4), Column("Pieces counted", 1.2), Column("Times", 0.8))
KINDS = {
    "goods": ("gift of goods", "gifts of goods"),
    "money": ("gift of money", "gifts of money"),
    "grant": ("grant", "grants"),
    "service": ("service", "services"),
    "space": ("use of a space", "uses of a space"),
    "discount": ("discount", "discounts"),
    "loan": ("loan", "loans"),
    "trade": ("delivery in a trade", "deliveries in a trade"),
}
IN_MONEY = ("money", "grant")


@dataclass(frozen=True)
class Came:
    """One gift of a partner, or a grant that was awarded. `giver` is empty where they asked not to be named, and named
    for the board alone where `in_school_only`; `cents` only of money.

    `form` is one of KINDS. `shared`: it came to no one school. `accepted_by` must accept it where somebody must.
    """

    day: date
    giver: str
    form: str
    what: str
    cents: int | None = None
    purpose: str = ""
    return_on: date | None = None
    returned_on: date | None = None
    accepted_by: str = ""
    accepted_on: date | None = None
    shared: bool = False
    in_school_only: bool = False


@dataclass(frozen=True)
class InSum:
    """One thing that came without names: how many pieces somebody counted, and how often some came."""

    what: str
    pieces: int = 0
    times: int = 0


@dataclass(frozen=True)
class Unnamed:
    """All that families gave, or all that came from nobody known."""

    things: tuple[InSum, ...] = ()
    money_times: int = 0
    money_cents: int = 0

    @property
    def rows(self) -> tuple[InSum, ...]:
        if not self.money_times:
            return self.things
        return (*self.things, InSum(f"money: {dollars(self.money_cents)}", 0, self.money_times))


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
    receiver: str = ""
    gifts: tuple[Came, ...] = ()
    families: Unnamed = Unnamed()
    unknown: Unnamed = Unnamed()

    @property
    def language(self) -> str:
        return "en"

    @property
    def nothing(self) -> bool:
        return not (self.gifts or self.families.rows or self.unknown.rows)


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
    unnamed = (thing.what for part in (facts.families, facts.unknown) for thing in part.things)
    described = (*(one.what for one in facts.gifts if one.cents is None), *unnamed)
    values = [said for what in described for said in value_in_text(what)]
    pattern = _("A description names a value: “{said}”. Describe goods, never value them.")
    words = format_lazy(pattern, said=", ".join(values))
    return (
        *found(
            when(facts.nothing, "no-gifts", _("No gift is recorded in that year: the list says so."), "gifts"),
            when(values, "value", words, "gifts"),
            unless(facts.receiver, "no-receiver", _("The legal name of the district is not written down."), "receiver"),
        ),
        *missing_signs(facts),
    )


def summary(facts: Facts) -> str:
    """The totals in one sentence, in counts; of money also the sum."""
    counted = Counter(one.form for one in facts.gifts)
    parts = []
    for kind, count in ((kind, counted[kind]) for kind in KINDS if counted[kind]):
        cents = sum(one.cents or 0 for one in facts.gifts if one.form == kind)
        money = f" ({dollars(cents)} in all)" if kind in IN_MONEY else ""
        parts.append(f"{number(count)} {KINDS[kind][count != 1]}{money}")
    for who, part in (("families", facts.families), ("givers unknown", facts.unknown)):
        times = sum(row.times for row in part.rows)
        if times:
            parts.append(f"{number(times)} {'gift' if times == 1 else 'gifts'} from {who}")
    if not parts:
        return "No gift is recorded in this time."
    waiting = sum(1 for one in facts.gifts if one.accepted_by and one.accepted_on is None)
    tail = f" {number(waiting)} {'waits' if waiting == 1 else 'wait'} to be accepted." if waiting else ""
    return f"In all: {joined(parts, 'en')}.{tail}"


def _sheet(facts: Facts, title: str) -> Sheet:
    shared = sum(1 for one in facts.gifts if one.shared)
    return Sheet(
        title=title,
        head=(facts.letterhead,),
        flow=(
            *opening(title, facts),
            Paragraph((bold(summary(facts)),)),
            Paragraph(_rules(facts, shared), before=0.3),
            Table(COLUMNS, tuple(_row(facts, one) for one in facts.gifts), before=0.7),
            *_unnamed("From families, counted together and never by name", facts.families),
            *_unnamed("From givers unknown, counted together", facts.unknown),
            *_acceptance(facts),
        ),
        together=0 if facts.nothing else 1,
        looks=looks(len(facts.gifts)),
        spilled=LIST_SPILLED,
        running=", ".join(part for part in (title, facts.school) if part),
    )


def _rules(facts: Facts, shared: int) -> str:
    if facts.nothing:
        return ""
    belongs = f" What is accepted belongs to {facts.receiver}." if facts.receiver else ""
    of_all = " * came to the program and to no one school." if shared and facts.school else ""
    return f"Goods are described and not valued; that is the giver's own matter.{belongs}{of_all}"


def _row(facts: Facts, one: Came) -> tuple[Block, ...]:
    star = "*" if one.shared and facts.school else ""
    return cells(
        f"{day_of_year(one.day)}{star}",
        f"{one.giver} ({NOT_IN_PUBLIC})" if one.in_school_only else one.giver or ASKS_NOT_TO_BE_NAMED,
        _what(one),
        one.purpose,
        _accepted(one),
    )


def _what(one: Came) -> str:
    if one.form == "trade":
        return f"In a trade, not a gift: {one.what}"
    if one.form == "loan":
        back = f"; returned on {day_of_year(one.returned_on)}" if one.returned_on else ""
        until = f"; to be returned by {day_of_year(one.return_on)}" if one.return_on else ""
        return f"On loan: {one.what}{back or until}"
    if one.form == "grant":
        return f"Grant: {dollars(one.cents or 0)}"
    if one.cents is not None:
        return f"{dollars(one.cents)} in money"
    return (
        f"{KINDS[one.form][0].capitalize()}: {one.what}" if one.form in ("space", "discount", "service") else one.what
    )


def _accepted(one: Came) -> str:
    if one.accepted_on is not None:
        return ", ".join(part for part in (one.accepted_by, day_of_year(one.accepted_on)) if part)
    return f"waiting: {one.accepted_by}" if one.accepted_by else ""


def _unnamed(title: str, part: Unnamed) -> tuple[Block, ...]:
    rows = tuple(cells(row.what, number(row.pieces) if row.pieces else "", number(row.times)) for row in part.rows)
    return (Section(Paragraph((bold(title),)), Table(IN_SUM, rows, before=0.3)),) if rows else ()


def _acceptance(facts: Facts) -> tuple[Block, ...]:
    if facts.nothing:
        return ()
    return (
        Stack(
            (
                Paragraph(f"Printed on {spelled(facts.day, 'en')}.", before=0),
                Beside((WriteIn("Accepted by"),), WriteIn("Date"), wide=190, before=0.8),
            ),
            before=1.2,
        ),
    )
