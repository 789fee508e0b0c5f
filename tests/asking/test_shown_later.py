"""A reason that arises only when the others end is shown as one of then, not of now."""

from __future__ import annotations

from datetime import date

from partners.asking.may_ask import Approved, Situation, may_ask
from partners.asking.shown import show

DAY = date(2026, 11, 25)


def shown(approved_until: date) -> tuple[str, ...]:
    approvals = (Approved(date(2026, 9, 6), approved_until),)
    resting = Situation(
        rest_until=date(2027, 10, 1), rest_why="they said no", approval_needed=True, approvals=approvals
    )
    return show(may_ask(resting, DAY), "Copper Kettle Diner").sentences


def test_an_approval_that_ends_before_the_rest_is_not_called_missing_today() -> None:
    sentences = shown(approved_until=date(2027, 7, 3))
    assert "By then: there is approval to ask only until July 3, 2027" in sentences
    assert not any(sentence.startswith("There is approval") for sentence in sentences)


def test_an_approval_that_is_missing_today_is_called_so() -> None:
    assert "There is approval to ask only until November 24, 2026" in shown(approved_until=date(2026, 11, 24))
