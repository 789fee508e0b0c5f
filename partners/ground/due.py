"""The shape of a due line, and of a room's source of them."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, time
from enum import StrEnum
from typing import Any

from django.db.models import Model, Q, QuerySet
from django.utils.functional import Promise as LazyText

from partners.ground.kept_queries import kept_rows

Words = str | LazyText

# The kind of the rows of each source, by its slug, so that nobody begins them only to learn this.
MODELS: dict[str, type[Model]] = {}


class Hand(StrEnum):
    """What hands do to settle it; the monthly review groups by it, in this order."""

    WRITE = "write"
    COLLECT = "collect"
    CALL = "call"
    MAKE = "make"
    ASK = "ask"
    MONEY = "money"
    QUIET = "quiet"


def line_key(source: str, pk: int) -> str:
    return f"{source.replace('.', '-')}-{pk}"


class ReadByTemplates:
    """A template asks for line["who"] before line.who; to answer costs less than to refuse a thousand times a page."""

    __slots__ = ()

    __getitem__ = object.__getattribute__


@dataclass(frozen=True, slots=True)
class Act(ReadByTemplates):
    """A button of a due line. `url` takes a POST, the same for all of the line, or is a page to open (`opens`)."""

    label: Words
    url: str
    opens: bool = False
    code: str = ""


@dataclass(frozen=True, slots=True)
class DueLine(ReadByTemplates):
    """One thing to do, derived from the record. `key` is "<room>-<source>-<pk>"; `acts[0]` is the main button.

    `verb` reads on with who ("Collect from"), `alone` where who stands elsewhere ("Collect"); empty: the same words.
    `fetched` is whether what is collected needs a bag: not where they bring it.
    """

    source: str
    pk: int
    due: date
    hand: Hand
    verb: Words
    what: str
    why: Words
    who: str = ""
    who_url: str = ""
    partner_id: int | None = None
    school_id: int | None = None
    school: str = ""
    hour: time | None = None
    phone: str = ""
    late_from: date | None = None
    acts: tuple[Act, ...] = ()
    alone: Words = ""
    fetched: bool = True

    @property
    def key(self) -> str:
        return line_key(self.source, self.pk)

    @property
    def main(self) -> Act | None:
        return self.acts[0] if self.acts else None

    @property
    def more(self) -> tuple[Act, ...]:
        """The buttons behind the main one."""
        return self.acts[1:]

    @property
    def settle_url(self) -> str:
        """Where all the buttons that do not open a page send their code."""
        return next((act.url for act in self.acts if not act.opens), "")

    @property
    def moves(self) -> bool:
        """Whether one of the buttons asks for another day."""
        return any(act.code == "move" for act in self.acts)


@dataclass(frozen=True)
class DueSource:
    """Where due lines of one kind come from.

    `rows(desk)` is the queryset of open rows, `date_field` the date column that an index (program, date, id) where open
    serves, `columns` what `line(row, day)` needs (values_list, in order; the first two are pk and the date).
    `runs_out`: some of its lines are over by the end of their day: collected then, owed for that day, or at an hour.
    `splits(day)` says which of its rows another hand settles on that day; the rest are `hand`'s.
    `partner` is the way from a row to the partner whose page shows the line; else it is the row's own, if any.
    `settle` maps an act's code (what a button or a choice for many lines sends) to a verb called as
    verb(desk=…, row=…, day=…, **extra).
    `along(numbers)` names further rows that settling these settles along with them.
    `by(desk)`: on what besides the person and the program it depends which rows are open, such as the day.
    `part` and `of_row` tell how it was narrowed.
    """

    slug: str
    hand: Hand
    rows: Callable[[Any], QuerySet[Any]]
    date_field: str
    columns: tuple[str, ...]
    line: Callable[[tuple[Any, ...], date], DueLine]
    settle: dict[str, Callable[..., Any]] = field(default_factory=dict, hash=False)
    runs_out: bool = False
    partner: str = ""
    splits: Callable[[date], dict[Hand, Q]] | None = None
    along: Callable[[Sequence[int]], Sequence[int]] | None = None
    by: Callable[[Any], Hashable] | None = None
    part: tuple[Hand, date] | None = None
    of_row: tuple[str, int] | None = None

    def model(self, desk: Any) -> type[Model]:
        """Of which kind its rows are."""
        if self.slug not in MODELS:
            MODELS[self.slug] = self.rows(desk).model
        return MODELS[self.slug]

    def of_hand(self, hand: Hand, day: date) -> DueSource | None:
        """The source with only those of its rows that the hand settles; None where it has none for it."""
        others = self.splits(day) if self.splits else {}
        rows = self.rows
        if hand is self.hand and others:
            return replace(
                self, rows=lambda desk: rows(desk).exclude(Q(*others.values(), _connector=Q.OR)), part=(hand, day)
            )
        if hand in others:
            return replace(self, rows=lambda desk: rows(desk).filter(others[hand]), part=(hand, day))
        return self if hand is self.hand else None

    def of(self, path: str, pk: int) -> DueSource:
        """The source with only those of its rows that lead this way to the row of that number."""
        return replace(self, of_row=(path, pk))

    def open_until(self, desk: Any, until: date) -> QuerySet[Any]:
        """Its rows due by the day, in no order."""
        return self.rows(desk).filter(**{f"{self.date_field}__lte": until}).order_by()

    def shape(self, desk: Any) -> tuple[Hashable, ...]:
        """All that its SQL depends on besides what the desk sees."""
        return self.slug, self.part, self.of_row and self.of_row[0], self.by and self.by(desk)

    def page(self, desk: Any, *, until: date, limit: int, after: tuple[date, int] | None = None) -> list[DueLine]:
        """At most `limit` lines due by `until`, in order of date and id, beginning behind the cursor `after`."""
        return [self.line(row, desk.day) for row in self.found(desk, until=until, limit=limit, after=after)]

    def found(
        self, desk: Any, *, until: date, limit: int, after: tuple[date, int] | None = None
    ) -> list[tuple[Any, ...]]:
        """What `page` makes its lines of."""
        values: dict[str, date | int] = {"until": until}
        if after is not None:
            values["due"], values["pk"] = after
        if self.of_row is not None:
            values["row"] = self.of_row[1]
        shape = (*self.shape(desk), limit, after is None, *desk.sees)
        return kept_rows(shape, values, lambda stand_ins: self.asked(desk, limit, stand_ins))

    def asked(self, desk: Any, limit: int, values: Mapping[str, Any]) -> QuerySet[Any, Any]:
        """The columns of its first rows by `values["until"]`, behind (`due`, `pk`), of `row`, where these are given."""
        name = self.date_field
        rows = self.open_until(desk, values["until"])
        if self.of_row is not None:
            rows = rows.filter(**{self.of_row[0]: values["row"]})
        if "due" in values:
            rows = rows.filter(**{f"{name}__gte": values["due"]}).exclude(
                Q(**{name: values["due"], "pk__lte": values["pk"]})
            )
        return rows.order_by(name, "pk").values_list(*self.columns)[:limit]
