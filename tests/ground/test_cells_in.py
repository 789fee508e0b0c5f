"""Cells of a table, read by their kind."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.ground.cells_in import choice_of, read_day, whole_of, yes_or_no
from partners.ground.plain import PlainError
from tests.people import TUESDAY


@pytest.mark.parametrize(
    "typed",
    ["2026-10-06", "10/6/2026", "10-06-2026", "Oct 6, 2026", "October 6 2026", "6 Oct 2026", "6th October 2026",
     "2026-10-06 00:00:00", "2026-10-06T14:30", "10/6/2026 2:30 PM"],
)  # fmt: skip
def test_a_day_is_read_as_in_the_united_states_and_as_iso(typed: str) -> None:
    assert read_day(typed) == TUESDAY


@pytest.mark.parametrize(
    ("typed", "code"),
    [("31/31/2026", "no_such_day"), ("13/6/2026", "no_such_day"), ("2026-02-30", "no_such_day"),
     ("10/6/26", "short_year"),
     ("6.10.2026", "dots"), ("46301", "serial"), ("soon", "no_day"), ("10/6", "no_day"), ("1/1/0026", "no_such_day"),
     ("Foo 6, 2026", "no_day")],
)  # fmt: skip
def test_a_day_that_is_none_or_two_is_not_guessed(typed: str, code: str) -> None:
    with pytest.raises(PlainError) as caught:
        read_day(typed)
    assert caught.value.code == code


@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)))
def test_the_standard_writings_of_every_day_are_read_back(day: date) -> None:
    """strftime as the other side."""
    assert {read_day(day.strftime(form)) for form in ("%Y-%m-%d", "%m/%d/%Y", "%B %d, %Y", "%d %b %Y")} == {day}


def test_words_for_yes_and_no_numbers_and_choices() -> None:
    assert [yes_or_no(word) for word in ("Yes", "x", "TRUE", "no", "0")] == [True, True, True, False, False]
    assert [whole_of(5000)(typed) for typed in ("12", "12.0", "1,200", " 7 ")] == [12, 12, 1200, 7]
    read = choice_of({"": "none", "arts_group": "Arts group"}, {"museum": "arts_group"})
    assert {read(typed) for typed in ("Arts group", "ARTS-GROUP", "arts_group", "Museum")} == {"arts_group"}


@pytest.mark.parametrize(
    ("read", "typed"),
    [(yes_or_no, "maybe"), (whole_of(5), "6"), (whole_of(5), "-1"), (whole_of(5), "1.5"), (choice_of({"a": "A"}), "B")],
)
def test_what_cannot_be_read_is_refused(read, typed: str) -> None:
    with pytest.raises(PlainError):
        read(typed)
