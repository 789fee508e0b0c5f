"""Writing what a file says: all of its rows or none, as one change, in few statements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from django.utils.translation import gettext, gettext_noop

from partners.agenda.class_actions import save_classes
from partners.directory.keys import keys, people_key
from partners.directory.kind_named import kind_named
from partners.directory.models import Contact, Partner
from partners.ground.changes import Change, change
from partners.ground.names import name_key
from partners.program.desk import Desk
from partners.school.actions import ClassLine
from partners.story import import_days
from partners.story.kinds import KINDS
from partners.story.plan_file import people_of
from partners.story.plan_people import KEYED
from partners.story.planned import Becomes, Plan, Planned
from partners.visits.models import Visit

AT_ONCE = 500
OF_PLACE = ("partner", "partner_phone", "partner_street")


def import_rows(*, desk: Desk, plan: Plan, settled: bool = False) -> int:
    """Carries out a plan that is right (see `import_steps`). Returns how many rows were saved."""
    return sum(import_steps(desk=desk, plan=plan, settled=settled))


def import_steps(*, desk: Desk, plan: Plan, settled: bool = False) -> Iterator[int]:
    """Carries out a plan that is right, and says after each part how many rows are done.

    `settled`: gifts for which the file does not say otherwise were thanked for, accepted and handed in when they came.
    Whoever stops asking before the end has saved nothing.
    """
    count = plan.count(Becomes.NEW, Becomes.CHANGED)
    title = gettext(KINDS[plan.kind].title)
    with change(
        desk, gettext_noop("%(count)s rows of a file saved (%(kind)s)"), count=f"{count:,}", kind=title
    ) as book:
        writer = Writer(book, desk, plan)
        if plan.kind == "classes":
            yield from writer.classes()
        elif plan.kind == "partners":
            yield from writer.partners()
        elif plan.kind == "contacts":
            yield from writer.contacts()
        elif plan.kind == "visits":
            yield from writer.visits()
        else:
            yield from writer.gifts(settled)


def parts(rows: Sequence[Any]) -> Iterator[Sequence[Any]]:
    for start in range(0, len(rows), AT_ONCE):
        yield rows[start : start + AT_ONCE]


class Writer:
    """`places` gives the number of each partner by the plan's own, which is below zero for a new one."""

    def __init__(self, book: Change, desk: Desk, plan: Plan) -> None:
        self.book, self.desk, self.plan = book, desk, plan
        self.places: dict[int, int] = {}
        self.new = [row for row in plan.rows if row.becomes is Becomes.NEW]
        self.changed = [row for row in plan.rows if row.becomes is Becomes.CHANGED]

    def place(self, spot: int) -> int:
        return self.places.get(spot, spot)

    def classes(self) -> Iterator[int]:
        schools = {school.pk: school for school in self.desk.schools}
        rows = [row for row in self.plan.rows if row.becomes in (Becomes.NEW, Becomes.CHANGED)]
        save_classes(desk=self.desk, lines=[ClassLine(schools[row.spot], row.title, row.values) for row in rows])
        yield len(rows)

    def partners(self) -> Iterator[int]:
        for part in parts(self.new):
            made = [self._partner(row.values | row.keys) for row in part]
            self.book.add_many(made)
            people = [
                (one.pk, name) for one, row in zip(made, part, strict=True) for name in row.values.get("people", ())
            ]
            self._people(people)
            yield len(part)
        further = [(row.spot, name) for row in self.changed for name in row.changes.pop("people", ())]
        renamed = {row.spot for row in self.changed if "also_called" in row.changes}
        for part in parts(self.changed):
            self._change(Partner, part)
            yield len(part)
        self._people(further)
        self._know_people({spot for spot, _name in further} | renamed)

    def _partner(self, values: dict[str, Any], heard_on: date | None = None) -> Partner:
        own = {"kind": kind_named(values["name"])} | {name: one for name, one in values.items() if name != "people"}
        people = sorted(values.get("people", ()), key=name_key)
        partner = Partner(**own, last_heard_on=heard_on)
        partner.people_key = people_key([*partner.other_names, *people])
        return partner

    def _people(self, people: Iterable[tuple[int, str]]) -> None:
        rows = [Contact(partner_id=pk, name=name, name_key=name_key(name)) for pk, name in people]
        self.book.add_many(rows)

    def _change(self, model: Any, rows: Sequence[Planned]) -> None:
        """Rows that change in the same columns are written together."""
        stored = model._base_manager.select_for_update().in_bulk([row.pk for row in rows])
        together: dict[tuple[str, ...], list[tuple[Any, dict[str, Any]]]] = defaultdict(list)
        for row in rows:
            one, values = stored[row.pk], dict(row.changes)
            if model is Partner and values.keys() & set(KEYED):
                values |= keys(**{name: values.get(name, getattr(one, name)) for name in KEYED})
            if values:
                together[tuple(sorted(values))].append((one, {name: values[name] for name in sorted(values)}))
        for group in together.values():
            self.book.update_each(group)

    def _know_people(self, partner_ids: Iterable[int]) -> None:
        for part in parts(sorted(set(partner_ids))):
            names: dict[int, list[str]] = defaultdict(list)
            there = Contact.objects.filter(partner__in=part, left_on=None)
            for partner_id, name in there.values_list("partner_id", "name"):
                names[partner_id].append(name)
            rows = Partner.objects.select_for_update().filter(pk__in=part).order_by("pk")
            known = [(row, people_key([*row.other_names, *names[row.pk]])) for row in rows]
            self.book.update_each([(row, {"people_key": key}) for row, key in known if row.people_key != key])

    def new_places(self, heard: dict[int, date]) -> None:
        """Partners that the file names and the book does not have; `heard`: when there was word of each."""
        numbers = sorted(self.plan.new_partners, reverse=True)
        for part in parts(numbers):
            made = [self._partner(self.plan.new_partners[number], heard.get(number)) for number in part]
            self.book.add_many(made)
            self.places |= {number: one.pk for number, one in zip(part, made, strict=True)}

    def hear(self, heard: dict[int, date]) -> None:
        """Partners of the book of whom there was word later than was known."""
        for part in parts(sorted(spot for spot in heard if spot > 0)):
            rows = Partner.objects.select_for_update().filter(pk__in=part).order_by("pk")
            later = [row for row in rows if row.last_heard_on is None or row.last_heard_on < heard[row.pk]]
            self.book.update_each([(row, {"last_heard_on": heard[row.pk]}) for row in later])

    def contacts(self) -> Iterator[int]:
        self.new_places({})
        for part in parts(self.new):
            self.book.add_many([self._contact(row) for row in part])
            yield len(part)
        for part in parts(self.changed):
            self._change(Contact, part)
            yield len(part)
        self._know_people({self.place(row.spot) for row in (*self.new, *self.changed)})

    def _contact(self, row: Planned) -> Contact:
        own = {name: value for name, value in row.values.items() if name not in (*OF_PLACE, "first_name", "last_name")}
        return Contact(partner_id=self.place(row.spot), name_key=name_key(own["name"]), **own)

    def visits(self) -> Iterator[int]:
        heard = import_days.latest(self.new)
        self.new_places(heard)
        met = self._met()
        for part in parts(self.new):
            made = []
            for row in part:
                own = {name: row.values[name] for name in row.values.keys() - {*OF_PLACE, "contact", "contact_key"}}
                spot = self.place(row.spot)
                made.append(
                    Visit(partner_id=spot, contact_id=met.get((spot, row.values.get("contact_key", ""))), **own)
                )
            self.book.add_many(made)
            yield len(part)
        self.hear(heard)

    def _met(self) -> dict[tuple[int, str], int]:
        """Who was met, by partner and folded name; whom the book does not know yet is written down."""
        known = people_of(self.desk)
        unknown = {
            (self.place(row.spot), row.values["contact_key"]): row.values["contact"]
            for row in self.new
            if "contact" in row.values and (self.place(row.spot), row.values["contact_key"]) not in known
        }
        for part in parts(list(unknown.items())):
            made = [Contact(partner_id=spot, name=name, name_key=key) for (spot, key), name in part]
            self.book.add_many(made)
            known |= {(one.partner_id, one.name_key): one.pk for one in made}
        self._know_people({spot for spot, _key in unknown})
        return known

    def gifts(self, settled: bool) -> Iterator[int]:
        heard = import_days.latest(row for row in self.new if row.values["source"] == "partner")
        self.new_places(heard)
        gifts = import_days.Gifts(self.desk, self.place, settled)
        rows_of: dict[int, list[Planned]] = defaultdict(list)
        for row in self.new:
            rows_of[id(row.first or row)].append(row)
        for part in parts(list(rows_of.values())):
            made = [gifts.gift(rows[0]) for rows in part]
            self.book.add_many(made)
            lines = [line for one, rows in zip(made, part, strict=True) for line in gifts.lines(one, rows)]
            self.book.add_many(lines)
            both = zip(made, part, strict=True)
            self.book.add_many([gifts.thanks(one, rows[0]) for one, rows in both if one.partner_id is not None])
            yield sum(map(len, part))
        self.hear(heard)
