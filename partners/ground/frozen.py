"""A row as an event keeps it, and back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import models


def frozen(row: models.Model, names: Iterable[str] | None = None) -> dict[str, Any]:
    """The row's own columns by attribute name; pictures and files (binary columns) stay out."""
    fields = [f for f in row._meta.concrete_fields if not isinstance(f, models.BinaryField)]
    wanted = None if names is None else set(names)
    return {f.attname: _plain(f.value_from_object(row)) for f in fields if wanted is None or f.attname in wanted}


def holds_bytes(model: type[models.Model]) -> bool:
    return any(isinstance(field, models.BinaryField) for field in model._meta.concrete_fields)


def _plain(value: Any) -> Any:
    # The JSON encoder would cut an instant to milliseconds.
    return value.isoformat() if isinstance(value, datetime) else value


def thawed(model: type[models.Model], values: dict[str, Any]) -> dict[str, Any]:
    """Column values as Python has them, from what an event keeps."""
    fields = {field.attname: field for field in model._meta.concrete_fields}
    return {name: fields[name].to_python(value) for name, value in values.items() if name in fields}
