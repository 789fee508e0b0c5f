"""Everything the book holds, as files: what was made for reading first, then every other kind of row as it stands."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.db.models import Q, QuerySet

from partners.directory.models import Partner
from partners.ground.csv_out import BYTE_ORDER_MARK, csv_lines
from partners.ground.fields import KeyField
from partners.ground.models import Row
from partners.ground.xlsx_out import xlsx
from partners.ground.zip_out import gathered, zipped
from partners.program.desk import Desk, row_names
from partners.school.models import School
from partners.story.export_lists import dollars, lists, yes_no
from partners.story.kinds import KINDS

AT_ONCE = 2000
# Who may sign in, numbers that lead on, and bytes: pictures and papers are in the backup, which holds all of the book.
NO_LISTS = {"memberships", "invitations", "former_partners", "not_same", "kept_files", "sheets"}
# A thing of a gift stands in the list of gifts.
IN_LISTS = {*KINDS, "gift_lines"}
BOOKKEEPING = {"program", "created_at", "created_by", "updated_at", "updated_by", "version"}


def zip_of_csv(desk: Desk) -> Iterator[bytes]:
    files = ((f"{name}.csv", gathered(_csv(heads, rows))) for name, heads, rows in everything(desk))
    return zipped(files, desk.day)


def _csv(heads: Sequence[Any], rows: Iterable[Sequence[Any]]) -> Iterator[str]:
    yield BYTE_ORDER_MARK
    yield from csv_lines([heads])
    yield from csv_lines(rows)


def one_xlsx(desk: Desk) -> Iterator[bytes]:
    sheets = ((name.replace("_", " ").capitalize(), heads, rows) for name, heads, rows in everything(desk))
    return xlsx(sheets, desk.day)


def everything(desk: Desk) -> Iterator[tuple[str, Sequence[Any], Iterable[Sequence[Any]]]]:
    """Each list by its name, with its heads and its rows."""
    for slug, heads, rows in lists():
        yield slug, heads, rows(desk)
    for name, model in kinds():
        if name not in IN_LISTS:
            columns = _columns(model)
            heads = ["Number", *(str(column.verbose_name).capitalize() for column in columns[1:])]
            yield name, heads, _rows(desk, name, columns)


def kinds() -> list[tuple[str, type[Row]]]:
    return [(name, model) for name, model in sorted(row_names().items()) if name not in NO_LISTS]


def _columns(model: type[Row]) -> list[Any]:
    """The number first, then what people typed and chose."""
    return [
        column
        for column in model._meta.concrete_fields
        if column.name not in BOOKKEEPING and not isinstance(column, KeyField | models.BinaryField)
    ]


def _rows(desk: Desk, name: str, columns: Sequence[Any]) -> Iterator[list[Any]]:
    """Places and schools by name, other rows by their number."""
    named = [
        f"{column.name}__name" if column.related_model in (Partner, School) else column.attname for column in columns
    ]
    rows = visible(desk, row_names()[name]).order_by("pk").values_list(*named)
    for row in rows.iterator(chunk_size=AT_ONCE):
        yield [_shown(column, value) for column, value in zip(columns, row, strict=True)]


def _shown(column: Any, value: Any) -> Any:
    if isinstance(column, models.BooleanField):
        return yes_no(value)
    if isinstance(column, models.JSONField):
        return json.dumps(value, ensure_ascii=False, cls=DjangoJSONEncoder) if value not in (None, [], {}) else ""
    if column.choices and value:
        return str(dict(column.flatchoices).get(value, value))
    return dollars(value) if column.name.endswith("_cents") else value


def visible(desk: Desk, model: type[Row], above: frozenset[type[Row]] = frozenset()) -> QuerySet[Any]:
    """The rows of a model that the desk sees. What names no school itself goes with the rows it belongs to."""
    rows: QuerySet[Any] = desk.narrowed(model._base_manager.filter(program=desk.program))
    names = {column.name for column in model._meta.concrete_fields}
    if not desk.school_ids or model in (Partner, School) or "school" in names:
        return rows
    for column in model._meta.concrete_fields:
        target: Any = column.related_model
        if column.name in BOOKKEEPING or not (isinstance(target, type) and issubclass(target, Row)) or target in above:
            continue
        seen = visible(desk, target, above | {model}).values("pk")
        rows = rows.filter(Q(**{f"{column.name}__in": seen}) | Q(**{column.name: None}))
    return rows


def one_json(desk: Desk) -> Iterator[bytes]:
    """Every row with every column as it is stored, by number: for whoever moves the book into another program."""
    return gathered(_json(desk))


def _json(desk: Desk) -> Iterator[str]:
    encoder = DjangoJSONEncoder(ensure_ascii=False)
    about = {"name": desk.program.name, "teacher": desk.program.teacher, "made_on": desk.day.isoformat()}
    yield f'{{"program": {encoder.encode(about)}'
    for name, model in kinds():
        columns = [column.attname for column in _columns(model)]
        yield f',\n"{name}": ['
        rows = visible(desk, model).order_by("pk").values(*columns)
        for number, row in enumerate(rows.iterator(chunk_size=AT_ONCE)):
            yield (",\n" if number else "\n") + encoder.encode(row)
        yield "]"
    yield "}\n"
