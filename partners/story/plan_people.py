"""What becomes of a list of partners, and of a list of the people there. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any

from partners.directory.duplicates import Described
from partners.directory.keys import keys
from partners.ground.names import name_key
from partners.ground.plain import PlainError, gettext_noop
from partners.story.columns import MISSING, Column, Line, require
from partners.story.planned import MAY_BE, NEW_PARTNER, OTHER_ADDRESS, Plan, Planned, compare, twice
from partners.story.who_is_meant import Index

KEYED = ("name", "phone", "street", "city", "state", "postal_code", "web")
LONG_NAME = gettext_noop("“%(typed)s …” is longer than a name. Part several people with a semicolon.")
LONGEST_NAME = 120

Why = Callable[[Sequence[Any]], str]


def describe(values: Mapping[str, Any], pk: int | None = None) -> Described:
    """The phone in `values` is as it is stored, so its key is the number without the extension."""
    made = keys(**{name: values.get(name, "") for name in KEYED if name != "phone"})
    phone = values.get("phone", "").partition(";")[0]
    return Described(pk, values["name"], made["name_key"], phone, made["address_key"], made["web_key"])


def key_columns(meant: Described) -> dict[str, str]:
    return {"name_key": meant.key, "phone_key": meant.phone, "address_key": meant.address, "web_key": meant.web}


def plan_partners(
    lines: Sequence[Line], columns: Sequence[Column], index: Index, names: Mapping[int, str], why: Why
) -> Plan:
    """Each row as a partner: one of the book, by its number in `pk`, or a new one. `names` are those of the book."""
    plan, taken = Plan("partners"), dict[int, int]()
    for line in lines:
        row = Planned(line, title=line.values.get("name", ""), values=dict(line.values))
        plan.rows.append(row)
        require(line, columns)
        if "people" in row.values:
            row.values["people"] = _people(line)
        if "name" not in line.values:
            continue
        meant = describe(line.values, -line.number)
        try:
            found = index.find(meant)
        except PlainError as error:
            line.refuse(error, "name")
            continue
        if found is None:
            row.spot, row.keys = -line.number, key_columns(meant)
            row.remarks = _remarks(index, meant, names, why)
            index.add(meant)
            taken[row.spot] = line.number
        elif found.pk is not None and found.pk in taken:
            twice(row, row.title, taken[found.pk], "name")
        elif found.pk is not None:
            row.pk = row.spot = found.pk
            taken[found.pk] = line.number
    return plan


def _remarks(index: Index, meant: Described, names: Mapping[int, str], why: Why) -> list[PlainError]:
    likely = index.alike(meant)
    if likely is None or likely.pk is None:
        return []
    if "same_name" in likely.why:
        return [PlainError("other_address", OTHER_ADDRESS, name=names[likely.pk])]
    return [PlainError("may_be", MAY_BE, name=names[likely.pk], why=why(likely.why))]


def _people(line: Line) -> list[str]:
    found = [part.strip() for part in re.split(r"[;\n]", line.values["people"])]
    people = [name for name in found if name_key(name)]
    for name in people:
        if len(name) > LONGEST_NAME:
            line.refuse(PlainError("long_name", LONG_NAME, typed=name[:40]), "people")
    return people


def compare_partner(row: Planned, stored: Mapping[str, Any], people: Collection[str], names: Sequence[str]) -> None:
    """`people` are the folded names of everybody who is, or was, at the partner."""
    compare(row, stored, names)
    further = [name for name in row.values.get("people", ()) if name_key(name) not in people]
    if further:
        row.changes["people"] = further


class Places:
    """The partner that each row of a list of people, gifts or visits belongs to; unknown ones are new partners."""

    def __init__(self, plan: Plan, index: Index, names: Mapping[int, str], why: Why) -> None:
        self.plan, self.index, self.names, self.why = plan, index, names, why
        self.known: dict[tuple[Any, ...], int | PlainError] = {}

    def at(self, row: Planned) -> None:
        """Sets the row's `spot`, or refuses the row."""
        values = row.line.values
        told = {name: values.get(f"partner_{name}", "") for name in ("phone", "street")}
        key = (values["partner"], *told.values())
        if key not in self.known:
            self.known[key] = self._found({"name": values["partner"], **told}, row)
        spot = self.known[key]
        if isinstance(spot, PlainError):
            row.line.refuse(spot, "partner")
        else:
            row.spot = spot

    def _found(self, values: dict[str, Any], row: Planned) -> int | PlainError:
        number = -1 - len(self.plan.new_partners)
        meant = describe(values, number)
        try:
            found = self.index.find(meant)
        except PlainError as error:
            return error
        if found is not None and found.pk is not None:
            return found.pk
        self.index.add(meant)
        told = {name: value for name, value in values.items() if value}
        self.plan.new_partners[number] = told | key_columns(meant)
        row.remarks = [
            PlainError("new_partner", NEW_PARTNER, name=values["name"]),
            *_remarks(self.index, meant, self.names, self.why),
        ]
        return number


def plan_contacts(
    lines: Sequence[Line],
    columns: Sequence[Column],
    index: Index,
    names: Mapping[int, str],
    why: Why,
    stored: Mapping[tuple[int, str], int],
) -> Plan:
    """Each row as a person at a partner. `stored`: who is in the book, by the partner's number and the folded name."""
    plan, taken = Plan("contacts"), dict[tuple[int, str], int]()
    places = Places(plan, index, names, why)
    for line in lines:
        values = line.values
        whole = " ".join(filter(None, (values.get("first_name"), values.get("last_name"))))
        name = values.get("name") or whole
        row = Planned(line, title=name, values={**values, "name": name[:LONGEST_NAME]})
        plan.rows.append(row)
        require(line, columns)
        if not name_key(name) and "name" not in line.cells:
            line.refuse(PlainError("missing", MISSING, column=_label(columns, "name")))
        if line.wrong:
            continue
        places.at(row)
        key = (row.spot, name_key(name))
        if key in taken:
            twice(row, name, taken[key], "name")
        taken.setdefault(key, line.number)
        row.pk = stored.get(key)
    return plan


def _label(columns: Sequence[Column], name: str) -> str:
    return next(one.label for one in columns if one.name == name)
