"""The plan by class: shares, latest starts, what does not fit, hand changes, and planning again from what is done."""

from datetime import date

import pytest

from partners.exchanges.apportion import Rule
from partners.exchanges.plan import Why, earliest_due, last_day_for_work, plan
from partners.ground.plain import PlainError
from partners.school.calendar import SchoolCalendar
from tests.exchanges.planning import DUE, LAST_WORK, MONDAY, make_class, make_wish, weekly


def shares(made):
    return [row.share for row in made.rows]


def test_items_are_shared_by_the_children_who_take_part():
    made = plan(make_wish(60), [make_class(1, 22, not_taking_part=2), make_class(2, 10), make_class(3, 0)])
    assert shares(made) == [40, 20, 0]
    assert (made.total, made.short_by, made.fits) == (60, 0, True)


def test_a_class_starts_at_the_last_lesson_from_which_all_fits():
    row = plan(make_wish(100), [make_class(1, 20)]).rows[0]
    assert row.lessons == 3
    assert row.meetings == (date(2026, 10, 19), date(2026, 10, 26), date(2026, 11, 2))
    assert row.start == row.first_meeting == date(2026, 10, 19)


def test_what_does_not_fit_is_said_to_the_item():
    row = plan(make_wish(250), [make_class(1, 20)]).rows[0]
    assert (row.lessons, row.room, row.short_by, row.why) == (7, 200, 50, Why.TOO_FEW)
    assert row.start is None
    assert row.first_meeting == MONDAY


@pytest.mark.parametrize(
    ("given", "why"),
    [
        ({"students": 5, "not_taking_part": 5, "fixed": 3}, Why.NOBODY),
        ({"lesson_minutes": 0}, Why.NO_MINUTES),
        ({"meetings": []}, Why.NO_MEETING),
        ({"meetings": weekly(date(2026, 11, 9))}, Why.NO_MEETING),
        ({"lessons_left": 1}, Why.LIMIT),
        ({"lessons_left": 1, "meetings": weekly()[2:5]}, Why.LIMIT),
        ({"meetings": weekly()[3:5]}, Why.TOO_FEW),
    ],
)
def test_why_a_class_cannot(given, why):
    row = plan(make_wish(200), [make_class(1, **{"students": 20, **given}), make_class(2, 20)]).rows[0]
    assert (row.why, row.start) == (why, None)


def test_a_lesson_limit_counts_from_the_end():
    row = plan(make_wish(80), [make_class(1, 20, lessons_left=2)]).rows[0]
    assert row.meetings == (date(2026, 10, 26), date(2026, 11, 2))


def test_a_share_set_by_hand_stands_and_the_sum_stays_right():
    made = plan(make_wish(60), [make_class(1), make_class(2, fixed=30), make_class(3)])
    assert shares(made) == [15, 30, 15]
    assert [row.by_hand for row in made.rows] == [False, True, False]


@pytest.mark.parametrize(
    ("wish", "classes", "code"),
    [
        (make_wish(60), [], "no_students"),
        (make_wish(60), [make_class(1, 4, not_taking_part=9)], "no_students"),
        (make_wish(60, minimum=31), [make_class(1), make_class(2)], "minimum"),
        (make_wish(60, minimum=1), [make_class(1, fixed=60), make_class(2)], "minimum"),
        (make_wish(60), [make_class(1, fixed=70), make_class(2)], "too_many_by_hand"),
        (make_wish(60), [make_class(1, fixed=30), make_class(2, fixed=20)], "too_few_by_hand"),
    ],
)
def test_what_cannot_be_shared_is_said_in_one_sentence(wish, classes, code):
    made = plan(wish, classes)
    assert made.trouble.code == code
    assert "%" not in str(made.trouble)
    assert (len(made.rows), made.fits, made.offers) == (len(classes), False, ())


