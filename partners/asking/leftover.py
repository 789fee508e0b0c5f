"""Spending what is left on the wish list: which needs take part, what to buy, what comes next. Nothing is saved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import F
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.asking.progress import progress
from partners.funding.spend_down import best_purchase, next_step, runner_up
from partners.ground.money import format_cents
from partners.program.desk import Desk
from partners.wish_list.models import Need

# So many open needs are looked through, and so many of those where something is missing are shown.
LOOKED_AT, SHOWN = 500, 100
A_DOLLAR = 100


@dataclass(frozen=True)
class Missing:
    """A need of which so many packs are still to be found."""

    need: Need
    packs: int


@dataclass(frozen=True)
class Wanted:
    """A need that takes part, with what one pack of it will cost; `first` comes before all others."""

    missing: Missing
    price: int
    first: bool = False


@dataclass(frozen=True)
class Line:
    wanted: Wanted
    packs: int

    @property
    def cents(self) -> int:
        return self.packs * self.wanted.price

    @property
    def without(self) -> int:
        return self.wanted.missing.packs - self.packs


@dataclass(frozen=True)
class Answer:
    """What to buy with `left`, in cents; `other` and `step` are sentences, empty where there is nothing to say."""

    left: int
    lines: list[Line]
    other: str
    step: str

    @property
    def bought(self) -> list[Line]:
        return [line for line in self.lines if line.packs]

    @property
    def not_bought(self) -> list[Line]:
        return [line for line in self.lines if line.without]

    @property
    def packs(self) -> int:
        return sum(line.packs for line in self.lines)

    @property
    def total(self) -> int:
        return sum(line.cents for line in self.lines)

    @property
    def remains(self) -> int:
        return self.left - self.total

    @property
    def cheapest(self) -> Line:
        return min(self.lines, key=lambda line: line.wanted.price)


def missing(desk: Desk) -> list[Missing]:
    """The open needs with packs still to be found, the soonest first."""
    needs = desk.needs.open().select_related("school").order_by(F("needed_by").asc(nulls_last=True), "pk")
    counted = progress(desk, needs[:LOOKED_AT])
    found = [Missing(one.need, one.still.packs) for one in counted if one.still and one.still.packs]
    return found[:SHOWN]


def answer(left: int, wanted: Sequence[Wanted]) -> Answer:
    """The best purchase, the next best one and the next step. Each pack counts as one, one that is first as more than
    all the others together."""
    before_all = 1 + sum(one.missing.packs for one in wanted if not one.first)
    offers = [(one.price, before_all if one.first else 1, one.missing.packs) for one in wanted]
    best = best_purchase(left, offers)
    lines = [Line(one, packs) for one, packs in zip(wanted, best, strict=True)]
    other, step = runner_up(left, offers), next_step(left, offers)
    return Answer(
        left,
        lines,
        _other_words(left, wanted, best, other) if other else "",
        _step_words(wanted, best, *step) if step else "",
    )


def packs_words(need: Need, packs: int) -> str:
    """`2 packs of foam brushes`, `5 × terracotta pots`."""
    if need.pack_size == 1:
        return _("%(count)d × %(what)s") % {"count": packs, "what": need}
    words = ngettext("%(count)d pack of %(what)s", "%(count)d packs of %(what)s", packs)
    return words % {"count": packs, "what": need}


def _named(wanted: Sequence[Wanted], packs: Sequence[int]) -> str:
    named = [packs_words(one.missing.need, count) for one, count in zip(wanted, packs, strict=True) if count > 0]
    return str(get_text_list(named, _("and")))


def _differences(wanted: Sequence[Wanted], best: Sequence[int], other: Sequence[int]) -> tuple[str, str]:
    """What the other one has less, and what it has more."""
    changes = [count - before for count, before in zip(other, best, strict=True)]
    return _named(wanted, [-change for change in changes]), _named(wanted, changes)


def _other_words(left: int, wanted: Sequence[Wanted], best: Sequence[int], other: Sequence[int]) -> str:
    less, more = _differences(wanted, best, other)
    cost = sum(count * one.price for count, one in zip(other, wanted, strict=True))
    facts = {"less": less, "more": more, "cost": format_cents(cost), "rest": format_cents(left - cost)}
    return _("%(more)s instead of %(less)s. That costs %(cost)s in all and leaves %(rest)s.") % facts


def _step_words(wanted: Sequence[Wanted], best: Sequence[int], cents: int, counts: Sequence[int]) -> str:
    less, more = _differences(wanted, best, counts)
    changed = _("%(more)s instead of %(less)s") % {"more": more, "less": less} if less else more
    facts = {"cents": format_cents(cents), "changed": changed}
    if cents <= A_DOLLAR:
        return _("%(cents)s more would do: it brings %(changed)s.") % facts
    return _("It would change nothing. The next step is %(cents)s more: it brings %(changed)s.") % facts
