"""The calendar feed: what stands in it for whom, and who reaches it. Read back by two libraries and a plain reading."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import icalendar
import pytest
import time_machine
import vobject
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from outreach.feeds import secret_address
from outreach.feeds.calendar import CalendarDay, calendar_file
from partners.agenda.actions import take_back
from partners.funding.occasion_actions import add_occasion
from partners.ground.models import Event
from partners.helpers.models import Helper
from partners.helpers.session_actions import add_session
from partners.program.actions import calendar_off, renew_calendar
from partners.program.desk import Desk
from partners.program.models import Membership, Opened, Role
from partners.promises.actions import promise
from partners.school.models import SchoolDays
from tests import people
from tests.ladder import enter, flat
from tests.outreach.test_calendar import lines_of, values_of

NOON = "2026-10-06 12:00 -0400"
DAY = date(2026, 10, 6)


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON, tick=False):
        yield
    timezone.deactivate()


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.fixture
def book(own: Desk) -> Desk:
    """One of each kind, with a phone number, a note and a helper that have no business in a feed."""
    program = own.program
    school = people.make_school(program)
    partner = people.make_partner(program, phone="+12015550116", email="ask@example.org", notes="Ask for the owner.")
    promise(
        desk=own, partner=partner, side="them", what="60 plain pots", due=date(2026, 10, 20), made_on=DAY, school=school
    )
    rule = {"rule": "FREQ=YEARLY;BYMONTH=7;BYDAY=3TH", "first_on": date(2027, 7, 15)}
    add_occasion(desk=own, partner=partner, title="Library sale", **rule)
    hours = {"starts": time(13), "ends": time(15, 30)}
    add_session(desk=own, day=date(2026, 11, 12), place="the gym", school=school, job="hanging", **hours)
    days = {"first": date(2026, 12, 21), "last": date(2027, 1, 1), "title": "Winter break"}
    SchoolDays.objects.create(program=program, school=school, **days)
    Helper.objects.create(program=program, name="Rosa Quill", cleared=True, cleared_until=date(2026, 10, 30))
    return own


def address(member: Membership) -> str:
    member.refresh_from_db()
    return reverse("outreach:calendar-feed", args=[secret_address.written(member.pk, member.calendar_turn)])


def turned_on(desk: Desk, member: Membership) -> str:
    renew_calendar(desk=desk, member=member)
    return address(member)


def events(file: bytes) -> dict[str, Any]:
    return {str(event["SUMMARY"]): event for event in icalendar.Calendar.from_ical(file).walk("VEVENT")}


COLLECT = "Collect from Riverbend Garden Center: 60 plain pots"
HANGING = "Helpers: hanging a show"
CLOSED = "No school at Millrace Elementary: Winter break"


def test_several_days_end_on_the_first_day_after_them() -> None:
    """RFC 5545, 3.6.1: the example of 28 June to 8 July 2007 has DTEND 20070709."""
    trip = CalendarDay(
        "a", 1, datetime(2007, 4, 23, tzinfo=UTC), "Festival", date(2007, 6, 28), last_on=date(2007, 7, 8)
    )
    file = calendar_file(trip, trip, name="Ours")
    assert (values_of(file, "DTSTART")[0], values_of(file, "DTEND")[0]) == ("20070628", "20070709")
    assert [values_of(file, name) for name in ("PRODID", "VERSION")] == [["-//Partner Book//Calendar//EN"], ["2.0"]]
    # RFC 7986, 5.7: the duration is said to be one.
    assert "REFRESH-INTERVAL;VALUE=DURATION:PT6H" in lines_of(file)


@pytest.mark.django_db
def test_every_kind_stands_in_it_and_two_libraries_read_the_same(client: Client, book: Desk, june: Membership) -> None:
    answer = client.get(turned_on(book, june))
    found = events(answer.content)
    assert {COLLECT, HANGING, CLOSED, "Library sale"} <= set(found)
    other = {event.summary.value: event for event in vobject.readOne(answer.content.decode()).vevent_list}
    assert set(other) == set(found)
    for name, event in found.items():
        assert event.errors == []
        assert other[name].uid.value == event["UID"]
        assert other[name].dtstart.value == event.decoded("DTSTART")
        assert other[name].dtend.value == event.decoded("DTEND")
    assert [other[name].transp.value for name in (COLLECT, HANGING)] == ["TRANSPARENT", "OPAQUE"]
    assert found[CLOSED].decoded("DTEND") == date(2027, 1, 2)
    # In November the town is five hours behind UTC.
    assert found[HANGING].decoded("DTSTART") == datetime(2026, 11, 12, 18, tzinfo=UTC)
    assert str(found["Library sale"]["RRULE"].to_ical(), "ascii") == "FREQ=YEARLY;BYDAY=3TH;BYMONTH=7"
    lines_of(answer.content)


@pytest.mark.django_db
def test_nothing_private_stands_in_it(client: Client, book: Desk, june: Membership) -> None:
    lines = lines_of(client.get(turned_on(book, june)).content)
    text = "\n".join(line for line in lines if not line.startswith("UID:"))
    for private in ("555-0116", "5550116", "@", "owner", "Rosa"):
        assert private not in text
    assert "Ask the office about a helper" in text


@pytest.mark.django_db
def test_it_answers_a_program_that_knows_no_cookies(client: Client, book: Desk, june: Membership) -> None:
    answer = client.get(turned_on(book, june))
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert (answer["Cache-Control"], answer["X-Robots-Tag"]) == ("private", "noindex")
    assert not answer.cookies
    again = client.get(address(june), headers={"If-None-Match": answer["ETag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert client.post(address(june)).status_code == 405


@pytest.mark.django_db
def test_the_same_things_keep_their_ids_on_another_day(client: Client, book: Desk, june: Membership) -> None:
    first = events(client.get(turned_on(book, june)).content)
    with time_machine.travel("2026-10-08 12:00 -0400", tick=False):
        later = events(client.get(address(june)).content)
    assert {name: event["UID"] for name, event in first.items()} == {n: event["UID"] for n, event in later.items()}
    assert len({event["UID"] for event in first.values()}) == len(first)


@pytest.mark.django_db
def test_old_things_and_far_ones_stay_out(client: Client, book: Desk, june: Membership) -> None:
    turned_on(book, june)
    with time_machine.travel("2027-03-01 12:00 -0500", tick=False):
        found = events(client.get(address(june)).content)
    assert set(found) == {"Library sale", "Confirm Library sale: July 15"}


@pytest.mark.django_db
def test_it_holds_what_the_member_may_open_and_of_their_schools(client: Client, book: Desk, june: Membership) -> None:
    other = people.make_school(book.program, "North Ridge Elementary")
    at = turned_on(book, june)
    Membership.objects.filter(pk=june.pk).update(school_ids=[other.pk])
    assert {COLLECT, HANGING, CLOSED}.isdisjoint(events(client.get(at).content))
    Membership.objects.filter(pk=june.pk).update(school_ids=[], role=Role.GUEST, opened=[Opened.HELPERS])
    assert set(events(client.get(at).content)) == {HANGING, CLOSED}


@pytest.mark.django_db
def test_an_address_that_was_given_up_leads_nowhere_for_good(client: Client, own: Desk, june: Membership) -> None:
    given = [turned_on(own, june)]
    given.append(turned_on(own, june))
    take_back(desk=own, event=Event.objects.latest("pk"))
    assert [client.get(at).status_code for at in given] == [200, 404]
    june.refresh_from_db()
    given.append(turned_on(own, june))
    calendar_off(desk=own, member=june)
    given.append(address(june))
    assert [client.get(at).status_code for at in given] == [404, 404, 404, 404]
    given.append(turned_on(own, june))
    assert len(set(given)) == 5
    assert client.get(given[-1]).status_code == 200


@pytest.mark.django_db
def test_only_a_signed_address_of_a_member_is_one(
    client: Client, own: Desk, june: Membership, otto: Membership
) -> None:
    at = turned_on(own, june)
    signature = at.rpartition("/")[2].partition(".")[2].removesuffix(".ics")
    for forged in (f"{otto.pk}-{june.calendar_turn}.{signature}", "x", "1-1", f"{june.pk}-3.", "9" * 300, "é.é"):
        assert client.get(reverse("outreach:calendar-feed", args=[forged])).status_code == 404
    june.user.is_active = False
    june.user.save()
    assert client.get(at).status_code == 404


@pytest.mark.django_db
def test_who_asks_too_often_waits_a_minute(client: Client, own: Desk, june: Membership, monkeypatch: Any) -> None:
    monkeypatch.setattr("outreach.calendar_views.MOST_A_MINUTE", 2)
    at = turned_on(own, june)
    answers = [client.get(at) for _time in range(3)]
    assert [answer.status_code for answer in answers[-2:]] == [200, 429]
    assert answers[-1]["Retry-After"] == "60"
    with time_machine.travel(datetime(2026, 10, 6, 16, 1, 1, tzinfo=UTC) + timedelta(seconds=1), tick=False):
        assert client.get(at).status_code == 200


@pytest.mark.django_db
def test_the_page_shows_the_address_and_what_it_gives_away(signed_in: Client, grace: Membership) -> None:
    page = reverse("outreach:your-calendar")
    assert "There is no address now" in flat(signed_in.get(page))
    signed_in.post(reverse("outreach:calendar-renew"))
    june = Membership.objects.get(user__username="june")
    shown = flat(signed_in.get(page))
    assert f'value="http://testserver{address(june)}"' in shown
    assert "phone numbers" in shown
    signed_in.post(reverse("outreach:calendar-end"))
    assert "There is no address now" in flat(signed_in.get(page))
    assert [enter(signed_in, grace).get(page).status_code] == [403]
