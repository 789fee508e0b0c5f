"""Rows that are ticked in a form."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from partners.ground.forms import RowsField
from partners.school.models import School
from tests import people


@pytest.mark.django_db
def test_a_number_that_no_column_holds_is_no_choice_and_no_fault() -> None:
    school = people.make_school(people.make_program())
    field = RowsField(School.objects.all())
    assert list(field.clean([str(school.pk)])) == [school]
    for number in (2**63, -(2**63) - 1, f" {2**63}", "9" * 5_000, school.pk + 1):
        with pytest.raises(ValidationError, match="not one of the available choices"):
            field.clean([str(school.pk), str(number)])
