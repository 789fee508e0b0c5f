"""Works out again every fact that the record keeps ready, and says what differs."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from django.db.models import Max, Sum

from partners.agenda.redate import differing
from partners.directory.actions import KEYED
from partners.directory.keys import keys, people_key
from partners.ground.names import name_key
from partners.program.models import Program


def differences(program: Program) -> list[str]:
    """One sentence for each stored fact that does not follow from the record; an empty list is a sound book."""
    program = Program.objects.get(pk=program.pk)
    checks = (stored_days, partner_keys, last_heard, contact_keys, deliveries, waiting_asks)
    return [sentence for check in checks for sentence in check(program)]


def stored_days(program: Program) -> Iterator[str]:
    for rows in differing(program):
        for row, days in rows:
            for name, day in days.items():
                if getattr(row, name) != day:
                    yield f"{row._meta.model_name} {row.pk}: {name} is {getattr(row, name)}, should be {day}"


def partner_keys(program: Program) -> Iterator[str]:
    people: dict[int, list[str]] = {}
    for partner_id, name in program.contacts.filter(left_on=None).values_list("partner_id", "name"):
        people.setdefault(partner_id, []).append(name)
    for row in program.partners.iterator(chunk_size=2000):
        typed = {name: getattr(row, name) for name in KEYED}
        wanted = keys(**typed) | {"people_key": people_key(people.get(row.pk, ()))}
        for name, key in wanted.items():
            if getattr(row, name) != key:
                yield f"partner {row.pk}: {name} is {getattr(row, name)!r}, should be {key!r}"


def contact_keys(program: Program) -> Iterator[str]:
    for pk, name, key in program.contacts.values_list("pk", "name", "name_key"):
        if key != name_key(name):
            yield f"contact {pk}: name_key is {key!r}, should be {name_key(name)!r}"


def last_heard(program: Program) -> Iterator[str]:
    """The latest of visits, follow-ups done, and gifts."""
    latest: dict[int, date] = {}
    heard: list[tuple[Any, str]] = [
        (program.visits.all(), "day"),
        (program.follow_ups.filter(done_on__isnull=False), "done_on"),
        (program.gifts.filter(partner__isnull=False), "day"),
    ]
    for rows, column in heard:
        newest = rows.order_by().values_list("partner_id").annotate(newest=Max(column))
        for partner_id, day in newest.values_list("partner_id", "newest"):
            latest[partner_id] = max(day, latest.get(partner_id, day))
    for pk, kept in program.partners.values_list("pk", "last_heard_on"):
        if kept != latest.get(pk):
            yield f"partner {pk}: last_heard_on is {kept}, should be {latest.get(pk)}"


def deliveries(program: Program) -> Iterator[str]:
    sums = dict(program.deliveries.values_list("promise_id").annotate(total=Sum("quantity")))
    for pk, kept in program.promises.values_list("pk", "delivered"):
        if kept != (sums.get(pk) or 0):
            yield f"promise {pk}: delivered is {kept}, should be {sums.get(pk) or 0}"


def waiting_asks(program: Program) -> Iterator[str]:
    """A waiting ask has an open follow-up, or a day to look after it, and not both."""
    followed = set(program.follow_ups.filter(done_on=None, ask__isnull=False).values_list("ask_id", flat=True))
    for pk, look_on in program.asks.filter(answer="waiting").values_list("pk", "look_on"):
        if (pk in followed) == (look_on is not None):
            yield f"ask {pk}: waiting with {'both' if look_on else 'neither'} follow-up and day to look after it"
