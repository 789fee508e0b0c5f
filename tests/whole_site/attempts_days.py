"""What can be typed into the forms of free days."""

from __future__ import annotations

from tests import people
from tests.whole_site.attempt import Attempt, set_to

RULE = {"every": "year_weekday", "which": "3", "weekday": "3", "month": "7", "first_on": ""}
COMING = {"next_on": people.TUESDAY.replace(year=2027), "confirmed_on": None}
ATTEMPTS: dict[str, Attempt] = {
    "funding:occasion-confirm": Attempt(before=set_to("occasions", **COMING), page="funding:occasion-detail"),
    "funding:occasion-edit": Attempt(
        {"title": "Book sale", "opens_at": "09:00", "closes_at": "12:00", "ends_on": "", **RULE}
    ),
    "funding:occasion-end": Attempt(page="funding:occasion-detail"),
    "funding:occasion-new": Attempt(
        {"title": "Clear-out of the frame shop", "every": "year_date", "first_on": "2027-02-02"}
    ),
    "funding:occasion-went": Attempt({"went": "yes", "day": "2027-01-11", "got": "40 books"}),
}
