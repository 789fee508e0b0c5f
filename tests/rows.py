"""One valid row of any model, made from the model itself, so that walking tests need no list to keep."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import count
from typing import Any

from django.apps import apps
from django.db import models

from partners.ground.models import Row
from partners.program.models import Program
from tests import people

_number = count(1)
SMALL = 30_000
ROWS: list[type[Row]] = [model for model in apps.get_app_config("partners").get_models() if issubclass(model, Row)]

# What a constraint asks for beyond the types of the columns.
ASKED: dict[str, dict[str, Any]] = {
    "Ask": {"answer": "waiting"},
    "Batch": {"kind": "thanks"},
    "Gift": {"source": "partner", "form": "goods"},
    "Letter": {"state": "handed_over"},
    "Promise": {"side": "them", "part": "give"},
    "Session": {"starts": "13:00", "ends": "15:00"},
    "Thanks": {"reason": "gift"},
}
FILLED: dict[str, set[str]] = {"Gift": {"partner"}, "Helper": {"name"}, "Letter": {"sheet"}, "Promise": {"trade"}}
# What pages ask for beyond that.
SENSIBLE: dict[str, dict[str, Any]] = {
    "Certificate": {"state": "MN"},
    "Grant": {"state": "awarded", "awarded_cents": 50_000},
    "KeptFile": {"kind": "pdf"},
    "Letter": {"document": "leave-behind", "language": "en"},
    "Occasion": {"rule": "FREQ=YEARLY;BYMONTH=7;BYDAY=3TH"},
    "Purchase": {"state": "MN", "total_cents": 1_250},
    "ShowJob": {"tenths_per_work": 25},
    "Wording": {"document": "leave-behind", "language": "en", "part": "asking"},
}
# What stays empty in a row that has everything else, because a constraint says so.
EMPTY: dict[str, set[str]] = {
    "Approval": {"lapsed_on"},
    "Ask": {"answered_on"},
    "Gift": {
        "amount_cents",
        "return_on",
        "returned_on",
        "accepted_on",
        "handed_in_on",
        "hand_in_due",
        "families_due",
        "families_thanked_on",
    },
    "FollowUp": {"done_on"},
    "Grant": {"accepted_on", "claimed_on", "reported_on"},
    "GrantChange": {"to_line"},
    "Invitation": {"used_by", "used_on"},
    "Helper": {"stopped_on", "forgotten_on"},
    "Kit": {"back_on"},
    "Occasion": {"ended_on", "confirmed_on"},
    "Offer": {"ended_on", "ends_on"},
    "Promise": {"settled_on", "at_most", "amount_cents", "turn"},
    "ProjectPart": {"done_on"},
    "Purchase": {"called_off_on", "handed_in_on", "repaid_on", "tax_back_on"},
    "Session": {"called_off_on", "counted_on", "week_done_on", "day_done_on"},
    "Thanks": {"done_on"},
    "Trade": {"called_off_on"},
}
# Where a row of one kind cannot stand without a second one of another kind.
BESIDE = 1_000_000


def value_for(field: Any, program: Program, text: str) -> Any:
    if isinstance(field, models.ForeignKey):
        target = field.remote_field.model
        return make_row(target, program, text) if issubclass(target, Row) else people.make_user(f"user{next(_number)}")
    if field.choices:
        return field.choices[0][0]
    if isinstance(field, models.DateField):
        # Later columns hold later days, as constraints on the order of days want it.
        return people.TUESDAY + timedelta(days=field.model._meta.concrete_fields.index(field))
    if isinstance(field, models.EmailField):
        return f"{text.strip()[:60]}{next(_number)}@example.org".replace(" ", "")
    if isinstance(field, models.TextField | models.CharField):
        return f"{text}{next(_number)}"[: field.max_length]
    if isinstance(field, models.BinaryField):
        return b"%PDF-"
    if isinstance(field, models.TimeField):
        return "15:30"
    # A run makes more rows than a small column counts.
    return next(_number) % SMALL


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


def make_book(program: Program, pk: int, text: str, **given: dict[str, Any]) -> dict[str, Any]:
    """A row of every kind, all with the same `pk`, that refer to one another wherever they can; by the model's name.

    Every column of words holds `text`, also those that may be empty; `given` are other values by the model's name. One
    address with `pk` then reaches a row of whatever kind its page is about.
    """
    made: dict[str, Any] = {}

    def row_of(model: type[Any]) -> Any:
        if model.__name__ not in made:
            values = {
                **ASKED.get(model.__name__, {}),
                **SENSIBLE.get(model.__name__, {}),
                "pk": pk,
                "program": program,
                **given.get(model.__name__, {}),
            }
            for field in model._meta.concrete_fields:
                if field.name in values or field.name in EMPTY.get(model.__name__, ()) or not wanted(field):
                    continue
                refers = isinstance(field, models.ForeignKey) and issubclass(field.remote_field.model, Row)
                values[field.name] = row_of(field.remote_field.model) if refers else value_for(field, program, text)
            if "first" in values:
                values["last"] = values["first"]
            made[model.__name__] = model._base_manager.create(**values)
        return made[model.__name__]

    for model in ROWS:
        row_of(model)
    ours = {"trade": made["Trade"], "partner": made["Partner"], "part": "make", "side": "us", "quantity": 9}
    make_row(type(made["Promise"]), program, text, pk=pk + BESIDE, **ours)
    return made


def wanted(field: Any) -> bool:
    """Words, dates and references; numbers and choices keep their defaults where they have one."""
    if field.primary_key or field.name in ("created_at", "created_by", "updated_at", "updated_by", "program"):
        return False
    if isinstance(field, models.CharField | models.TextField):
        return not field.choices or (not field.has_default() and not field.blank)
    if isinstance(field, models.ForeignKey | models.DateField | models.BinaryField):
        return True
    return not (field.null or field.has_default() or field.blank)
