"""Finding a person in a text, however the name or the number is written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.ground.traces import REMOVED, traces_of

DANA = traces_of(["Dana O'Neill"], ["+12025550143"], ["dana@example.org"])


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Dana O’Neill said yes", "(removed) said yes"),
        ("O'NEILL, DÁNA", "(removed)"),
        ("dana  o'neill's cousin", "(removed)'s cousin"),
        ("dana_o'neill", "(removed)"),
        ("(202) 555-0143 or 1-202-555-0143", "(removed) or (removed)"),
        ("+1 202.555.0143 and 2025550143", "(removed) and (removed)"),
        ("Dana@Example.org, too", "(removed), too"),
    ],
)
def test_the_whole_name_and_numbers_are_found(text, left):
    assert DANA.without(text) == left


@pytest.mark.parametrize(
    "text",
    [
        "Dana said",
        "Jordana O'Neill",
        "92025550143",
        "2025550143 7".replace(" ", ""),
        "xdana@example.org",
        "Dana\n\n\n\nO'Neill",
    ],
)
def test_what_only_looks_like_it_stays(text):
    assert DANA.without(text) == text


def test_parts_go_only_when_asked_for():
    assert DANA.without("Dana said", parts=True) == "(removed) said"
    assert traces_of(["Al Ng"]).without("Al Ng, al dente", parts=True) == "(removed), al dente"


def test_a_name_of_which_a_part_went_before_is_not_bracketed_twice():
    rest = traces_of(["(removed) Kowalczyk"])
    assert (
        rest.without("(removed) Kowalczyk; it was removed (removed)", parts=True)
        == "(removed); it was removed (removed)"
    )
    assert not traces_of(["(removed)"])


def test_nothing_known_finds_nothing():
    assert not traces_of(["", " "], [""], [""])
    assert traces_of([]).find("anything 2025550143") == []


def test_texts_inside_lists_are_cleaned_and_other_values_stay():
    kept = {"to": "Dana O'Neill", "lines": ["Dana O'Neill", 3, None], "n": True}
    assert DANA.without_in(kept) == {"to": REMOVED, "lines": [REMOVED, 3, None], "n": True}


@given(st.text(max_size=30), st.text(max_size=30))
def test_after_cleaning_nothing_is_found(before, after):
    text = f"{before} Dana O'Neill {after}"
    assert not DANA.certain_in(DANA.without(text))


@given(st.text(max_size=60))
def test_the_quick_look_never_hides_anything(text):
    slow = type("Slow", (type(DANA),), {"_may_stand_in": lambda self, text: True})(DANA.names, DANA.phones, DANA.emails)
    assert DANA.find(text) == slow.find(text)
