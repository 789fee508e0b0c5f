"""What becomes of a list of gifts, and of a list of visits: things that happened at a partner on a day. Pure.

They are known again by who, when and what. Two of the same are two, so the second of a file is the second of the book.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from partners.ground.names import fold, name_key
from partners.ground.plain import PlainError, gettext_noop
from partners.story.columns import MISSING, Column, Line, require
from partners.story.plan_people import Places
from partners.story.planned import Plan, Planned

FAMILIES = {"families", "family", "families no names", "parents"}
NOBODY_KNOWN = {"unknown", "anonymous", "unknown giver"}
# What belongs to the thing and not to the gift: a gift of several things has several rows.
OF_A_LINE = {"description", "quantity", "unit", "condition", "risk"}

AHEAD = gettext_noop("%(day)s is still to come.")
NO_AMOUNT = gettext_noop("The amount of money is missing.")
NO_MONEY = gettext_noop("Only money has an amount. Take it out, or write “money” under “Form”.")
NO_LOAN = gettext_noop("Only a loan has a day to return it.")
DIFFERS = gettext_noop("Row %(row)s is of the same gift and says something else here.")
NO_PROJECT = gettext_noop("“%(typed)s” is none of your projects.")

Key = tuple[Any, ...]
Named = Callable[[str], int]


def gift_key(source: str, spot: int | None, day: date, whats: Sequence[str], cents: int | None) -> Key:
    """By which a gift is known again: who, when, and what, or how much money where nothing else is said."""
    return (source, spot or 0, day, tuple(sorted(map(fold, whats))) or cents)


def visit_key(spot: int, day: date, happened: str) -> Key:
    return (spot, day, happened)


def plan_gifts(
    lines: Sequence[Line],
    columns: Sequence[Column],
    places: Places,
    today: date,
    school: Named,
    project: Named,
    stored: Mapping[Key, int],
) -> Plan:
    """`stored` counts the gifts of the book by their key; `school` and `project` give the number of a name."""
    plan, firsts = places.plan, dict[int, Planned]()
    for line in lines:
        row = Planned(line, values=dict(line.values))
        plan.rows.append(row)
        require(line, columns)
        _refer(row, "school", school)
        _refer(row, "project", project)
        _giver(row, places)
        _money_or_thing(row)
        _not_ahead(line, today)
        row.title = row.values.get("description", "")
        number = line.values.get("gift")
        if number is not None and number in firsts:
            row.first = firsts[number]
            _agree(row, row.first)
        elif number is not None:
            firsts[number] = row
    _know_gifts(plan, stored)
    return plan


def _know_gifts(plan: Plan, stored: Mapping[Key, int]) -> None:
    whats: dict[int, list[str]] = {}
    for row in plan.rows:
        what = row.values.get("description")
        whats.setdefault(id(row.first or row), []).extend([what] if what else [])
    seen: Counter[Key] = Counter()
    for row in plan.rows:
        if row.first is None and not row.line.wrong:
            values = row.values
            key = gift_key(values["source"], row.spot, values["day"], whats[id(row)], values.get("amount_cents"))
            seen[key] += 1
            row.left = seen[key] <= stored.get(key, 0)


def _refer(row: Planned, name: str, number_of: Named) -> None:
    typed = row.values.pop(name, None)
    if typed is None:
        return
    try:
        row.values[f"{name}_id"] = number_of(typed)
    except PlainError as error:
        row.line.refuse(error, name)


def _giver(row: Planned, places: Places) -> None:
    typed = row.values.get("partner")
    if typed is None:
        return
    known = fold(typed)
    row.values["source"] = "families" if known in FAMILIES else "unknown" if known in NOBODY_KNOWN else "partner"
    if row.values["source"] == "partner":
        places.at(row)


def _money_or_thing(row: Planned) -> None:
    values, line = row.values, row.line
    cents = values.get("amount_cents")
    if "form" not in line.cells:
        values["form"] = "money" if "amount_cents" in line.cells else "goods"
    form = values.get("form")
    if form == "money" and not cents and "amount_cents" not in line.cells:
        line.refuse(PlainError("no_amount", NO_AMOUNT))
    elif form == "money" and cents == 0:
        line.refuse(PlainError("no_amount", NO_AMOUNT), "amount_cents")
    elif form != "money" and cents is not None and form:
        line.refuse(PlainError("no_money", NO_MONEY), "amount_cents")
    if form != "loan" and form:
        for name in ("return_on", "returned_on"):
            if name in values:
                line.refuse(PlainError("no_loan", NO_LOAN), name)
    if form != "money" and "description" not in line.cells:
        line.refuse(PlainError("missing", MISSING, column="What"))


def _not_ahead(line: Line, today: date) -> None:
    day = line.values.get("day")
    if day is not None and day > today:
        line.refuse(PlainError("ahead", AHEAD, day=day.isoformat()), "day")


def _agree(row: Planned, first: Planned) -> None:
    """All rows of one gift say the same of it."""
    for name, value in row.line.values.items():
        if name not in OF_A_LINE and first.line.values.get(name) != value:
            row.line.refuse(PlainError("differs", DIFFERS, row=first.line.number), name)


def plan_visits(
    lines: Sequence[Line], columns: Sequence[Column], places: Places, today: date, stored: Mapping[Key, int]
) -> Plan:
    """A row that does not tell what happened is just a hello."""
    plan, seen = places.plan, Counter[Key]()
    for line in lines:
        row = Planned(line, values={"happened": "hello", **line.values}, title=line.values.get("partner", ""))
        plan.rows.append(row)
        require(line, columns)
        _not_ahead(line, today)
        if "partner" in line.values:
            places.at(row)
        if line.wrong:
            continue
        if "contact" in row.values:
            row.values["contact_key"] = name_key(row.values["contact"])
        key = visit_key(row.spot, row.values["day"], row.values["happened"])
        seen[key] += 1
        row.left = seen[key] <= stored.get(key, 0)
    return plan