def test_the_rule_behind_a_minimum_is_named():
    sizes = (1, 2, 15, 3, 1, 12, 4)
    made = plan(make_wish(10, minimum=1), [make_class(key, size) for key, size in enumerate(sizes)])
    assert (shares(made), made.rule) == ([1, 1, 2, 1, 1, 2, 2], Rule.RESERVE)


def test_more_may_be_possible_up_to_the_larger_number():
    one = [make_class(1, 20)]
    assert plan(make_wish(60, at_most=90), one).possible == 90
    assert plan(make_wish(60, at_most=900), one).possible == 200
    assert plan(make_wish(60), one).possible == 60


def test_what_is_done_is_taken_off_and_spoiled_items_are_not_done():
    made = plan(make_wish(60), [make_class(1, done=25, spoiled=3), make_class(2)])
    assert [(row.share, row.left) for row in made.rows] == [(30, 5), (30, 30)]
    assert (made.done, made.spoiled, made.left, made.re_shared) == (25, 3, 35, True)


def test_a_class_that_did_more_leaves_less_for_the_others():
    made = plan(make_wish(60), [make_class(1, done=26), make_class(2), make_class(3)])
    assert shares(made) == [26, 17, 17]


def test_a_class_without_lessons_left_passes_the_rest_on():
    classes = [make_class(1, done=8, meetings=[]), make_class(2), make_class(3)]
    made = plan(make_wish(60), classes)
    assert shares(made) == [8, 26, 26]
    assert made.fits


def test_what_may_be_made_and_is_only_not_counted_stays_until_somebody_plans_anew():
    """60, 20 each; 40 minutes make two items a child. Monday's has a lesson left; the second's two are over, nothing
    counted; the third made 15 in its last. So 5 pass to Monday's: 25, 20, 15. Planned anew the second's 20 go, too,
    and Monday's class has room for 40.
    """
    over = {"share": 20, "meetings": []}
    classes = [
        make_class(1, share=20, meetings=weekly(date(2026, 11, 2), 1)), make_class(2, uncounted=2, **over),
        make_class(3, done=15, **over),
    ]  # fmt: skip
    kept, anew = plan(make_wish(60), classes, keep=True), plan(make_wish(60), classes)
    assert (shares(kept), kept.rows[1].why) == ([25, 20, 15], Why.UNCOUNTED)
    assert shares(anew) == [40, 0, 15]


def test_a_minimum_that_no_longer_fits_is_left_out_once_work_has_begun():
    made = plan(make_wish(60, minimum=20), [make_class(1, done=50), make_class(2), make_class(3)])
    assert (shares(made), made.minimum_kept, made.trouble) == ([50, 5, 5], False, None)


def test_more_done_than_promised_is_no_trouble():
    made = plan(make_wish(60), [make_class(1, done=70), make_class(2)])
    assert (shares(made), made.left, made.fits) == ([70, 0], 0, True)
    assert (made.rows[0].start, made.rows[0].lessons) == (None, 0)


def test_the_whole_plan_knows_its_first_start():
    tuesday = date(2026, 10, 6)
    made = plan(make_wish(120), [make_class(1, 40), make_class(2, 20, meetings=weekly(tuesday))])
    assert made.first_start == date(2026, 11, 2)


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ({"at_least": -1}, "below_zero"),
        ({"at_most": 50}, "range"),
        ({"work_until": date(2026, 11, 9)}, "days"),
        ({"minutes_per_item": 0}, "minutes"),
    ],
)
def test_a_wish_that_cannot_be_is_refused(given, code):
    with pytest.raises(PlainError) as refused:
        make_wish(**{"at_least": 60, **given})
    assert refused.value.code == code


def test_days_for_drying_are_school_days():
    closed = SchoolCalendar([date(2026, 11, 5)])
    assert last_day_for_work(SchoolCalendar(), DUE, 2) == LAST_WORK
    assert last_day_for_work(closed, DUE, 2) == date(2026, 11, 3)
    assert earliest_due(closed, date(2026, 11, 3), 2) == DUE
