"""One change in plain words: each row it touched, and each field before and after."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from django.apps import apps
from django.db.models import ForeignKey, JSONField
from django.utils.formats import date_format, time_format
from django.utils.text import capfirst
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.directory.phones import national
from partners.ground.changes import COUNTED
from partners.ground.fields import KeyField
from partners.ground.frozen import thawed
from partners.ground.models import Event, Row
from partners.ground.money import format_cents
from partners.program.desk import Desk, row_names, school_path
from partners.program.files import shown

MOST_ROWS = 100
# What nobody typed and nobody reads: numbers of rows, sums kept ready, secrets, verdicts as data.
UNTOLD = {*COUNTED, "id", "program_id", "secret_hash", "verdict", "sha256", "calendar_turn", "turn", "place_in_batch"}
ADDED, CHANGED, TAKEN_OUT = gettext_noop("added"), gettext_noop("changed"), gettext_noop("taken out")

NAMES = ("name", "title", "what", "description", "label")

Side = Mapping[str, Any]


@dataclass(frozen=True)
class Field:
    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Told:
    """One row of a change. `how` is one of ADDED, CHANGED, TAKEN_OUT."""

    kind: str
    title: str
    url: str
    how: str
    fields: list[Field]


def told(desk: Desk, event: Event) -> tuple[list[Told], int]:
    """The rows that the person may see, each once, and how many more there are."""
    rows = [one for one in by_row(event.changes).items() if is_told(*one)]
    seen = _seen(desk, rows)
    rows = [one for one in rows if one[0] in seen]
    names = _Names(desk, rows[:MOST_ROWS])
    return [names.told(*one) for one in rows[:MOST_ROWS]], max(len(rows) - MOST_ROWS, 0)


Place = tuple[str, int]
Sides = tuple[Side | None, Side | None]


def by_row(changes: Iterable[Mapping[str, Any]]) -> dict[Place, Sides]:
    """Each row from how it was before the change to how it was after it, however often it was touched in between."""
    rows: dict[Place, Sides] = {}
    for item in changes:
        place, before, after = (item["model"], item["pk"]), item["before"], item["after"]
        if place in rows:
            # Other columns may have changed at each touch; a row that was added within the change was not there before.
            first, last = rows[place]
            before = None if first is None else {**(before or {}), **first}
            after = None if after is None else {**(last or {}), **after}
        rows[place] = (before, after)
    return rows


def is_told(place: Place, sides: Sides) -> bool:
    """Whether anything a person would read of is different."""
    before, after = sides
    if before is None and after is None:
        return False
    model = apps.get_model("partners", place[0])
    return issubclass(model, Row) and bool(before is None or after is None or _different(model, before, after))


def _different(model: Any, before: Side, after: Side) -> list[str]:
    columns = (f for f in model._meta.concrete_fields if f.attname not in UNTOLD and not isinstance(f, KeyField))
    return [f.attname for f in columns if before.get(f.attname) != after.get(f.attname)]


def _seen(desk: Desk, rows: list[tuple[Place, Sides]]) -> set[Place]:
    """The rows of the person's schools, also those that were taken out."""
    if not desk.school_ids:
        return {place for place, _sides in rows}
    names = {model._meta.model_name: name for name, model in row_names().items()}
    asked: dict[str, list[int]] = {}
    seen: set[Place] = set()
    for place, sides in rows:
        model: Any = apps.get_model("partners", place[0])
        own = next((side["school_id"] for side in sides if side and "school_id" in side), 0)
        by_school = school_path(model) or place[0] in ("school", "attachment")
        if not by_school or own is None or own in desk.school_ids:
            seen.add(place)
        elif own == 0:
            asked.setdefault(place[0], []).append(place[1])
    for model_name, pks in asked.items():
        rows_seen = shown(desk) if model_name == "attachment" else getattr(desk, names[model_name])
        found = rows_seen.filter(pk__in=pks).order_by().values_list("pk", flat=True)
        seen |= {(model_name, pk) for pk in found}
    return seen


class _Names:
    """Finds what rows are called that a change refers to: in one query for each kind, however many there are."""

    def __init__(self, desk: Desk, rows: list[tuple[Place, Sides]]) -> None:
        self.desk = desk
        wanted: dict[type[Row], set[int]] = {}
        for (model_name, pk), sides in rows:
            model: Any = apps.get_model("partners", model_name)
            wanted.setdefault(model, set()).add(pk)
            for column in model._meta.concrete_fields:
                if isinstance(column, ForeignKey) and issubclass(column.remote_field.model, Row):
                    pks = {side.get(column.attname) for side in sides if side}
                    wanted.setdefault(column.remote_field.model, set()).update(pk for pk in pks if pk)
        self.known: dict[type[Row], dict[int, Any]] = {
            model: model._base_manager.filter(program=desk.program).in_bulk(pks) for model, pks in wanted.items()
        }

    def told(self, place: Place, sides: Sides) -> Told:
        model: Any = apps.get_model("partners", place[0])
        before, after = sides
        how = _(ADDED) if before is None else _(TAKEN_OUT) if after is None else _(CHANGED)
        row = self.known.get(model, {}).get(place[1])
        title = str(row) if row is not None else self._title(model, after or before or {})
        url = row.get_absolute_url() if row is not None and hasattr(row, "get_absolute_url") else ""
        return Told(capfirst(str(model._meta.verbose_name)), title, url, how, self._fields(model, before, after))

    def _title(self, model: Any, side: Side) -> str:
        """What a row that is gone was called."""
        return next(
            (str(side[name]) for name in ("name", "title", "what", "description", "label") if side.get(name)), ""
        )

    def _fields(self, model: Any, before: Side | None, after: Side | None) -> list[Field]:
        columns = {f.attname: f for f in model._meta.concrete_fields}
        # Of a row that is new or gone only what differs from an empty one is told.
        empty = {name: column.get_default() for name, column in columns.items()}
        was, now = (thawed(model, dict(side)) if side is not None else empty for side in (before, after))
        return [
            Field(capfirst(str(columns[name].verbose_name)), one, two)
            for name in _different(model, was, now)
            if (one := self._words(columns[name], was.get(name))) != (two := self._words(columns[name], now.get(name)))
        ]

    def _words(self, column: Any, value: Any) -> str:
        if value in (None, "", [], {}):
            return ""
        if isinstance(column, ForeignKey):
            model: Any = column.remote_field.model
            row = self.known.get(model, {}).get(value)
            return str(row) if row is not None else _("no longer there")
        if isinstance(column, JSONField):
            return "; ".join(_texts(value))
        if column.flatchoices:
            return str(dict(column.flatchoices).get(value, value))
        return plain(column.attname, value)


def _texts(value: Any) -> list[str]:
    """What is written in a list or a table of texts."""
    if isinstance(value, dict | list):
        return [text for one in (value.values() if isinstance(value, dict) else value) for text in _texts(one)]
    return [str(value)] if value not in (None, "", True, False) else []


def plain(name: str, value: Any) -> str:
    """One value of a column as a teacher writes it."""
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, datetime):
        return date_format(localtime(value), "SHORT_DATETIME_FORMAT")
    if isinstance(value, date):
        return date_format(value, "DATE_FORMAT")
    if isinstance(value, time):
        return time_format(value, "TIME_FORMAT")
    if name.endswith("_cents"):
        return format_cents(value)
    return national(value) if name == "phone" else str(value)
