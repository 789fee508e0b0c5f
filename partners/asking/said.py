"""Everything that is said on the "Log a visit" screen, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time

from partners.directory.models import Contact, Partner
from partners.school.models import School
from partners.visits.models import How, OutingStop
from partners.wish_list.models import Need


@dataclass(frozen=True, kw_only=True)
class Said:
    """`where` is the name of a new partner where it is a text. Only `where`, `happened` and `day` must be known.

    `what`, `need`, `quantity` and `amount_cents` (whole cents) are what it was about; `due` and `due_hour` the day and
    hour their promise is kept, or of the first collection of an offer that comes back `every` so often until
    `ends_on`. `our_promise` is what we promised, by `our_due`. `back_on` is a day they named; without it the program's
    figure counts. `met` is the name of somebody not known yet.
    """

    where: Partner | str
    happened: str
    day: date
    how: str = How.IN_PERSON
    stop: OutingStop | None = None
    school: School | None = None
    need: Need | None = None
    what: str = ""
    quantity: int | None = None
    amount_cents: int | None = None
    due: date | None = None
    due_hour: time | None = None
    they_bring: bool = False
    every: str = ""
    ends_on: date | None = None
    our_promise: str = ""
    our_due: date | None = None
    back_on: date | None = None
    never_again: bool = False
    reason: str = ""
    contact: Contact | None = None
    met: str = ""
    sheet_left: bool = False
    note: str = ""
