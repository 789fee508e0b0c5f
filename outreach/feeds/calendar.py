"""A free day as a calendar file: one event that comes back by its rule, opened by any calendar program.

iCalendar (RFC 5545), written by the icalendar library. The event takes the whole day and leaves it free
(TRANSP:TRANSPARENT): it reminds, and the hours stand in its text, where no time zone can shift them.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from icalendar import Alarm, Calendar, Event, vRecur

PRODUCT = "-//Partner Book//Free days//EN"


@dataclass(frozen=True, slots=True)
class CalendarDay:
    """What the event says. `rule` is an RFC 5545 rule or empty, `until` the last day it can fall on.

    `uid` stays the same whenever the row is exported, and `version` counts its changes from 1; `changed_at` must know
    its time zone. `remind_before` is None where nothing is to ring.
    """

    uid: str
    version: int
    changed_at: datetime
    title: str
    first_on: date
    rule: str = ""
    until: date | None = None
    place: str = ""
    told: tuple[str, ...] = ()
    remind_before: timedelta | None = None
    reminder: str = ""


def calendar_file(day: CalendarDay) -> bytes:
    """The file's bytes; the same for the same event."""
    calendar = Calendar()
    calendar.add("PRODID", PRODUCT)
    calendar.add("VERSION", "2.0")
    calendar.add_component(_event(day))
    return bytes(calendar.to_ical())


def _event(day: CalendarDay) -> Event:
    event = Event()
    event.add("UID", day.uid)
    # Without a METHOD the stamp says when the event was last changed (RFC 5545, 3.8.7.2).
    event.add("DTSTAMP", day.changed_at.astimezone(UTC).replace(microsecond=0))
    event.add("SEQUENCE", day.version - 1)
    event.add("SUMMARY", plain(day.title))
    event.add("DTSTART", day.first_on)
    # The end of a day-long event is the first day that is no part of it.
    event.add("DTEND", day.first_on + timedelta(days=1))
    if day.rule:
        rule = vRecur.from_ical(day.rule)
        if day.until is not None:
            rule["UNTIL"] = [day.until]
        event.add("RRULE", rule)
    if day.place:
        event.add("LOCATION", plain(day.place))
    if day.told:
        event.add("DESCRIPTION", "\n".join(map(plain, day.told)))
    event.add("TRANSP", "TRANSPARENT")
    if day.remind_before is not None:
        event.add_component(_alarm(day.remind_before, plain(day.reminder or day.title)))
    return event


def _alarm(before: timedelta, words: str) -> Alarm:
    alarm = Alarm()
    alarm.add("ACTION", "DISPLAY")
    alarm.add("DESCRIPTION", words)
    alarm.add("TRIGGER", -before)
    return alarm


def plain(text: str) -> str:
    """Control signs are blanks, and so are the blanks that hold words together."""
    return "".join(sign if sign.isprintable() else " " for sign in text.replace("\N{NO-BREAK SPACE}", " "))
