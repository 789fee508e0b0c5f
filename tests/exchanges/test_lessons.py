"""Items and lessons, against children who work side by side, minute by minute of their lessons."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.exchanges.lessons import items_in, lessons_for, usable_minutes
from tests.exchanges.planning import worked

CHILDREN = st.integers(1, 8)
LESSON = st.integers(1, 60)
ITEM = st.integers(1, 130)


@given(CHILDREN, LESSON, ITEM, st.integers(0, 6))
def test_items_are_those_that_the_children_finish(children, lesson, item, lessons):
    assert items_in(lessons, children, lesson, item) == worked(children, lesson, item, lessons, pile=10_000)


@given(CHILDREN, LESSON, ITEM, st.integers(1, 40))
def test_lessons_are_those_after_which_the_children_are_done(children, lesson, item, items):
    needed = lessons_for(items, children, lesson, item)
    assert needed is not None
    assert worked(children, lesson, item, needed, items) == items
    assert worked(children, lesson, item, needed - 1, items) < items


@pytest.mark.parametrize(
    ("lesson", "item", "items", "needed"),
    [
        (40, 20, 24, 1),  # twelve children make two each
        (40, 30, 24, 2),  # what is left of the lesson is too short to begin another
        (40, 60, 12, 2),  # one item takes a lesson and a half
        (40, 60, 24, 3),  # and the half left over goes into the next one
        (40, 20, 25, 2),
    ],
)
def test_lessons_of_twelve_children(lesson, item, items, needed):
    assert lessons_for(items, 12, lesson, item) == needed


def test_where_nobody_works_no_number_of_lessons_does():
    assert lessons_for(1, 0, 40, 20) is None
    assert lessons_for(1, 12, 0, 20) is None
    assert lessons_for(0, 0, 0, 20) == 0
    assert items_in(5, 0, 40, 20) == items_in(5, 12, 0, 20) == 0


def test_an_item_takes_time():
    with pytest.raises(ValueError, match="at least one minute"):
        usable_minutes(40, 0)
