"""What the monthly review shows: everything due through this month, by what hands do, with what was settled today."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.agenda.actions import next_month
from partners.agenda.errands import One, errands
from partners.agenda.hands import chips, sources_of
from partners.agenda.lines import Place, Placed, Stretch, due_in_stretches, group_by_hand, place_of, place_of_key
from partners.agenda.shown import SettledLine, settled_on, show_errands, tally
from partners.ground.due import Hand, Words
from partners.program.desk import Desk

PAGE = 50
NEXT_MONTH_SHOWN = 25

TITLES: dict[str, Words] = {
    Hand.WRITE: gettext_lazy("Write"),
    Hand.COLLECT: gettext_lazy("Collect"),
    Hand.CALL: gettext_lazy("Return or call"),
    Hand.MAKE: gettext_lazy("Make"),
    Hand.ASK: gettext_lazy("Ask the principal or the board"),
    Hand.MONEY: gettext_lazy("Money dates"),
    Hand.QUIET: gettext_lazy("Gone quiet"),
}

# What can be done with ticked lines, as the sources know it, the most used first; a move asks for its day.
MANY: tuple[dict[str, Any], ...] = (
    {"value": "done", "label": gettext_lazy("Done")},
    {"value": "not_this_month", "label": gettext_lazy("Not this month")},
    {"value": "no_reply", "label": gettext_lazy("No reply, let rest")},
    {"value": "never_came", "label": gettext_lazy("It never came")},
    {"value": "move", "label": gettext_lazy("Move to"), "asks_day": True},
)

MANY_LABELS = {one["value"]: one["label"] for one in MANY}


@dataclass(frozen=True)
class Group:
    hand: str
    title: Words
    lines: Sequence[Any]
    read_only: bool = False


def review(desk: Desk, after: Place | None = None, hand: Hand | None = None) -> dict[str, Any]:
    """The context of the review page, in about as many queries as there are sources, at any size of the book.

    `hand` narrows it to what that hand settles; links to each hand stand above what does not fit on one page.
    """
    month = desk.day.replace(day=1)
    ends = next_month(month) - timedelta(days=1)
    then = next_month(ends + timedelta(days=1)) - timedelta(days=1)
    stretches = [Stretch(ends, PAGE + 1), Stretch(then, NEXT_MONTH_SHOWN, if_room=True)]
    whole: dict[str, list[Placed]] | None = None if after or hand else {}
    found, coming = due_in_stretches(desk, stretches, after=after, sources=sources_of(hand, desk.day), whole=whole)
    more = len(found) > PAGE
    page = errands(desk, found[:PAGE], PAGE, reviewed=True)
    ahead = [[One(one.line(desk.day))] for one in coming]
    settled = settled_on(desk)
    shown = show_errands(desk, [*page, *ahead], cut=more)
    ended = place_of(found[PAGE - 1].line(desk.day)) if more else None
    stood_here = between(settled, after, ended)
    groups = groups_of(shown[: len(page)], [one for one in stood_here if hand in (None, one.hand)])
    if ahead:
        groups.append(Group("next", _("Next month"), shown[len(page) :], read_only=True))
    return {
        "month": month,
        "opening": _("What is due through %(ends)s, as it stands on %(today)s.")
        % {"ends": date_format(ends, "DATE_FORMAT"), "today": date_format(desk.day, "MONTH_DAY_FORMAT")},
        "groups": groups,
        "tally": tally(settled),
        "through": "" if page or after or hand else nothing_more(ends),
        "hands": chips(desk, ends, hand, TITLES, whole) if more or after or hand else (),
        "after": f"?{f'hand={hand}&' if hand else ''}after={ended}" if more else "",
        "many": MANY if desk.writes else (),
        "many_url": reverse("agenda:settle-many"),
    }


def nothing_more(ends: date) -> str:
    return _("Nothing more is due through %(ends)s.") % {"ends": date_format(ends, "DATE_FORMAT")}


def between(settled: Sequence[SettledLine], after: Place | None, through: Place | None) -> list[SettledLine]:
    """The settled lines that stood on this page."""
    placed = [(one, place_of_key(one.key, one.due)) for one in settled]
    return [
        one
        for one, place in placed
        if place is not None
        and (after is None or place.rank > after.rank)
        and (through is None or place.rank <= through.rank)
    ]


def groups_of(lines: Sequence[Any], settled: Sequence[SettledLine]) -> list[Group]:
    """Settled lines stay in their group, struck through; one that is open again is shown once, as open."""
    by_hand: dict[Hand, list[Any]] = group_by_hand([])
    open_keys = {key for line in lines for key in line.keys.split()}
    for line in [*(one for one in settled if one.key not in open_keys), *lines]:
        by_hand.setdefault(Hand(line.hand), []).append(line)
    return [
        Group(hand, TITLES[hand], sorted(by_hand[hand], key=lambda line: line.due)) for hand in Hand if hand in by_hand
    ]
