"""One valid row of any model, made from the model itself, so that walking tests need no list to keep."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import count
from typing import Any

from django.db import models

from partners.ground.models import Row
from partners.program.models import Program
from tests import people

_number = count(1)

# What a constraint asks for beyond the types of the columns.
ASKED: dict[str, dict[str, Any]] = {
    "Ask": {"answer": "waiting"},
    "Gift": {"source": "partner", "form": "goods"},
    "Letter": {"state": "handed_over"},
    "Promise": {"side": "them"},
    "Thanks": {"reason": "gift"},
}
FILLED: dict[str, set[str]] = {"Gift": {"partner"}, "Letter": {"sheet"}}


def value_for(field: Any, program: Program, text: str) -> Any:
    if isinstance(field, models.ForeignKey):
        target = field.remote_field.model
        return make_row(target, program, text) if issubclass(target, Row) else people.make_user(f"user{next(_number)}")
    if field.choices:
        return field.choices[0][0]
    if isinstance(field, models.DateField):
        return people.TUESDAY + timedelta(days=next(_number))
    if isinstance(field, models.TextField | models.CharField):
        return f"{text}{next(_number)}"[: field.max_length]
    if isinstance(field, models.BinaryField):
        return b"%PDF-"
    return next(_number)


def make_row(model: type[Any], program: Program, text: str = "Something ", **given: Any) -> Any:
    """A saved row of `model` in `program`, with `text` in every column of words that must be filled."""
    values: dict[str, Any] = {"program": program, **ASKED.get(model.__name__, {}), **given}
    for field in model._meta.concrete_fields:
        must = field.name in FILLED.get(model.__name__, set())
        free = field.null or field.has_default() or field.blank or field.auto_created or field.primary_key
        if (
            field.name in values
            or (free and not must)
            or getattr(field, "auto_now_add", False)
            or field.name == "updated_at"
        ):
            continue
        values[field.name] = value_for(field, program, text)
    if "first" in values and isinstance(values["first"], date):
        values["last"] = values["first"]
    return model._base_manager.create(**values)
