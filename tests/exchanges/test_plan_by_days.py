"""Any small plan, against going through the days one by one with children who really work; and what offers promise."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from partners.exchanges.offers import taken
from partners.exchanges.plan import OfferKind, plan
from tests.exchanges.planning import DUE, LAST_WORK, MONDAY, make_class, make_wish, worked

DAYS = st.sets(st.integers(0, 45), max_size=9)


@st.composite
def any_class(draw, work_begun):
    return make_class(
        draw(st.integers(1, 10**6)),
        draw(st.integers(0, 6)),
        not_taking_part=draw(st.integers(0, 2)),
        lesson_minutes=draw(st.sampled_from([0, 30, 45])),
        meetings=sorted(MONDAY + timedelta(days=day) for day in draw(DAYS)),
        lessons_left=draw(st.none() | st.integers(0, 4)),
        fixed=draw(st.none() | st.none() | st.integers(0, 9)),
        done=draw(st.integers(0, 9)) if work_begun else 0,
        spoiled=draw(st.integers(0, 2)) if work_begun else 0,
    )


@st.composite
def any_plan(draw):
    classes = st.lists(any_class(draw(st.booleans())), max_size=5, unique_by=lambda one: one.key)
    wish = make_wish(
        draw(st.integers(0, 40)),
        minutes_per_item=draw(st.sampled_from([10, 20, 70])),
        minimum=draw(st.integers(0, 2)),
    )
    return wish, draw(classes)


def finished(one, days, wish, pile):
    """How many of the pile a class finishes on these days."""
    return worked(one.taking_part, one.lesson_minutes, wish.minutes_per_item, len(days), pile)


def usable(one, wish, start=MONDAY):
    days = [day for day in one.meetings if start <= day <= wish.work_until]
    return days if one.lessons_left is None else days[: one.lessons_left]


@settings(max_examples=40, deadline=None)
@given(any_plan())
def test_rows_agree_with_the_children_who_work(wish_and_classes):
    wish, classes = wish_and_classes
    for one, row in zip(classes, plan(wish, classes).rows, strict=True):
        left = row.share - one.done
        missing = left - finished(one, usable(one, wish), wish, left)
        starts = [
            day
            for day in one.meetings
            if left and day <= wish.work_until and finished(one, usable(one, wish, day), wish, left) == left
        ]
        assert (row.left, row.short_by, row.start) == (left, missing, max(starts, default=None))
        assert not starts or row.lessons == len(row.meetings)


@settings(max_examples=40, deadline=None)
@given(any_plan())
def test_shares_come_to_what_was_promised_and_what_is_missing_is_exact(wish_and_classes):
    wish, classes = wish_and_classes
    made = plan(wish, classes)
    pairs = zip(classes, made.rows, strict=True)
    there = sum(row.done + finished(one, usable(one, wish), wish, row.left) for one, row in pairs)
    assert made.short_by == max(0, wish.at_least - there)
    assert all(row.share >= row.done for row in made.rows)
    if made.trouble is None and not made.re_shared:
        assert made.total == wish.at_least
    if made.re_shared and made.total < wish.at_least:
        assert all(row.by_hand or row.left == row.room for row in made.rows)
    if made.trouble is None and made.total > wish.at_least:
        assert made.re_shared


@settings(max_examples=40, deadline=None)
@given(any_plan())
def test_offers_keep_what_they_promise(wish_and_classes):
    wish, classes = wish_and_classes
    made = plan(wish, classes)
    for offer in made.offers:
        then = plan(*taken(offer, wish, classes))
        assert then.fits
        after = {change.key: change.after for change in offer.changes}
        assert [row.share for row in then.rows] == [after.get(row.key, row.share) for row in made.rows]
        if offer.kind == OfferKind.LATER:
            days = {day for one in classes for day in one.meetings if wish.work_until < day < offer.work_until}
            assert not any(plan(replace(wish, work_until=day, due=max(day, DUE)), classes).fits for day in days)
        else:
            assert offer.work_until == LAST_WORK


@settings(max_examples=40, deadline=None)
@given(any_plan())
def test_an_offer_is_made_wherever_there_is_a_way(wish_and_classes):
    wish, classes = wish_and_classes
    made = plan(wish, classes)
    kinds = {offer.kind for offer in made.offers}
    most = sum(row.done + (min(row.room, row.left) if row.by_hand else row.room) for row in made.rows)
    if made.short_by and made.trouble is None:
        assert (OfferKind.FEWER in kinds) == (most >= wish.at_least)
        assert (OfferKind.SMALLER in kinds) == (most > 0)
