"""Who fits a session, why, and how several sessions are filled best; computation only, without Django.

What counts is common practice of schools, and the weights say only in which order: first that they said they can do
this job, then this day of the week, then a clearance that holds on the day, then whose turn it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

Why = Literal[
    "said_job", "any_job", "other_job", "said_day", "any_day", "other_day", "from_home_only", "show_day", "cleared",
    "not_cleared", "runs_out", "no_turn_yet", "turns", "busy", "asked_here",
]  # fmt: skip
# Each step outweighs all the steps below it together, so that the order of the reasons is the order of the list.
JOB = {"said_job": 2, "any_job": 1, "other_job": 0}
DAY = {"said_day": 2, "show_day": 2, "any_day": 1}
MOST_TURNS = 9
FAIR = 1
CLEARED = FAIR * (MOST_TURNS + 1)
ON_DAY = CLEARED * 2
OF_JOB = ON_DAY * 3
LEAST = 1


@dataclass(frozen=True, slots=True)
class Candidate:
    """A helper as their slip says it. `turns`: how often they came or said yes this school year.

    `busy`: days on which they are in a session already. `days` 0 to 4, Monday first; empty: they did not say.
    """

    pk: int
    name: str
    jobs: frozenset[str] = frozenset()
    days: frozenset[int] = frozenset()
    at_school: bool = True
    show_day: bool = False
    cleared: bool = False
    cleared_until: date | None = None
    turns: int = 0
    busy: frozenset[date] = frozenset()


@dataclass(frozen=True, slots=True)
class Wanted:
    """A session to fill: `places` are still free, `asked` are the helpers who were asked for it before."""

    pk: int
    day: date
    job: str
    places: int
    is_show: bool = False
    asked: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Fit:
    """How a helper fits a session. `worth` is None where they cannot come; otherwise the more the better."""

    candidate: Candidate
    why: tuple[Why, ...]
    worth: int | None


def fit(candidate: Candidate, wanted: Wanted) -> Fit:
    """How the helper fits, and all the reasons in the order they count."""
    job: Why = "any_job" if not candidate.jobs else "said_job" if wanted.job in candidate.jobs else "other_job"
    day = _day(candidate, wanted)
    clearance = _clearance(candidate, wanted.day)
    turns: Why = "turns" if candidate.turns else "no_turn_yet"
    stops = _stops(candidate, wanted, day)
    if stops:
        return Fit(candidate, stops, None)
    worth = LEAST + OF_JOB * JOB[job] + ON_DAY * DAY[day]
    worth += CLEARED * (clearance == "cleared") + FAIR * (MOST_TURNS - min(candidate.turns, MOST_TURNS))
    return Fit(candidate, (job, day, clearance, turns), worth)


def _day(candidate: Candidate, wanted: Wanted) -> Why:
    if wanted.is_show and candidate.show_day:
        return "show_day"
    if not candidate.days:
        return "any_day"
    return "said_day" if wanted.day.weekday() in candidate.days else "other_day"


def _clearance(candidate: Candidate, day: date) -> Why:
    if not candidate.cleared:
        return "not_cleared"
    return "cleared" if candidate.cleared_until is None or candidate.cleared_until >= day else "runs_out"


def _stops(candidate: Candidate, wanted: Wanted, day: Why) -> tuple[Why, ...]:
    """Why they cannot come at all: that they are not cleared is none of these, it is only warned of."""
    found: list[Why] = []
    if candidate.pk in wanted.asked:
        found.append("asked_here")
    elif wanted.day in candidate.busy:
        found.append("busy")
    if not candidate.at_school and day != "show_day":
        found.append("from_home_only")
    if day == "other_day":
        found.append("other_day")
    return tuple(found)


def suggested(candidates: Collection[Candidate], wanted: Wanted, at_most: int) -> list[Fit]:
    """Those who can come, the best first; among equals those who come first by name."""
    found = [one for one in (fit(candidate, wanted) for candidate in candidates) if one.worth is not None]
    return sorted(found, key=_best_first)[:at_most]


def _best_first(one: Fit) -> tuple[int, str, int]:
    return -(one.worth or 0), one.candidate.name, one.candidate.pk


def filled(candidates: Collection[Candidate], sessions: Sequence[Wanted]) -> list[list[Fit]]:
    """For each session the helpers to ask, nobody for more than one: as many places as can be, then the best fits.

    It is the assignment of greatest total worth among those that fill the most places (successive longest augmenting
    paths; Ahuja, Magnanti, Orlin, "Network Flows", 1993, section 9.7). Only the best few of each session take part: of
    as many as there are places altogether one is always free, so that nothing is lost.
    """
    places = sum(wanted.places for wanted in sessions)
    fits = [{one.candidate.pk: one for one in suggested(candidates, wanted, places)} for wanted in sessions]
    taken: dict[int, int] = {}
    while _augment(fits, [wanted.places for wanted in sessions], taken):
        pass
    chosen: list[list[Fit]] = [[] for _session in sessions]
    for pk, session in taken.items():
        chosen[session].append(fits[session][pk])
    return [sorted(found, key=_best_first) for found in chosen]


def _augment(fits: Sequence[dict[int, Fit]], places: Sequence[int], taken: dict[int, int]) -> bool:
    """Fill one more place by the chain of moves that adds most; False where no chain does.

    A chain begins at a session with a free place. It takes a helper from another session, which then has a free place
    itself and takes one from a third, until a session takes a helper whom nobody has.
    """
    held = Counter(taken.values())
    gain: dict[int, int] = {one: 0 for one, most in enumerate(places) if held[one] < most}
    came: dict[int, tuple[int, int]] = {}
    while _lengthened(fits, taken, gain, came):
        pass
    free = {one: [pk for pk in fits[one] if pk not in taken] for one in gain}
    ends = [(gain[one] + _worth(fits[one][pk]), one, pk) for one in gain for pk in free[one]]
    if not ends:
        return False
    _most, one, pk = max(ends)
    taken[pk] = one
    while one in came:
        one, pk = came[one]
        taken[pk] = one
    return True


def _lengthened(
    fits: Sequence[dict[int, Fit]], taken: dict[int, int], gain: dict[int, int], came: dict[int, tuple[int, int]]
) -> bool:
    """Whether some chain that ends one move later adds more than those known so far; it is then kept."""
    changed = False
    for pk, other in taken.items():
        for one in list(gain):
            if other == one or pk not in fits[one]:
                continue
            added = gain[one] + _worth(fits[one][pk]) - _worth(fits[other][pk])
            if other not in gain or added > gain[other]:
                gain[other], came[other], changed = added, (one, pk), True
    return changed


def _worth(one: Fit) -> int:
    return one.worth or 0
