"""The demo book of Alder Falls, an invented town: loaded through the verbs, so that it is a book like any other.

fixtures/demo/alder_falls.json tells it in days before ("ago") and after ("in", "due_in") the day of loading.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

from django.db import transaction

from partners.agenda.actions import close_days
from partners.asking.actions import log_visit
from partners.asking.gather import figures, situation
from partners.asking.may_ask import may_ask
from partners.asking.said import Said
from partners.config.demo_buying import tell_buying
from partners.config.demo_free_days import tell_free_days
from partners.config.demo_grants import tell_grants
from partners.config.demo_helpers import tell_helpers
from partners.config.demo_procedures import tell_procedures
from partners.config.demo_projects import share_projects
from partners.config.demo_season import holidays_around, in_season, recess
from partners.config.demo_trades import carry_out
from partners.config.environment import CHECKOUT
from partners.directory.actions import add_contact, add_partner
from partners.gifts.actions import Line, receive
from partners.gifts.thanks_actions import thanks_said
from partners.program.actions import add_member, edit_program, set_up
from partners.program.desk import Desk
from partners.promises.models import Promise
from partners.school import actions as school
from partners.school import approval_actions
from partners.school.clock import clock
from partners.school.models import ClosureKind, School
from partners.school.project_actions import add_project
from partners.visits.actions import Stop, follow_up_done, plan_outing
from partners.wish_list.actions import add_cannot_use, add_need

BOOK = CHECKOUT / "fixtures" / "demo" / "alder_falls.json"


@transaction.atomic
def load_demo(day: date) -> tuple[str, str]:
    """Makes the demo program as it stands on `day`. Returns the keeper's sign-in name and password."""
    told = json.loads(BOOK.read_text(encoding="utf-8"))
    teacher = told["program"]["teacher"]
    desk, password = set_up(name=teacher, program_name=told["program"]["name"], day=day)
    Loader(replace(desk, day=day), told).load()
    assert desk.user is not None  # noqa: S101 -- set_up makes it
    return desk.user.username, password


