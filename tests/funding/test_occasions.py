"""Free days: their verbs, what is due of them, how they are entered, and a partner's story."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, time
from typing import Any

import pytest
import time_machine
from django.contrib.messages import get_messages
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.funding import occasion_actions as actions
from partners.funding import occasion_due as due
from partners.funding.occasion_models import Occasion, OccasionDay
from partners.funding.occasion_words import hours_words, rule_words
from partners.ground.due import DueLine, Hand
from partners.program.desk import Desk
from partners.program.models import Membership, Opened
from partners.story.rooms import told
from tests import people, whole_book
from tests.ladder import UNKNOWN, enter, flat, status
from tests.query_plan import plan_of

THIRD_THURSDAY = "FREQ=YEARLY;BYMONTH=7;BYDAY=3TH"
JULY_15 = date(2027, 7, 15)
CONFIRM, GO = due.SOURCES
NEW = {"title": "Library sale", "every": "year_weekday", "which": "3", "weekday": "3", "month": "7", "first_on": ""}


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 12:00 -0400", tick=False):
        yield


@pytest.fixture
def own(june: Membership) -> Iterator[Desk]:
    """Whatever was done, what the book keeps ready still follows from the record."""
    yield people.make_desk(june.program, user=june.user)
    assert differences(june.program) == []


def sale(desk: Desk, **values: Any) -> Occasion:
    return actions.add_occasion(
        desk=desk, **{"title": "Library sale", "rule": THIRD_THURSDAY, "first_on": JULY_15, **values}
    )


def on(desk: Desk, day: date) -> Desk:
    return replace(desk, day=day)


def lines(source: Any, desk: Desk) -> list[DueLine]:
    return source.page(desk, until=date(2032, 1, 1), limit=9)


@pytest.mark.parametrize(
    ("rule", "words"),
    [
        ("", "once"),
        (THIRD_THURSDAY, "every year on the third Thursday of July"),
        ("FREQ=YEARLY;BYMONTH=3;BYMONTHDAY=9", "every year on March 9"),
        ("FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29", "on February 29, so in leap years only"),
        ("FREQ=MONTHLY;BYDAY=1SA", "every first Saturday of the month"),
        ("FREQ=MONTHLY;BYDAY=-1SU", "every last Sunday of the month"),
        ("FREQ=WEEKLY;INTERVAL=2;BYDAY=FR", "every two weeks on Friday"),
        ("FREQ=WEEKLY;BYDAY=MO", "every week on Monday"),
        ("FREQ=DAILY;COUNT=3", "by a rule of its own"),
    ],
)
def test_a_rule_is_told_as_people_say_it(rule: str, words: str) -> None:
    assert rule_words(rule) == words


def test_hours_are_told_as_far_as_they_are_known() -> None:
    assert hours_words(time(9), time(12)).replace("\xa0", " ") == "9 a.m. to noon"
    assert hours_words(None, None) == ""


def test_it_is_confirmed_four_weeks_before_with_the_number_to_call(own: Desk) -> None:
    library = people.make_partner(own.program, "Library", phone="+12015550116", phone_key="+12015550116")
    sale(own, partner=library)
    (line,) = lines(CONFIRM, own)
    assert (line.due, line.hand, line.phone, line.what) == (date(2027, 6, 17), Hand.CALL, "+12015550116", "July 15")
    CONFIRM.settle["done"](desk=own, row=Occasion.objects.get(), day=own.day)
    assert lines(CONFIRM, own) == []
    whole_book.undo_newest(own)
    assert len(lines(CONFIRM, own)) == 1


def test_on_its_day_the_line_says_what_to_bring(own: Desk) -> None:
    sale(own, bring="two boxes", proof="school ID", limits="50 books", place="the basement")
    (line,) = lines(GO, on(own, JULY_15))
    assert (str(line.verb), line.what, line.due) == ("Go to", "the basement", JULY_15)
    assert line.why == "nobody confirmed it yet; bring two boxes; they want to see school ID; free: 50 books"


def test_a_day_that_went_by_stays_due_until_somebody_says_what_became_of_it(own: Desk) -> None:
    occasion = sale(own)
    actions.confirm(desk=own, occasion=occasion, day=own.day)
    later = on(own, date(2027, 9, 1))
    (line,) = lines(GO, later)
    assert (str(line.verb), line.due) == ("Did you go?", JULY_15)
    assert lines(CONFIRM, later) == []
    actions.tell(desk=later, occasion=occasion, held_on=JULY_15, went=True, day=later.day, got="46 books")
    occasion.refresh_from_db()
    assert (occasion.next_on, occasion.confirmed_on) == (date(2028, 7, 20), None)
    whole_book.undo_newest(later)
    occasion.refresh_from_db()
    assert (occasion.next_on, occasion.confirmed_on) == (JULY_15, own.day)


def test_what_was_missed_meanwhile_is_not_called_up_again(own: Desk) -> None:
    friday = date(2026, 10, 9)
    occasion = sale(own, rule="FREQ=WEEKLY;INTERVAL=2;BYDAY=FR", first_on=friday)
    assert occasion.confirm_by is None
    back = on(own, date(2026, 12, 4))
    GO.settle["never_came"](desk=back, row=occasion, day=back.day)
    occasion.refresh_from_db()
    assert occasion.next_on == date(2026, 12, 4)


def test_an_earlier_time_is_kept_and_moves_nothing(own: Desk) -> None:
    occasion = sale(own)
    actions.tell(desk=own, occasion=occasion, held_on=date(2026, 7, 16), went=True, day=own.day, got="books")
    occasion.refresh_from_db()
    assert occasion.next_on == JULY_15


def test_after_its_last_time_nothing_is_due_any_more(own: Desk) -> None:
    once = sale(own, rule="", first_on=date(2026, 10, 5))
    ending = sale(own, ends_on=date(2027, 12, 31))
    ended = sale(own)
    for occasion in (once, ending):
        actions.not_this_time(desk=on(own, JULY_15), occasion=occasion, day=JULY_15)
    actions.end_occasion(desk=own, occasion=ended, day=own.day)
    assert not Occasion.objects.exclude(next_on=None, confirm_by=None).exists()
    assert lines(GO, own) == lines(CONFIRM, own) == []


def test_another_day_is_not_confirmed_any_more(own: Desk) -> None:
    occasion = sale(own)
    actions.confirm(desk=own, occasion=occasion, day=own.day)
    actions.edit_occasion(desk=own, occasion=occasion, title="Book sale")
    assert Occasion.objects.get().confirmed_on == own.day
    actions.edit_occasion(desk=own, occasion=occasion, rule="", first_on=date(2027, 7, 22))
    stored = Occasion.objects.get()
    assert (stored.next_on, stored.confirmed_on) == (date(2027, 7, 22), None)


@pytest.mark.parametrize(("source", "index"), [(CONFIRM, "occasion_to_confirm"), (GO, "occasion_to_go")])
def test_what_is_due_comes_from_its_index(own: Desk, source: Any, index: str) -> None:
    plan = plan_of(lambda: lines(source, own))
    assert index in plan
    assert "TEMP B-TREE" not in plan


def test_the_partners_story_tells_of_it(own: Desk) -> None:
    library = people.make_partner(own.program, "Library")
    occasion = sale(own, partner=library)
    actions.tell(desk=own, occasion=occasion, held_on=date(2026, 7, 16), went=True, day=own.day, got="46 books")
    found = {str(line.what): line.detail for line in told(own, library)}
    assert found["We went to Library sale"] == "46 books"
    assert found["Their free day: Library sale"].startswith("every year on the third Thursday of July, next on")


def sent(client: Client, name: str, pk: int | None = None, /, **typed: Any) -> str:
    answer = client.post(reverse(f"funding:{name}", args=[pk] if pk else []), typed)
    assert answer.status_code == 302, flat(answer)
    return str(list(get_messages(answer.wsgi_request))[-1])


@pytest.mark.parametrize(
    ("typed", "rule", "first"),
    [
        ({}, THIRD_THURSDAY, JULY_15),
        ({"first_on": "2028-07-20"}, THIRD_THURSDAY, date(2028, 7, 20)),
        ({"every": "month_weekday", "which": "-1", "weekday": "5"}, "FREQ=MONTHLY;BYDAY=-1SA", date(2026, 10, 31)),
        ({"every": "year_date", "first_on": "2027-03-09"}, "FREQ=YEARLY;BYMONTH=3;BYMONTHDAY=9", date(2027, 3, 9)),
        ({"every": "two_weeks", "first_on": "2026-10-09"}, "FREQ=WEEKLY;INTERVAL=2;BYDAY=FR", date(2026, 10, 9)),
        ({"every": "once", "first_on": "2026-10-06"}, "", people.TUESDAY),
    ],
)
def test_it_is_entered_in_plain_words(
    signed_in: Client, own: Desk, typed: dict[str, str], rule: str, first: date
) -> None:
    sent(signed_in, "occasion-new", **{**NEW, **typed})
    occasion = Occasion.objects.get()
    assert (occasion.rule, occasion.first_on, occasion.next_on) == (rule, first, first)


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ({"first_on": "2027-07-14"}, "the next such day is July 15, 2027"),
        ({"first_on": "2026-07-16"}, "That day is past. Type the next time."),
        ({"every": "once"}, "Say which day the next time is."),
        ({"weekday": ""}, "Say which day of the week."),
        ({"month": "13"}, "13 is not one of the available choices"),
        ({"first_on": "2051-07-20"}, "more than three years ahead"),
        ({"ends_on": "2026-12-31"}, "It ends before the next time comes."),
        ({"opens_at": "12:00", "closes_at": "09:00"}, "It closes before it opens."),
    ],
)
def test_what_cannot_be_is_said_and_nothing_is_lost(signed_in: Client, typed: dict[str, str], error: str) -> None:
    page = flat(signed_in.post(reverse("funding:occasion-new"), {**NEW, **typed}))
    assert error in page.replace("&#x27;", "'")
    assert 'value="Library sale"' in page
    assert not Occasion.objects.exists()


def test_a_changed_rule_finds_its_own_next_day(signed_in: Client, own: Desk) -> None:
    occasion = sale(own)
    page = flat(signed_in.get(reverse("funding:occasion-edit", args=[occasion.pk])))
    assert '<option value="3" selected>third</option>' in page
    sent(signed_in, "occasion-edit", occasion.pk, **{**NEW, "which": "1", "first_on": "2027-07-15"})
    occasion.refresh_from_db()
    assert (occasion.rule, occasion.next_on) == ("FREQ=YEARLY;BYMONTH=7;BYDAY=1TH", date(2027, 7, 1))


def test_its_page_takes_every_answer(signed_in: Client, own: Desk) -> None:
    occasion = sale(own, rule="FREQ=MONTHLY;BYDAY=1TU", first_on=people.TUESDAY)
    assert "takes place on October 6" in sent(signed_in, "occasion-confirm", occasion.pk, held="yes")
    told_words = sent(signed_in, "occasion-went", occasion.pk, went="yes", day="2026-10-06", got="a roll of felt")
    assert "The next time is November 3." in told_words
    page = flat(signed_in.get(occasion.get_absolute_url()))
    assert "we got: <strong>a roll of felt</strong>" in page
    assert "The next time is December 1." in sent(signed_in, "occasion-confirm", occasion.pk, held="no")
    assert "No longer held" in sent(signed_in, "occasion-end", occasion.pk)


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ({"day": "2026-10-07"}, "That day is still ahead."),
        ({"went": "no"}, "You did not go"),
        ({"went": ""}, "Say whether you went."),
        ({"day": "2026-07-16"}, "That day is written down already."),
    ],
)
def test_a_time_that_cannot_be_is_refused(signed_in: Client, own: Desk, typed: dict[str, str], error: str) -> None:
    occasion = sale(own)
    actions.tell(desk=own, occasion=occasion, held_on=date(2026, 7, 16), went=True, day=own.day)
    given = {"went": "yes", "day": "2026-10-05", "got": "books", **typed}
    assert error in flat(signed_in.post(reverse("funding:occasion-went", args=[occasion.pk]), given))
    assert OccasionDay.objects.count() == 1


def test_the_ladder(client: Client, own: Desk, grace: Membership, otto: Membership) -> None:
    occasion = sale(own, told_by="Omar Whitfield")
    address, new = occasion.get_absolute_url(), reverse("funding:occasion-new")
    assert status(client, address) == 302
    enter(client, grace)
    assert status(client, address) == 403
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.MONEY])
    page = flat(client.get(address))
    assert "Omar Whitfield" not in page
    assert "It takes place" not in page
    assert status(client, new) == 403
    enter(client, otto)
    assert status(client, address) == status(client, reverse("funding:occasion-detail", args=[UNKNOWN])) == 404
    assert status(client, address, "post") == 405
