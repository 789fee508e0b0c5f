"""The review narrowed to what one hand settles, and how many lines each has."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import chain
from typing import Any

from django.db.models import IntegerField, QuerySet, Subquery
from django.urls import reverse
from django.utils.translation import gettext as _

from partners.agenda.lines import SOURCES, Placed, read_by
from partners.ground.due import DueSource, Hand, Words
from partners.ground.kept_queries import kept_rows
from partners.program.desk import Desk
from partners.program.models import Program

# Counted no further than this for each source.
CAP = 100


class CountOf(Subquery):
    """How many rows a queryset has, also one that is cut."""

    template = "(SELECT COUNT(*) FROM (%(subquery)s) counted)"
    output_field = IntegerField()


@dataclass(frozen=True)
class Chip:
    words: str
    url: str
    here: bool


def hand_of(text: str) -> Hand | None:
    """None for anything that is not a hand."""
    return Hand(text) if text in list(Hand) else None


def sources_of(hand: Hand | None, day: date) -> Iterator[DueSource]:
    """The sources of the hand, each with only the rows that this hand settles; all of them for no hand."""
    for source in SOURCES:
        own = source.of_hand(hand, day) if hand else source
        if own is not None:
            yield own


Whole = Mapping[str, Sequence[Placed]]


def count_by_hand(desk: Desk, until: date, whole: Whole | None = None) -> dict[Hand, tuple[int, bool]]:
    """How many lines each hand has and whether that is only the least there are, in one query at most.

    `whole` holds all rows of some sources, by the slug: what was read already is counted here.
    """
    whole = whole or {}
    totals = dict.fromkeys(Hand, (0, False))

    def count(hand: Hand, more: int, least: bool = False) -> None:
        totals[hand] = totals[hand][0] + more, totals[hand][1] or least

    for one in chain.from_iterable(whole.values()):
        count(one.line(desk.day).hand if one.source.splits else one.source.hand, 1)
    parts = [
        (hand, source)
        for hand in Hand
        for source in read_by(desk, sources_of(hand, desk.day))
        if source.slug not in whole
    ]
    if parts:
        found = counts(desk, until, [source for _hand, source in parts])
        for (hand, _source), more in zip(parts, found, strict=True):
            count(hand, more, least=more == CAP)
    return {hand: total for hand, total in totals.items() if total[0]}


def counts(desk: Desk, until: date, sources: Sequence[DueSource]) -> tuple[int, ...]:
    """How many rows each source has, in one query."""

    def asked(values: Mapping[str, Any]) -> QuerySet[Any, Any]:
        each = [CountOf(source.open_until(desk, values["until"]).values("pk")[:CAP]) for source in sources]
        return Program.objects.filter(pk=desk.program.pk).values_list(*each)

    shape = ("counts", CAP, *(source.shape(desk) for source in sources), *desk.sees)
    (found,) = kept_rows(shape, {"until": until}, asked)
    return found


def chips(
    desk: Desk, until: date, chosen: Hand | None, titles: dict[str, Words], whole: Whole | None = None
) -> list[Chip]:
    """ "All", "Write 58", "Collect 32"; the chosen one stays also when nothing is left of it."""
    page = reverse("agenda:review")
    counts: dict[Hand, tuple[int, bool]] = {chosen: (0, False)} if chosen else {}
    counts |= count_by_hand(desk, until, whole)
    return [
        Chip(_("All"), page, chosen is None),
        *(
            Chip(f"{titles[hand]} {number_of(*counts[hand])}", f"{page}?hand={hand}", hand is chosen)
            for hand in Hand
            if hand in counts
        ),
    ]


def number_of(count: int, least: bool) -> str:
    return f"{count}+" if least else str(count)
