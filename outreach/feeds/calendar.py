"""Events as a calendar file that any calendar program opens: a free day that comes back, or a whole feed.

iCalendar (RFC 5545), written by the icalendar library. An event takes whole days and leaves them free
(TRANSP:TRANSPARENT): it reminds, and hours stand in its text, where no time zone can shift them. Only where somebody
has to be somewhere it has hours, as instants in UTC, and takes the time.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from icalendar import Alarm, Calendar, Event, vDuration, vRecur

PRODUCT = "-//Partner Book//Calendar//EN"
# How often a program may look for news (RFC 7986, 5.7).
LOOK_AGAIN = timedelta(hours=6)


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
    last_on: date | None = None
    hours: tuple[datetime, datetime] | None = None
    rule: str = ""
    until: date | None = None
    place: str = ""
    told: tuple[str, ...] = ()
    remind_before: timedelta | None = None
    reminder: str = ""


def calendar_file(*days: CalendarDay, name: str = "") -> bytes:
    """The file's bytes; the same for the same events. A feed has a `name`, and says how often to look again."""
    calendar = Calendar()
    calendar.add("PRODID", PRODUCT)
    calendar.add("VERSION", "2.0")
    if name:
        calendar.add("NAME", plain(name))
        calendar.add("X-WR-CALNAME", plain(name))
        calendar.add("REFRESH-INTERVAL", LOOK_AGAIN, parameters={"VALUE": "DURATION"})
        calendar.add("X-PUBLISHED-TTL", vDuration(LOOK_AGAIN))
    for day in days:
        calendar.add_component(_event(day))
    return bytes(calendar.to_ical())


def _event(day: CalendarDay) -> Event:
    event = Event()
    event.add("UID", day.uid)
    # Without a METHOD the stamp says when the event was last changed (RFC 5545, 3.8.7.2).
    event.add("DTSTAMP", day.changed_at.astimezone(UTC).replace(microsecond=0))
    event.add("SEQUENCE", day.version - 1)
    event.add("SUMMARY", plain(day.title))
    starts, ends = _span(day)
    event.add("DTSTART", starts)
    event.add("DTEND", ends)
    if day.rule:
        rule = vRecur.from_ical(day.rule)
        if day.until is not None:
            rule["UNTIL"] = [day.until]
        event.add("RRULE", rule)
    if day.place:
        event.add("LOCATION", plain(day.place))
    if day.told:
        event.add("DESCRIPTION", "\n".join(map(plain, day.told)))
    event.add("TRANSP", "OPAQUE" if day.hours else "TRANSPARENT")
    if day.remind_before is not None:
        event.add_component(_alarm(day.remind_before, plain(day.reminder or day.title)))
    return event


def _span(day: CalendarDay) -> tuple[date, date]:
    if day.hours:
        starts, ends = day.hours
        return starts.astimezone(UTC), ends.astimezone(UTC)
    # The end of a day-long event is the first day that is no part of it.
    return day.first_on, (day.last_on or day.first_on) + timedelta(days=1)


def _alarm(before: timedelta, words: str) -> Alarm:
    alarm = Alarm()
    alarm.add("ACTION", "DISPLAY")
    alarm.add("DESCRIPTION", words)
    alarm.add("TRIGGER", -before)
    return alarm


def plain(text: str) -> str:
    """Control signs are blanks, and so are the blanks that hold words together."""
    return "".join(sign if sign.isprintable() else " " for sign in text.replace("\N{NO-BREAK SPACE}", " "))
