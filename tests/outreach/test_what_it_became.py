"""What a project became is said of the gifts it describes, and of no gift that came later."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from outreach.preparing import prepare
from partners.asking.gather import situation
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.program.desk import Desk
from partners.school.project_actions import add_project, edit_project
from partners.school.project_models import Project
from tests.people import make_partner, make_school

pytestmark = pytest.mark.django_db

SENTENCE = "Ninety-six planters stand on the porches of Canal Street."


@pytest.fixture
def project(desk: Desk) -> Project:
    return add_project(desk=desk, title="Porch planters", school=make_school(desk.program))


def came(desk: Desk, project: Project, day: date) -> Gift:
    partner = desk.partners.first() or make_partner(desk.program)
    lines = [Line(description="terracotta pots", quantity=60)]
    return receive(
        desk=desk, source="partner", partner=partner, day=day, form="goods", school=project.school, project=project,
        lines=lines,
    )  # fmt: skip


def letter(desk: Desk, gift: Gift) -> str:
    return " ".join(prepare(desk, "gratitude-letter", gift.pk).facts.body)


def test_a_gift_from_before_is_told_what_it_became(desk: Desk, project: Project) -> None:
    gift = came(desk, project, desk.day)
    edit_project(desk=replace(desk, day=desk.day + timedelta(days=90)), project=project, what_it_became=SENTENCE)
    assert SENTENCE in letter(desk, gift)


def test_a_gift_that_comes_afterwards_is_not(desk: Desk, project: Project) -> None:
    edit_project(desk=desk, project=project, what_it_became=SENTENCE)
    gift = came(desk, project, desk.day + timedelta(days=1))
    assert SENTENCE not in letter(desk, gift)
    assert "no-becomes" in [gap.code for gap in prepare(desk, "gratitude-letter", gift.pk).gaps()]


def test_putting_a_word_right_later_does_not_make_it_true_of_later_gifts(desk: Desk, project: Project) -> None:
    edit_project(desk=desk, project=project, what_it_became="Ninety planters.")
    gift = came(desk, project, desk.day + timedelta(days=1))
    edit_project(desk=replace(desk, day=desk.day + timedelta(days=9)), project=project, what_it_became=SENTENCE)
    assert SENTENCE not in letter(desk, gift)


def test_the_sheet_tells_last_years_gift_and_not_the_newest(desk: Desk, project: Project) -> None:
    came(desk, project, desk.day - timedelta(days=400))
    edit_project(desk=replace(desk, day=desk.day - timedelta(days=370)), project=project, what_it_became=SENTENCE)
    partner = came(desk, project, desk.day).partner
    assert partner is not None
    assert prepare(desk, "leave-behind", partner.pk).facts.last_year == SENTENCE


def test_a_later_gift_is_still_to_be_told(desk: Desk, project: Project) -> None:
    edit_project(desk=desk, project=project, what_it_became=SENTENCE)
    partner = came(desk, project, desk.day + timedelta(days=1)).partner
    assert partner is not None
    assert situation(desk, partner).result_owed_since == desk.day + timedelta(days=1)


def test_taking_the_sentence_out_takes_its_day_too(desk: Desk, project: Project) -> None:
    edit_project(desk=desk, project=project, what_it_became=SENTENCE)
    edit_project(desk=desk, project=project, what_it_became="")
    assert project.became_on is None
