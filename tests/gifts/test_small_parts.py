"""What cannot be used, the program's years, and the words for how many of what."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.gifts.not_usable import any_mentioned, mentioned, names_in
from partners.ground.years import first_day, last_day, name_of, year_of
from partners.promises.counted import counted

LISTED = ["old or unlabeled paint, glue, dye or glaze", "glass, sharp metal, batteries", "latex balloons"]


@pytest.mark.parametrize(
    ("came", "places"),
    [
        ("Two boxes of GLUES", [0]),
        ("a battery and an old glaze", [0, 1]),
        ("balloons", [2]),
        ("old unlabeled boxes", []),
        ("eyeglasses", []),
        ("", []),
    ],
)
def test_only_a_thing_that_is_named_is_mentioned(came, places):
    assert mentioned(came, LISTED) == places


def test_spanish_words_are_told_apart_from_the_things_they_describe():
    assert names_in("los frascos de vidrio") == {"frasco", "vidrio"}


def test_several_lines_mention_each_entry_once():
    assert any_mentioned(["glue", "more glue", "balloon"], LISTED) == [0, 2]


@pytest.mark.parametrize(("begins", "name"), [(7, "2026–27"), (1, "2026"), (12, "2026–27")])
def test_a_year_is_named_by_the_years_it_lies_in(begins, name):
    assert name_of(2026, begins) == name


def test_the_turn_of_the_century():
    assert name_of(2099, 7) == "2099–00"


@given(st.dates(date(1990, 1, 1), date(2100, 1, 1)), st.integers(1, 12))
def test_every_day_lies_in_its_year_and_years_meet(day, begins):
    year = year_of(day, begins)
    assert first_day(year, begins) <= day <= last_day(year, begins)
    assert last_day(year, begins) + timedelta(days=1) == first_day(year + 1, begins)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ((None, "", "yarn"), "yarn"),
        ((1200, "", "buttons"), "1,200 buttons"),
        ((60, "pots", "terracotta pots"), "60 terracotta pots"),
        ((20, "sheets", "mat board"), "20 sheets of mat board"),
        ((20, "", "frames", 30), "20 to 30 frames"),
        ((20, "", "frames", 20), "20 frames"),
    ],
)
def test_how_many_of_what(given, words):
    assert counted(*given) == words
