"""The giver and the day of the tests that open pages of gifts."""

import pytest
from django.utils import timezone

from tests import people


@pytest.fixture
def garden(program):
    return people.make_partner(program)


@pytest.fixture
def today(program):
    return people.make_desk(program, timezone.localdate())
