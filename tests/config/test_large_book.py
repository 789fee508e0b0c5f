"""The large book for measuring is a sound one."""

from __future__ import annotations

import pytest

from partners.agenda.check_book import differences
from partners.config.large_book import load_large
from partners.program.models import Program
from tests.people import TUESDAY

pytestmark = pytest.mark.django_db


def test_a_large_book_with_helpers_is_as_the_verbs_would_leave_it() -> None:
    load_large(40, TUESDAY, helpers=120)
    program = Program.objects.get()
    assert (program.helpers.count(), program.turns.count(), program.sessions.count()) == (120, 600, 120)
    assert differences(program) == []


def test_a_large_book_has_its_share_of_money_as_the_verbs_would_leave_it() -> None:
    load_large(1200, TUESDAY)
    program = Program.objects.get()
    assert (program.grants.count(), program.purchases.count(), program.projects.count()) == (12, 60, 12)
    assert program.occasions.count() == 2
    for lines in (
        program.purchases.out_of_pocket(),
        program.grants.going_on(),
        program.occasions.filter(next_on__lt=TUESDAY),
    ):
        assert lines.exists()
    assert differences(program) == []
