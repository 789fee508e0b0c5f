"""Counting in the room: one tap each."""

import pytest
import time_machine
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.exchanges.count_actions import deliver_part, tally
from partners.exchanges.models import TradeClass
from partners.exchanges.plan_actions import choose_classes
from partners.exchanges.progress import lesson_of
from partners.school.actions import add_class
from partners.school.models import SchoolClass
from tests import people
from tests.exchanges.trades import DAY, make_trade
from tests.ladder import UNKNOWN, enter, flat, status
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
MEETS = {"minutes": 45, "meets_on": [1]}


@pytest.fixture(autouse=True)
def tuesday():
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def third_grade(desk):
    trade, school = make_trade(desk), people.make_school(desk.program)
    own = {"program": desk.program, "school": school}
    one = SchoolClass.objects.create(**own, label="3-A", grade=3, students=24, **MEETS)
    return TradeClass.objects.create(program=desk.program, trade=trade, school_class=one, share=60, not_taking_part=2)


@pytest.mark.parametrize(
    ("tap", "done", "spoiled"), [("1", 1, 0), ("5", 5, 0), ("lesson", 44, 0), ("spoiled", 0, 1), ("x", 0, 0)]
)
def test_a_tap_counts_what_its_button_says(signed_in, third_grade, program, tap, done, spoiled):
    answer = signed_in.post(reverse("exchanges:class-tally", args=[third_grade.pk]), {"tap": tap, "once": "a"})
    assert answer.url == reverse("exchanges:trade-progress", args=[third_grade.trade_id])
    third_grade.refresh_from_db()
    assert (third_grade.done, third_grade.spoiled) == (done, spoiled)


def test_the_same_tap_sent_twice_counts_once_and_two_taps_count_twice(signed_in, third_grade):
    address = reverse("exchanges:class-tally", args=[third_grade.pk])
    for token in ("a", "a", "b"):
        signed_in.post(address, {"tap": "1", "once": token})
    third_grade.refresh_from_db()
    assert third_grade.done == 2


@pytest.mark.parametrize(
    ("share", "minutes", "each", "lesson"),
    [(60, 45, 20, 44), (60, 45, 60, 22), (60, None, 20, 22), (10, 45, 20, 10), (0, 45, 20, 0)],
)
def test_a_whole_lesson(third_grade, share, minutes, each, lesson):
    """22 children: two items of 20 minutes in 45; one where it takes longer or the minutes are not known."""
    third_grade.share, third_grade.school_class.minutes = share, minutes
    third_grade.trade.minutes_per_item = each
    assert lesson_of(third_grade) == lesson


def test_the_page_counts_and_takes_back(signed_in, desk, third_grade):
    deliver_part(desk=desk, promise=third_grade.trade.plain, day=DAY, quantity=20, part=True)
    signed_in.post(reverse("exchanges:class-tally", args=[third_grade.pk]), {"tap": "5", "once": "a"})
    page = flat(signed_in.get(reverse("exchanges:trade-progress", args=[third_grade.trade_id])))
    for words in ("<strong>5</strong> of", "Whole lesson: +", "Plain items: 20 in, 5 used, 15 left.", "missing"):
        assert words in page
    signed_in.post(reverse("exchanges:tally-take-back", args=[third_grade.tallies.get().pk]), {"once": "b"})
    third_grade.refresh_from_db()
    assert (third_grade.done, third_grade.started_on) == (0, None)
    assert [one for one in differences(desk.program) if "done and spoiled" in one] == []


def test_what_no_class_has_a_lesson_for_leads_to_the_plan(signed_in, third_grade):
    third_grade.trade.classes.update(share=0)
    page = flat(signed_in.get(reverse("exchanges:trade-progress", args=[third_grade.trade_id])))
    assert "planned for no class" in page
    assert reverse("exchanges:trade-plan", args=[third_grade.trade_id]) in page
    assert "of 0 done" not in page
    third_grade.trade.classes.update(share=1000)
    assert "planned for no class" not in flat(
        signed_in.get(reverse("exchanges:trade-progress", args=[third_grade.trade_id]))
    )


def test_what_is_made_beyond_a_share_is_taken_off_the_others(desk, third_grade):
    other = add_class(desk=desk, school=third_grade.school_class.school, label="3-B", grade=3, students=24, **MEETS)
    classes = [(third_grade.school_class, 0), (other, 0)]
    choose_classes(desk=desk, trade=third_grade.trade, classes=classes)
    before = rows(desk.program)
    row = third_grade.trade.classes.get(school_class__label="3-A")
    tally(desk=desk, trade_class=row, day=DAY, done=130)
    assert dict(third_grade.trade.classes.values_list("school_class__label", "share")) == {"3-A": 130, "3-B": 70}
    assert differences(desk.program) == []
    undo_newest(desk)
    assert rows(desk.program) == before


def test_who_may_count(client, third_grade, grace, otto, june):
    address = reverse("exchanges:class-tally", args=[third_grade.pk])
    assert status(client, address, "post", tap="1") == 302
    assert status(enter(client, grace), address, "post", tap="1") == 403
    assert status(enter(client, otto), address, "post", tap="1") == 404
    assert status(enter(client, june), reverse("exchanges:class-tally", args=[UNKNOWN]), "post", tap="1") == 404
    assert status(client, address) == 405
    third_grade.refresh_from_db()
    assert third_grade.done == 0


@pytest.mark.parametrize(
    ("tap", "typed", "counts"), [("number", "37", (37, 0)), ("number-spoiled", "4", (0, 4)), ("number", "x", (0, 0))]
)
def test_a_stack_is_counted_by_a_number_that_is_typed(signed_in, third_grade, tap, typed, counts):
    address = reverse("exchanges:class-tally", args=[third_grade.pk])
    signed_in.post(address, {"tap": tap, "count": typed, "once": "a"})
    third_grade.refresh_from_db()
    assert (third_grade.done, third_grade.spoiled) == counts
