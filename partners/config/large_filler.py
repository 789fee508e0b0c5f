"""Writes invented rows by the million, in batches, as the verbs would leave them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from itertools import islice
from typing import Any

from django.core.management.color import no_style
from django.db import connection, models

from partners.directory.keys import keys
from partners.directory.models import Partner
from partners.gifts.dates import thanks_dates
from partners.gifts.models import Gift, GiftLine, Thanks
from partners.program.models import Program
from partners.promises.models import Promise
from partners.school.calendar import SchoolCalendar
from partners.school.models import School
from partners.visits.models import Ask, FollowUp, Visit
from partners.wish_list.models import Need

BATCH = 5000
A_PARTNER_HAS = 25
OPEN_EVERY = 10
GIFT_EVERY = 10
PROMISE_EVERY = 20
SPREAD = 700
WRITTEN = [Need, Partner, Visit, Ask, FollowUp, Gift, GiftLine, Thanks, Promise]
FIRST = ("Amber", "Birch", "Cedar", "Dapple", "Elder", "Fallow", "Gable", "Hazel", "Ivory", "Juniper", "Kestrel")
SECOND = ("Bakery", "Books", "Framing", "Garden", "Hardware", "Market", "Paper", "Pottery", "Printing", "Yarn")


def adapted(values: dict[str, Any]) -> dict[str, Any]:
    """Values as the database takes them."""
    adapt = connection.ops.adapt_datefield_value
    return {name: adapt(value) if isinstance(value, date) else value for name, value in values.items()}


class Filler:
    """Row number n of every kind belongs to the same story: a visit, its ask, its follow-up, at times a gift."""

    def __init__(self, program: Program, count: int, day: date) -> None:
        self.program, self.count, self.day = program, count, day
        self.calendar = SchoolCalendar()
        self.partners = max(300, count // A_PARTNER_HAS)

    def fill(self) -> None:
        if connection.vendor == "sqlite":
            # Rows come in no order of their days, and the indexes of a million do not fit into the usual two megabytes.
            connection.cursor().execute("PRAGMA cache_size = -200000")
        numbers = range(self.count)
        self.school = School.objects.create(program=self.program, name="Large Elementary")
        needs = self.write(Need, range(40), lambda n: {"what": f"thing {n}", "quantity": 100 + n})
        partners = self.write(Partner, range(self.partners), self.partner)
        self.partner_from, self.need_from = partners, needs
        visits = self.write(Visit, numbers, lambda n: {"day": self.day_of(n), "happened": "maybe", **self.who(n)})
        asks = self.write(Ask, numbers, lambda n: self.ask(n, visits))
        self.write(FollowUp, numbers, lambda n: self.follow_up(n, asks))
        gifts = range(0, self.count, GIFT_EVERY)
        first = self.write(Gift, gifts, lambda n: {"day": self.day_of(n), "form": "goods", **self.who(n)})
        self.write(
            GiftLine, range(len(gifts)), lambda n: {"gift_id": first + n, "description": "offcuts", "quantity": 9}
        )
        self.write(Thanks, range(len(gifts)), lambda n: self.thanks(n, first))
        self.write(Promise, range(0, self.count, PROMISE_EVERY), self.promise)
        # PostgreSQL hands out ids from a sequence that knows nothing of those given here.
        for sql in connection.ops.sequence_reset_sql(no_style(), WRITTEN):
            connection.cursor().execute(sql)

    def write(self, model: type[models.Model], numbers: range, values: Callable[[int], dict[str, Any]]) -> int:
        """Rows of one kind, in batches. Returns the id of the first; the others follow it one by one.

        One row is made as the model makes it; the others are that row with their own id and values. A model object for
        each of the millions would take four times as long.
        """
        last: Any = model._base_manager.order_by("-pk").values_list("pk", flat=True).first()
        first = (last or 0) + 1
        fields = model._meta.concrete_fields
        one = model(program=self.program)
        same = {field.attname: field.get_db_prep_save(field.value_from_object(one), connection) for field in fields}
        columns = ", ".join(connection.ops.quote_name(str(field.column)) for field in fields)
        places = ", ".join(["%s"] * len(fields))
        insert = f"INSERT INTO {connection.ops.quote_name(model._meta.db_table)} ({columns}) VALUES ({places})"  # noqa: S608
        rows: Iterator[tuple[Any, ...]] = (
            tuple({**same, "id": first + place, **adapted(values(n))}.values()) for place, n in enumerate(numbers)
        )
        with connection.cursor() as cursor:
            while batch := list(islice(rows, BATCH)):
                cursor.executemany(insert, batch)
        return first

    def day_of(self, n: int) -> date:
        return self.day - timedelta(days=1 + n * 7919 % SPREAD)

    def who(self, n: int) -> dict[str, Any]:
        return {"partner_id": self.partner_from + n % self.partners, "created_by_id": None}

    def partner(self, n: int) -> dict[str, Any]:
        name = f"{FIRST[n % len(FIRST)]} {SECOND[n // len(FIRST) % len(SECOND)]} {n}"
        phone = f"+12015550{100 + n % 100}"
        own = [self.day_of(k) for k in range(n, self.count, self.partners)]
        told = {"name": name, "phone": phone}
        return {**told, "kind": "business", "last_heard_on": self.heard(n, own), **keys(**told)}

    def heard(self, n: int, own: list[date]) -> date | None:
        """The latest visit, follow-up done or gift."""
        done = [self.day_of(k) + timedelta(days=7) for k in range(n, self.count, self.partners) if k % OPEN_EVERY]
        return max([*own, *(min(day, self.day) for day in done)], default=None)

    def ask(self, n: int, visits: int) -> dict[str, Any]:
        day = self.day_of(n)
        answer = {"answer": "yes", "answered_on": min(day + timedelta(days=7), self.day)} if n % OPEN_EVERY else {}
        about = {"visit_id": visits + n, "need_id": self.need_from + n % 40, "what": f"thing {n % 40}"}
        return {"asked_on": day, **about, **self.who(n), **answer}

    def follow_up(self, n: int, asks: int) -> dict[str, Any]:
        base = self.day_of(n)
        due = self.calendar.on_or_after(base + timedelta(days=self.program.follow_up_days))
        done = {"done_on": min(base + timedelta(days=7), self.day)} if n % OPEN_EVERY else {}
        return {
            "ask_id": asks + n,
            "what": f"Ask about thing {n % 40}",
            "base": base,
            "due": due,
            **self.who(n),
            **done,
        }

    def thanks(self, n: int, gifts: int) -> dict[str, Any]:
        number = n * GIFT_EVERY
        base = self.day_of(number)
        due, late_from = thanks_dates(self.calendar, base, self.program.thank_within, self.program.thank_late)
        done = {"done_on": min(base + timedelta(days=3), self.day)} if n % 8 else {}
        own = {"reason": "gift", "gift_id": gifts + n, "base": base, "due": due, "late_from": late_from}
        return {**own, **self.who(number), **done}

    def promise(self, n: int) -> dict[str, Any]:
        made = self.day_of(n)
        due = made + timedelta(days=30)
        settled = {"settled_on": due, "settled_how": "that_was_all"} if n % (PROMISE_EVERY * 4) else {}
        said = {"side": "them", "what": "offcuts", "quantity": 20, "made_on": made, "due": due}
        return {**said, **self.who(n), **settled}
