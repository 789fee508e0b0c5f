"""Who can be forgotten, what tells who they are, and what they were ever called in the book."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import Any

from partners.directory.keys import keys
from partners.directory.models import Contact, FormerPartner, MayName, Partner, PartnerKind
from partners.ground.models import Event
from partners.ground.names import name_key
from partners.ground.traces import REMOVED, Traces
from partners.helpers.models import Helper
from partners.program.models import Program

Person = Helper | Contact | Partner
KINDS: dict[str, type[Helper] | type[Contact] | type[Partner]] = {
    "helper": Helper, "contact": Contact, "partner": Partner,
}  # fmt: skip
IDENTITY = ("name", "phone", "email")
EVENTS_AT_ONCE = 200

# What takes the place of everything that tells who it was.
EMPTY: dict[str, dict[str, Any]] = {
    "helper": {
        **dict.fromkeys(("name", "name_key", "room", "phone", "phone_key", "email", "best_way", "language"), ""),
        **dict.fromkeys(("times", "how_often", "skills", "cleared_by", "note"), ""),
        **dict.fromkeys(("at_school", "from_home", "show_day", "knows_rules", "cleared"), False),
        "days": [], "jobs": [], "place_in_batch": None, "cleared_until": None,
    },
    "contact": {
        "name": REMOVED, "name_key": name_key(REMOVED), "role": "", "phone": "", "email": "", "decides": False,
        "since": None,
    },
    "partner": {
        **dict.fromkeys(("street", "city", "state", "postal_code", "phone", "email", "web", "best_time"), ""),
        **dict.fromkeys(("decides", "wants", "rest_why", "notes", "business_kind", "how_often"), ""),
        "also_called": "", "lead_days": None, "name": REMOVED, **keys(name=REMOVED), "people_key": "",
        "may_name_asked_on": None,
    },
}  # fmt: skip


def is_person(row: Any) -> bool:
    return not isinstance(row, Partner) or row.kind == PartnerKind.PERSON


def is_forgotten(row: Person) -> bool:
    return row.forgotten_on is not None if isinstance(row, Helper) else row.name == REMOVED


def page_of(row: Any) -> str:
    """The page on which the row stands; "" where it has none."""
    row = row.partner if isinstance(row, Contact) else row
    return str(row.get_absolute_url()) if hasattr(row, "get_absolute_url") else ""


def emptied(row: Person, day: date) -> dict[str, Any]:
    """The row's new values: no details, and never asked again."""
    values = dict(EMPTY[row._meta.model_name or ""])
    if isinstance(row, Helper):
        return {**values, "forgotten_on": day}
    if isinstance(row, Contact):
        return {**values, "left_on": row.left_on or day}
    return {**values, "never_ask": True, "may_name": MayName.NO}


def events(program: Program) -> Iterator[Event]:
    rows = Event.objects.filter(program=program).order_by("pk")
    yield from rows.iterator(chunk_size=EVENTS_AT_ONCE)


def known_as(program: Program, rows: Iterable[Person]) -> dict[str, list[str]]:
    """Every name, phone and e-mail that the rows have or once had, by the column: the newest first."""
    kept = list(rows)
    places = {(row._meta.model_name, row.pk) for row in kept} | former_places(kept)
    found: dict[str, list[str]] = {name: [getattr(row, name) for row in kept] for name in IDENTITY}
    found["name"] += [name for row in kept if isinstance(row, Partner) for name in row.other_names]
    for event in events(program):
        for item in event.changes:
            if (item["model"], item["pk"]) in places:
                sides = filter(None, (item["after"], item["before"]))
                for name, side in ((name, side) for side in sides for name in IDENTITY):
                    found[name].append(side.get(name) or "")
    return {name: [one for one in dict.fromkeys(values) if one and one != REMOVED] for name, values in found.items()}


def former_places(rows: Iterable[Any]) -> set[tuple[str | None, int]]:
    """Where the history tells of partners that were put together with these."""
    partners = [row.pk for row in rows if isinstance(row, Partner)]
    former = FormerPartner.objects.filter(partner__in=partners) if partners else FormerPartner.objects.none()
    return {("partner", number) for number in former.values_list("was", flat=True)}


def same_person(program: Program, rows: Iterable[Person], traces: Traces) -> list[tuple[Person, bool]]:
    """Other rows of people with the same name, phone or e-mail; True where the name and one of the others agree.

    A phone alone may be a household's, and a name alone another person's.
    """
    known = {(row._meta.model_name, row.pk) for row in rows}
    found: list[tuple[Person, bool]] = []
    for kind, model in KINDS.items():
        for pk, name, *reached in model._base_manager.filter(program=program).values_list("pk", *IDENTITY):
            named, same = traces.certain_in(name), any(map(traces.certain_in, reached))
            if (named or same) and (kind, pk) not in known:
                row: Any = model._base_manager.get(pk=pk)
                found += [(row, named and same)] if is_person(row) else []
    return found
