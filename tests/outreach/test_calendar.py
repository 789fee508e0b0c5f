"""A free day's calendar file, read back by the icalendar library and by a plain reading of RFC 5545 beside it."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import islice
from typing import Any

import icalendar
import pytest
import time_machine
from dateutil.rrule import rrulestr
from django.test import Client
from django.urls import reverse
from hypothesis import given, settings
from hypothesis import strategies as st

from outreach.feeds.calendar import CalendarDay, calendar_file
from outreach.gathering.free_day import calendar_day
from partners.funding.occasion_actions import add_occasion, end_occasion, tell
from partners.funding.occasion_models import Occasion
from partners.funding.recurrence import times
from partners.program.desk import Desk
from partners.program.models import Membership
from tests import people
from tests.ladder import enter, status

JULY_15 = date(2027, 7, 15)
SALE = CalendarDay(
    uid="9c1b6a1e-6d7c-5a8e-9a51-0d5f0a2d7e11",
    version=3,
    changed_at=datetime(2026, 10, 6, 12, 30, 15, 250, tzinfo=UTC),
    title="Library sale",
    first_on=JULY_15,
    rule="FREQ=YEARLY;BYMONTH=7;BYDAY=3TH",
    place="library basement",
    told=("Open 9 a.m. to noon", "Bring two boxes"),
    remind_before=timedelta(weeks=4),
    reminder="Call and confirm: Library sale",
)


def lines_of(file: bytes) -> list[str]:
    """Content lines, unfolded as RFC 5545, 3.1 says; every raw line is whole characters and at most 75 octets."""
    assert b"\n" not in file.replace(b"\r\n", b"")
    assert b"\r" not in file.replace(b"\r\n", b"")
    assert file.endswith(b"END:VCALENDAR\r\n")
    for raw in file.split(b"\r\n"):
        assert len(raw) <= 75
        raw.decode("utf-8")
    return file.decode("utf-8").replace("\r\n ", "").removesuffix("\r\n").split("\r\n")


def values_of(file: bytes, name: str) -> list[str]:
    return [line.partition(":")[2] for line in lines_of(file) if re.split("[:;]", line)[0] == name]


def text_of(value: str) -> str:
    """A TEXT value without its escapes (RFC 5545, 3.3.11)."""
    return re.sub(r"\\([\\;,nN])", lambda found: "\n" if found[1] in "nN" else found[1], value)


def event_of(file: bytes) -> Any:
    (event,) = icalendar.Calendar.from_ical(file).walk("VEVENT")
    assert event.errors == []
    return event


def test_the_event_is_what_both_readers_see() -> None:
    file = calendar_file(SALE)
    event, known = event_of(file), {name: values_of(file, name) for name in ("SUMMARY", "DTSTART", "DTEND", "RRULE")}
    assert (event["SUMMARY"], event.decoded("DTSTART"), event.decoded("DTEND")) == (
        "Library sale", JULY_15, date(2027, 7, 16),
    )  # fmt: skip
    assert known["DTSTART"] == ["20270715"]
    # RFC 5545, 3.6.1: the end is not part of the event; its example of 28 June to 8 July 2007 has DTEND 20070709.
    assert known["DTEND"] == ["20270716"]
    assert "DTSTART;VALUE=DATE:20270715" in lines_of(file)
    assert values_of(file, "DTSTAMP") == ["20261006T123015Z"]
    assert values_of(file, "SEQUENCE") == ["2"]
    assert values_of(file, "TRANSP") == ["TRANSPARENT"]


def test_both_read_the_same_days_from_its_rule() -> None:
    for rule, until in ((SALE.rule, None), ("FREQ=WEEKLY;INTERVAL=2;BYDAY=TH", date(2027, 12, 31))):
        file = calendar_file(replace(SALE, rule=rule, until=until))
        (text,) = values_of(file, "RRULE")
        plain = rrulestr(text, dtstart=datetime(2027, 7, 15))
        library = rrulestr(event_of(file)["RRULE"].to_ical().decode(), dtstart=datetime(2027, 7, 15))
        ours = [day for day in islice(times(rule, JULY_15), 9) if until is None or day <= until]
        assert [day.date() for day in islice(plain, 9)] == [day.date() for day in islice(library, 9)] == ours
        assert ("UNTIL=20271231" in text) == (until is not None)


def test_a_day_that_comes_once_has_no_rule_and_no_end_of_one() -> None:
    assert values_of(calendar_file(replace(SALE, rule="", until=JULY_15)), "RRULE") == []


def test_what_stands_once_stands_once_and_every_part_is_closed() -> None:
    lines = lines_of(calendar_file(SALE))
    assert lines[0] == "BEGIN:VCALENDAR"
    assert [sum(line.startswith(name) for line in lines) for name in ("PRODID:", "VERSION:2.0", "UID:")] == [1, 1, 1]
    assert [line for line in lines if line.startswith(("BEGIN", "END"))] == [
        "BEGIN:VCALENDAR", "BEGIN:VEVENT", "BEGIN:VALARM", "END:VALARM", "END:VEVENT", "END:VCALENDAR",
    ]  # fmt: skip


def test_it_rings_four_weeks_before_with_its_words() -> None:
    (alarm,) = event_of(calendar_file(SALE)).walk("VALARM")
    assert (alarm["ACTION"], alarm["DESCRIPTION"]) == ("DISPLAY", SALE.reminder)
    assert alarm.decoded("TRIGGER") == timedelta(days=-28)
    assert values_of(calendar_file(SALE), "TRIGGER") == ["-P28D"]
    assert event_of(calendar_file(replace(SALE, remind_before=None))).walk("VALARM") == []


def test_the_same_day_gives_the_same_bytes() -> None:
    assert calendar_file(SALE) == calendar_file(replace(SALE))


def test_signs_that_mean_something_are_escaped_as_the_standard_says() -> None:
    """RFC 5545, 3.3.11: backslash, semicolon, comma and line end; never the colon."""
    file = calendar_file(replace(SALE, title="a;b,c\\d", told=("a;b,c\\d", "e:f")))
    assert values_of(file, "SUMMARY") == ["a\\;b\\,c\\\\d"]
    assert values_of(file, "DESCRIPTION")[0] == "a\\;b\\,c\\\\d\\ne:f"


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=120), st.lists(st.text(min_size=1, max_size=160), max_size=3))
def test_any_words_come_back_whole(title: str, told: list[str]) -> None:
    shown = ["".join(sign if sign.isprintable() else " " for sign in text) for text in (title, *told)]
    file = calendar_file(replace(SALE, title=title, told=tuple(told)))
    event = event_of(file)
    assert [str(event["SUMMARY"])] == [text_of(value) for value in values_of(file, "SUMMARY")] == shown[:1]
    assert str(event.get("DESCRIPTION", "")) == "\n".join(shown[1:])
    assert [text_of(value) for value in values_of(file, "DESCRIPTION")[:1]] == (
        ["\n".join(shown[1:])] if told else [SALE.reminder]
    )


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


def sale(desk: Desk) -> Occasion:
    library = people.make_partner(desk.program, "Library", phone="+12015550116", city="Alder Falls")
    given: dict[str, Any] = {"title": "Library sale", "rule": SALE.rule, "first_on": JULY_15, "bring": "two boxes"}
    row = add_occasion(desk=desk, partner=library, place="basement", **given)
    tell(desk=desk, occasion=row, held_on=date(2026, 7, 16), went=True, day=desk.day, got="46 books")
    return row


@pytest.mark.django_db
def test_the_page_gives_a_file_that_says_whom_to_call_and_what_we_got(signed_in: Client, own: Desk) -> None:
    row = sale(own)
    first = signed_in.get(reverse("outreach:occasion-calendar", args=[row.pk]))
    assert first["Content-Type"] == "text/calendar; charset=utf-8"
    event = event_of(first.content)
    assert event["LOCATION"] == "basement, Library, Alder Falls"
    assert event["DESCRIPTION"].splitlines() == [
        "Bring two boxes", "To confirm, call (201) 555-0116", "Last time we got: 46 books",
    ]  # fmt: skip
    with time_machine.travel("2027-03-01"):
        assert calendar_file(calendar_day(own, Occasion.objects.get(pk=row.pk))) == first.content


@pytest.mark.django_db
def test_two_days_never_share_an_id(signed_in: Client, own: Desk) -> None:
    files = [signed_in.get(reverse("outreach:occasion-calendar", args=[sale(own).pk])).content for _ in range(2)]
    assert len({values_of(file, "UID")[0] for file in files}) == 2


@pytest.mark.django_db
def test_who_may_not_see_it_gets_no_file(client: Client, own: Desk, grace: Membership, otto: Membership) -> None:
    row = sale(own)
    address = reverse("outreach:occasion-calendar", args=[row.pk])
    assert status(client, address) == 302
    assert status(enter(client, grace), address) == 403
    assert status(enter(client, otto), address) == 404
    end_occasion(desk=own, occasion=row, day=own.day)
    enter(client, Membership.objects.get(user__username="june"))
    assert client.get(address)["Location"] == row.get_absolute_url()
