"""The wall between programs, walked over every model and every reference."""

from __future__ import annotations

from typing import Any

import pytest
from django.apps import apps
from django.db import IntegrityError, connection, models, transaction

from partners.ground.models import Row
from partners.ground.wall import SameProgram
from tests import people
from tests.rows import make_row

pytestmark = pytest.mark.django_db

ROWS = [model for model in apps.get_app_config("partners").get_models() if issubclass(model, Row)]
REFERENCES = [
    (model, field)
    for model in ROWS
    for field in model._meta.concrete_fields
    if isinstance(field, models.ForeignKey) and issubclass(field.remote_field.model, Row)
]


def names(value: Any) -> str:
    return value.__name__ if isinstance(value, type) else value.name


@pytest.mark.parametrize("model", ROWS, ids=names)
def test_each_row_can_be_referred_to_within_its_program(model: type[Row]) -> None:
    together = [c.fields for c in model._meta.constraints if isinstance(c, models.UniqueConstraint)]
    assert ("program", "id") in together


@pytest.mark.parametrize(("model", "field"), REFERENCES, ids=names)
def test_each_reference_has_its_wall(model: type[Row], field: Any) -> None:
    assert field.name in {c.field for c in model._meta.constraints if isinstance(c, SameProgram)}


@transaction.atomic
def refer(row: Row, field: Any, pk: int) -> None:
    """Point the row at another, and have the database look at once instead of at the end of the transaction."""
    type(row)._base_manager.filter(pk=row.pk).update(**{field.attname: pk})
    connection.check_constraints()


@pytest.mark.parametrize(("model", "field"), REFERENCES, ids=names)
def test_own_program_is_accepted(model: type[Row], field: Any) -> None:
    ours = people.make_program("Ours")
    refer(make_row(model, ours), field, make_row(field.remote_field.model, ours).pk)
    assert model._base_manager.count() >= 1


@pytest.mark.parametrize(("model", "field"), REFERENCES, ids=names)
def test_database_refuses_a_row_of_another_program(model: type[Row], field: Any) -> None:
    ours, theirs = people.make_program("Ours"), people.make_program("Theirs")
    row = make_row(model, ours)
    foreign = make_row(field.remote_field.model, theirs)
    with pytest.raises(IntegrityError):
        refer(row, field, foreign.pk)
