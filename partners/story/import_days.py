"""Gifts of a file as rows, with the thanks that are owed for them and whom they still have to pass."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from typing import Any

from partners.gifts import dates
from partners.gifts.duties import duties_by, rule_of
from partners.gifts.models import Gift, GiftLine, Thanks, ThanksFor
from partners.program.desk import Desk
from partners.school.calendar import SchoolCalendar, together
from partners.school.clock import calendars
from partners.story.planned import Planned

OF_GIFT = {field.attname for field in Gift._meta.concrete_fields} - {"id", "partner_id"}
OF_LINE = ("description", "quantity", "unit", "condition", "risk")


def latest(rows: Iterable[Planned]) -> dict[int, date]:
    """The last day of each partner in the file, by the plan's number of the partner."""
    found: dict[int, date] = {}
    for row in rows:
        day = row.values["day"]
        found[row.spot] = max(day, found.get(row.spot, day))
    return found


class Gifts:
    """The school calendars and rules, read once for all gifts of the file."""

    def __init__(self, desk: Desk, place: Callable[[int], int], settled: bool) -> None:
        self.desk, self.place, self.settled = desk, place, settled
        self.known = calendars(desk.program)
        self.all_schools = together(self.known.values())
        self.rules = list(desk.program.acceptance_rules.order_by("-from_cents", "pk"))
        self.owed: dict[tuple[int | None, date], tuple[date, date]] = {}

    def _clock(self, school_id: int | None) -> SchoolCalendar:
        return self.known.get(school_id or 0, self.all_schools)

    def gift(self, row: Planned) -> Gift:
        own = {name: value for name, value in row.values.items() if name in OF_GIFT}
        gift = Gift(partner_id=self.place(row.spot) if row.spot else None, **own)
        rule, within = rule_of(gift, self.rules), self.desk.program.thank_within
        for name, value in duties_by(gift, rule, self._clock(gift.school_id), within).items():
            setattr(gift, name, value)
        if gift.families_due is not None:
            gift.families_thanked_on = row.values.get("thanked_on") or (gift.day if self.settled else None)
        if self.settled:
            if gift.accept_due is not None:
                gift.accepted_on = gift.accepted_on or gift.day
            if gift.hand_in_due is not None:
                gift.handed_in_on = gift.handed_in_on or gift.day
        return gift

    def lines(self, gift: Gift, rows: Iterable[Planned]) -> Iterator[GiftLine]:
        position = 0
        for row in rows:
            own: dict[str, Any] = {name: row.values[name] for name in OF_LINE if name in row.values}
            if "description" in own:
                position += 1
                yield GiftLine(gift=gift, position=position, **own)

    def thanks(self, gift: Gift, row: Planned) -> Thanks:
        school_id, day = gift.school_id, gift.day
        if (school_id, day) not in self.owed:
            program = self.desk.program
            days = dates.thanks_dates(self._clock(school_id), day, program.thank_within, program.thank_late)
            self.owed[school_id, day] = days
        due, late_from = self.owed[school_id, day]
        done_on = row.values.get("thanked_on") or (day if self.settled else None)
        how = row.values.get("thanked_how", "") if done_on else ""
        said: dict[str, Any] = {
            "partner_id": gift.partner_id,
            "school_id": school_id,
            "done_on": done_on,
            "how": how,
            "base": day,
            "due": due,
            "late_from": late_from,
        }
        return Thanks(reason=ThanksFor.GIFT, gift=gift, **said)