class Loader:
    """Carries out what the book tells, in order; `keyed` finds what was made by the name the book gives it."""

    def __init__(self, desk: Desk, told: dict[str, Any]) -> None:
        self.desk = desk
        self.today = desk.day
        self.told = told
        self.keyed: dict[str, Any] = {}

    def load(self) -> None:
        values = {key: value for key, value in self.told["program"].items() if key != "name"}
        edit_program(desk=self.desk, **values)
        for member in self.told["members"]:
            add_member(desk=self.desk, **member)
        self.schools()
        for key, project in self.told["projects"].items():
            values = self.at_school(project)
            told_on = replace(self.desk, day=self.day(-values.pop("told_ago", 0)))
            self.keyed[key] = add_project(desk=told_on, **values)
        for key, need in self.told["needs"].items():
            self.keyed[key] = add_need(desk=self.desk, **self.dated(self.at_school(need)))
        for thing in self.told["cannot_use"]:
            add_cannot_use(desk=self.desk, **thing)
        self.partners()
        for entry in sorted(self.told["history"], key=lambda entry: -entry["ago"]):
            self.happened(entry)
        self.outing()
        tell_helpers(self, self.desk, self.told["helpers"])
        tell_free_days(self, self.desk, self.told["free_days"])
        share_projects(self, self.desk, self.told["joint_projects"])
        tell_buying(self, self.desk, self.told["buying"])
        tell_grants(self, self.desk, self.told["grants"])
        tell_procedures(self, self.desk, self.told["procedures"])

    def schools(self) -> None:
        for key, told in self.told["schools"].items():
            lists = {name: told.get(name, []) for name in ("classes", "rules", "approvals")}
            values = {name: value for name, value in told.items() if name not in lists}
            if values.get("cycle_length"):
                values["cycle_from"] = self.today - timedelta(days=self.today.weekday() + 28)
            made = self.keyed[key] = school.add_school(desk=self.desk, **values)
            self.classes(made, lists["classes"])
            for rule in lists["rules"]:
                approval_actions.add_rule(desk=self.desk, school=made, **rule)
            for approval in lists["approvals"]:
                given: dict[str, Any] = {"on": self.day(-approval["ago"]), "until": self.day(approval["until_in"])}
                given |= {name: approval[name] for name in ("what_for", "by", "paper_held")}
                approval_actions.add_approval(desk=self.desk, school=made, **given)
            free = [(one, last, ClosureKind.CLOSED, name) for one, last, name in holidays_around(self.today)]
            close_days(desk=self.desk, school=made, stretches=free)
        for closed in self.told["closures"]:
            day = self.day(closed["in"])
            first = in_season(self.today, day)
            if first < day:
                continue
            last, title = first + timedelta(days=closed["days"] - 1), closed.get("title") or recess(first)
            school.add_days(desk=self.desk, school=self.keyed[closed["school"]], first=first, last=last, title=title)

    def classes(self, made: School, told: list[dict[str, Any]]) -> None:
        """As they stood a year ago, and then those that are larger or smaller by now."""
        year_ago = replace(self.desk, day=self.day(-365))
        now: dict[str, int] = {}
        for values in map(dict, told):
            if before := values.pop("last_year", None):
                now[values["label"]], values["students"] = values["students"], before
            school.add_class(desk=year_ago, school=made, **values)
        for row in made.classes.filter(label__in=now):
            school.edit_class(desk=self.desk, school_class=row, students=now[row.label])

    def partners(self) -> None:
        place = {"city": "Alder Falls", "state": "NJ", "postal_code": "07000"}
        for key, told in self.told["partners"].items():
            values = {name: value for name, value in told.items() if name != "people"}
            address = place if "street" in told else {}
            partner = self.keyed[key] = add_partner(desk=self.desk, **values, **address)
            for person in told.get("people", []):
                add_contact(desk=self.desk, partner=partner, **person)

    def happened(self, entry: dict[str, Any]) -> None:
        verbs: dict[str, Callable[[Desk, Any], None]] = {
            "log": self.log,
            "arrived": self.arrived,
            "trade": self.traded,
            "thank": self.thank,
            "followed_up": lambda desk, key: self.followed_up(desk, key, entry["outcome"]),
        }
        day = clock(self.desk.program).on_or_before(self.day(-entry["ago"]))
        for name, verb in verbs.items():
            if name in entry:
                verb(replace(self.desk, day=day), entry[name])

    def log(self, desk: Desk, told: dict[str, Any]) -> None:
        values = dict(told)
        partner = self.keyed[values.pop("where")]
        need = self.keyed.get(values.pop("need", ""))
        if name := values.pop("contact", ""):
            values["contact"] = partner.contacts.get(name=name)
        if "due_in" in values:
            values["due"] = self.school_day(values.pop("due_in"))
        if "our_due_in" in values:
            values["our_due"] = self.school_day(values.pop("our_due_in"))
        if hour := values.pop("hour", ""):
            values["due_hour"] = time.fromisoformat(hour)
        at = need.school if need and need.school else None
        log_visit(desk=desk, said=Said(where=partner, day=desk.day, need=need, school=at, **values))

    def arrived(self, desk: Desk, told: dict[str, Any]) -> None:
        values = self.at_school(told)
        partner = self.keyed.get(values.pop("partner", ""))
        values.setdefault("source", "partner")
        values.setdefault("form", "goods")
        if "return_in" in values:
            values["return_on"] = self.school_day(values.pop("return_in"))
        lines = [self.line(partner, line) for line in values.pop("lines", [])]
        receive(desk=desk, partner=partner, day=desk.day, lines=lines, **values)

    def traded(self, desk: Desk, told: dict[str, Any]) -> None:
        carry_out(self, desk, told)

    def line(self, partner: Any, told: dict[str, Any]) -> Line:
        values = dict(told)
        promised: Promise | None = None
        if values.pop("promised", False):
            promised = partner.promises.by_them().open().order_by("due").first()
        need = self.keyed.get(values.pop("need", ""), promised.need if promised else None)
        return Line(need=need, promise=promised, **values)

    def thank(self, desk: Desk, key: str) -> None:
        owed = self.keyed[key].thanks.owed().order_by("-base", "-pk").first()
        if owed is not None:
            thanks_said(desk=desk, thanks=owed, day=desk.day, how="by letter")

    def followed_up(self, desk: Desk, key: str, outcome: str) -> None:
        planned = self.keyed[key].follow_ups.open().get()
        follow_up_done(desk=desk, follow_up=planned, day=desk.day, outcome=outcome)

    def outing(self) -> None:
        told = self.told["outing"]
        day = self.day(told["in"])
        places = [(self.keyed[partner], self.keyed[need]) for partner, need in told["stops"]]
        stops = []
        for partner, need in places:
            known = situation(self.desk, partner, need)
            stops.append(Stop(partner, need, may_ask(known, day, figures(self.desk))))
        plan_outing(desk=self.desk, day=day, stops=stops)

    def day(self, ahead: int) -> date:
        return self.today + timedelta(days=ahead)

    def school_day(self, ahead: int) -> date:
        """A day of the story that has school; what lies behind stays behind, and today stays today."""
        if ahead == 0:
            return self.today
        calendar = clock(self.desk.program)
        if ahead < 0:
            return calendar.on_or_before(self.day(ahead))
        return calendar.on_or_after(in_season(self.today, self.day(ahead)))

    def at_school(self, told: dict[str, Any]) -> dict[str, Any]:
        values = dict(told)
        values["school"] = self.keyed.get(values.get("school", ""))
        if "project" in values:
            values["project"] = self.keyed.get(values["project"], values["project"])
        if values["school"] is None and "amount_cents" not in values:
            values.pop("school")
        return values

    def dated(self, told: dict[str, Any]) -> dict[str, Any]:
        values = dict(told)
        values["needed_by"] = self.school_day(values.pop("needed_in"))
        return values
