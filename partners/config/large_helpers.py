"""Helpers, sessions and hours of a large invented program for measuring, as the verbs would leave them."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.core.management.color import no_style
from django.db import connection

from partners.config.large_filler import FIRST, SECOND, Filler
from partners.helpers.actions import helper_keys
from partners.helpers.jobs import Job
from partners.helpers.models import Helper, Kit
from partners.helpers.session_facts import confirm_days
from partners.helpers.session_models import Session, Turn
from partners.program.models import Program

TURNS_EACH = 5
# One session in so many is still to come, one place short.
COMING_EVERY = 50
SPREAD = 700
KIT_EVERY, OUT_EVERY = 10, 4
UNCALLED_EVERY = 40
JOBS = [job for job in Job.values if job != Job.OTHER]


def fill_helpers(program: Program, helpers: int, day: date) -> None:
    """So many helpers, and five turns for each of them: the sessions hold five helpers each."""
    filler = HelperFiller(program, helpers, day)
    filler.fill_helpers()
    for sql in connection.ops.sequence_reset_sql(no_style(), [Helper, Session, Turn, Kit]):
        connection.cursor().execute(sql)


class HelperFiller(Filler):
    """Turn number n is in session n // 5, with every seventh helper after the one before: nobody is in one twice."""

    def __init__(self, program: Program, helpers: int, day: date) -> None:
        super().__init__(program, helpers, day)
        self.helpers = helpers

    def fill_helpers(self) -> None:
        turns = range(self.helpers * TURNS_EACH)
        self.helper_from = self.write(Helper, range(self.helpers), self.helper)
        self.session_from = self.write(Session, range(len(turns) // TURNS_EACH), self.session)
        self.write(Turn, turns, self.turn)
        self.write(Kit, range(self.helpers // KIT_EVERY), self.kit)

    def helper(self, n: int) -> dict[str, Any]:
        name = f"{FIRST[n % len(FIRST)]} {SECOND[n // len(FIRST) % len(SECOND)]} {n}"
        told = {"name": name, "phone": f"+12015550{100 + n % 100}"}
        said = {"days": f"[{n % 5}, {(n + 2) % 5}]", "jobs": f'["{JOBS[n % len(JOBS)]}"]', "at_school": n % 6 != 0}
        called = {} if n % UNCALLED_EVERY == 0 else {"first_called_on": self.day - timedelta(days=30)}
        cleared = {"cleared": True, "cleared_until": self.day + timedelta(days=n % 400)} if n % 3 else {}
        return {**told, **helper_keys(told), **said, **called, **cleared}

    def held_on(self, n: int) -> date:
        if n % COMING_EVERY == 0:
            return self.calendar.on_or_after(self.day + timedelta(days=1 + n % 40))
        return self.day - timedelta(days=1 + n * 7919 % SPREAD)

    def session(self, n: int) -> dict[str, Any]:
        day = self.held_on(n)
        own = {
            "day": day,
            "starts": "13:00:00",
            "ends": "15:00:00",
            "place": "the art room",
            "job": JOBS[n % len(JOBS)],
        }
        if n % COMING_EVERY:
            return {**own, "needed": TURNS_EACH, "said_yes": TURNS_EACH, "counted_on": day}
        week, before = confirm_days(self.calendar, day)
        return {**own, "needed": 6, "said_yes": TURNS_EACH, "week_due": week, "day_due": before, "short_due": week}

    def turn(self, n: int) -> dict[str, Any]:
        session = n // TURNS_EACH
        own = {"session_id": self.session_from + session, "helper_id": self.helper_from + n * 7 % self.helpers}
        day = self.held_on(session)
        came = {"came": True, "minutes": 120, "thanked_on": day} if session % COMING_EVERY else {}
        return {**own, "reply": "yes", "replied_on": day - timedelta(days=9), **came}

    def kit(self, n: int) -> dict[str, Any]:
        out_on = self.day - timedelta(days=20 + n % 300)
        back = (
            {} if n % OUT_EVERY == 0 else {"back_on": out_on + timedelta(days=12), "minutes": 90, "quantity_back": 12}
        )
        own = {"helper_id": self.helper_from + n * 3 % self.helpers, "what": "felt hearts", "quantity": 12}
        return {**own, "out_on": out_on, "due": out_on + timedelta(days=14), **back}
