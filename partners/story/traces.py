"""Where in the whole book a person stands: texts of other rows, and sheets that went out."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from django.db import models
from django.utils.text import capfirst

from partners.directory.keys import keys
from partners.directory.models import Contact, Partner
from partners.directory.phones import phone_key
from partners.ground.fields import KeyField
from partners.ground.names import name_key
from partners.ground.traces import Traces
from partners.helpers.models import Helper
from partners.letters.models import REMOVED_SHEET, Letter, LetterState
from partners.letters.sheet_text import sheet_text
from partners.program.desk import row_names
from partners.program.models import Program

AROUND = 60
# The names and numbers of places and of the program itself are not the person's own.
NOT_PERSONAL = {"name", "legal_name", "phone", "email", "web", "teacher", "principal", "street"}
PLACES = {"partner", "school", "program"}
PIECES = ("street", "city", "state", "postal_code")


@dataclass(frozen=True)
class Place:
    """One column of one row that names the person, whole or in part."""

    row: Any
    column: str
    value: Any
    traces: Traces

    @property
    def key(self) -> str:
        return f"{self.row._meta.model_name}-{self.row.pk}-{self.column}"

    @property
    def where(self) -> str:
        field = self.row._meta.get_field(self.column)
        named = {"partner", "school", "project", "need", "gift"} & {self.row._meta.model_name}
        row = str(self.row) if named else capfirst(str(self.row._meta.verbose_name))
        return f"{row}: {field.verbose_name}"

    @cached_property
    def certain(self) -> bool:
        return any(self.traces.certain_in(text) for text in texts(self.value))

    @property
    def ticked(self) -> bool:
        """Whether it is replaced unless somebody says no."""
        own = self.row._meta.model_name in PLACES and self.column in NOT_PERSONAL
        return self.certain and not own

    @cached_property
    def shown(self) -> list[tuple[str, bool]]:
        """Pieces of the text, True for what will be replaced; only what stands around it."""
        text = next(one for one in texts(self.value) if self.traces.find(one))
        found = self.traces.find(text)
        start, end = max(found[0].start - AROUND, 0), found[-1].end + AROUND
        pieces, at = [("…" if start else "", False)], start
        for one in found:
            pieces += [(text[at : one.start], False), (text[one.start : one.end], True)]
            at = one.end
        return [*pieces, (text[at:end] + ("…" if end < len(text) else ""), False)]

    def values(self) -> dict[str, Any]:
        """The column without the person."""
        field = self.row._meta.get_field(self.column)
        new = self.traces.without_in(self.value, parts=True)
        if isinstance(new, str):
            empty = (field.blank and isinstance(field, models.EmailField)) or self.column == "phone"
            new = "" if empty else new[: field.max_length]
        return {self.column: new}


def texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, list | dict):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from texts(inner)


def columns(model: type[models.Model]) -> list[str]:
    """The columns that somebody typed words into."""
    return [
        field.name
        for field in model._meta.concrete_fields
        if isinstance(field, models.CharField | models.TextField | models.JSONField)
        and not isinstance(field, KeyField)
        and not field.choices
        and field.name not in ("sha256", "time_zone")
    ]


def places(program: Program, traces: Traces, but: Collection[tuple[str, int]]) -> list[Place]:
    """Every column of the program's rows that names the person, but not of the rows `but` themselves."""
    if not traces:
        return []
    found: list[Place] = []
    kinds: list[type[models.Model]] = [Program, *row_names().values()]
    for model in kinds:
        names = columns(model)
        if not names:
            continue
        own = {"pk": program.pk} if model is Program else {"program": program}
        for pk, *values in model._base_manager.filter(**own).order_by("pk").values_list("pk", *names).iterator():
            hits = [
                (name, value)
                for name, value in zip(names, values, strict=True)
                if any(traces.find(text) for text in texts(value))
            ]
            if hits and (model._meta.model_name, pk) not in but:
                row = model._base_manager.get(pk=pk)
                found += [Place(row, name, value, traces) for name, value in hits]
    return found


def key_values(row: Any) -> dict[str, Any]:
    """The row's keys for search, worked out again from what it now holds."""
    if isinstance(row, Partner):
        typed = {name: getattr(row, name) for name in ("name", "phone", "web", *PIECES)}
        return dict(keys(**typed))
    if isinstance(row, Helper):
        return {"name_key": name_key(row.name), "phone_key": phone_key(row.phone)}
    return {"name_key": name_key(row.name)} if isinstance(row, Contact) else {}


def sheets(program: Program, traces: Traces, rows: Iterable[Any]) -> list[Letter]:
    """What went out to the person, or with their name, phone or e-mail on it; also what cannot be read here."""
    own = {(row._meta.model_name, row.pk) for row in rows}
    gone = program.letters.exclude(state=LetterState.DRAFT).exclude(sheet__sha256=REMOVED_SHEET)
    found: list[Letter] = []
    read: dict[int | None, bool] = {}
    for letter in gone.order_by("-day", "-pk").select_related("sheet").iterator(chunk_size=50):
        if letter.sheet_id not in read and letter.sheet is not None:
            text = sheet_text(bytes(letter.sheet.pdf))
            read[letter.sheet_id] = text is None or traces.certain_in(text)
        to_them = {("partner", letter.partner_id), ("helper", letter.helper_id)} & own
        if to_them or read.get(letter.sheet_id):
            found.append(letter)
    return found
