"""Who fits a session; and filling several, held against a search through every possible assignment."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.helpers.fitting import Candidate, Wanted, filled, fit, suggested

TUESDAY = date(2026, 10, 6)
HANGING = Wanted(1, TUESDAY, "hanging", 2)
ROSA = Candidate(1, "Rosa", frozenset({"hanging"}), frozenset({1}), cleared=True)


def worth(**values: object) -> int:
    told = {"pk": 2, "name": "Someone", "jobs": ROSA.jobs, "days": ROSA.days, "cleared": True, **values}
    return fit(Candidate(**told), HANGING).worth or 0


def test_the_reasons_stand_in_the_order_they_count() -> None:
    assert fit(ROSA, HANGING).why == ("said_job", "said_day", "cleared", "no_turn_yet")


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        ({"days": frozenset()}, {"jobs": frozenset()}),
        ({"cleared": False}, {"days": frozenset()}),
        ({"turns": 9}, {"cleared": False}),
        ({"turns": 1}, {"turns": 2}),
        ({"cleared_until": TUESDAY}, {"cleared_until": TUESDAY - timedelta(days=1)}),
    ],
)
def test_what_they_said_comes_before_clearance_and_that_before_turns(better: dict, worse: dict) -> None:
    assert worth(**better) > worth(**worse)


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"days": frozenset({0, 2})}, "other_day"),
        ({"at_school": False}, "from_home_only"),
        ({"busy": frozenset({TUESDAY})}, "busy"),
        ({"pk": 7}, "asked_here"),
    ],
)
def test_who_cannot_come_is_not_suggested_and_it_says_why(values: dict, why: str) -> None:
    one = Candidate(**{"pk": 2, "name": "Someone", **values})
    wanted = Wanted(1, TUESDAY, "hanging", 2, asked=frozenset({7}))
    assert fit(one, wanted).why[0] == why
    assert suggested([one], wanted, 9) == []


def test_whoever_is_not_cleared_is_suggested_all_the_same() -> None:
    assert [one.why[2] for one in suggested([Candidate(2, "Someone")], HANGING, 9)] == ["not_cleared"]


def test_show_day_stands_for_any_day_of_the_week() -> None:
    helper = Candidate(2, "Someone", days=frozenset({4}), at_school=False, show_day=True)
    assert fit(helper, Wanted(1, TUESDAY, "hanging", 2, is_show=True)).why[1] == "show_day"


CANDIDATES = st.lists(
    st.tuples(st.sets(st.sampled_from(["hanging", "cutting"])), st.sets(st.integers(0, 2)), st.booleans(),
              st.integers(0, 3)),
    max_size=5,
)  # fmt: skip
SESSIONS = st.lists(
    st.tuples(st.integers(0, 2), st.sampled_from(["hanging", "cutting"]), st.integers(0, 2)), max_size=3
)


@given(told=CANDIDATES, sessions=SESSIONS)
def test_sessions_are_filled_as_well_as_by_trying_every_assignment(told: list, sessions: list) -> None:
    people = [
        Candidate(n, f"H{n}", frozenset(jobs), frozenset(days), cleared=cleared, turns=turns)
        for n, (jobs, days, cleared, turns) in enumerate(told)
    ]
    monday = date(2026, 10, 5)
    wanted = [Wanted(n, monday + timedelta(days=day), job, places) for n, (day, job, places) in enumerate(sessions)]
    chosen = filled(people, wanted)
    helpers = [one.candidate.pk for found in chosen for one in found]
    assert len(helpers) == len(set(helpers))
    assert all(len(found) <= one.places for found, one in zip(chosen, wanted, strict=True))
    assert (len(helpers), sum(one.worth or 0 for found in chosen for one in found)) == best(people, wanted)


def best(people: list[Candidate], wanted: list[Wanted]) -> tuple[int, int]:
    """The most places that can be filled, and the greatest worth with so many: all assignments are tried."""
    found = (0, 0)
    for given_to in product(range(-1, len(wanted)), repeat=len(people)):
        if any(given_to.count(n) > one.places for n, one in enumerate(wanted)):
            continue
        worths = [fit(one, wanted[n]).worth for one, n in zip(people, given_to, strict=True) if n >= 0]
        if None not in worths:
            found = max(found, (len(worths), sum(worths)))
    return found
