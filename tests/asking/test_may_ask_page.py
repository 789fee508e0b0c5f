"""The page that says whether one may ask, and how that was worked out."""

from __future__ import annotations

from datetime import date

import pytest
import time_machine

from partners.asking.actions import log_visit
from partners.asking.said import Said
from partners.directory.actions import add_partner
from partners.wish_list.models import Need
from tests.ladder import flat
from tests.people import TUESDAY
from tests.rows import make_row

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def garden(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", business_kind="garden", phone="(201) 555-0110")


def test_the_verdict_page_gives_every_rule_and_the_earliest_yes(signed_in, desk, garden, program):
    pots = Need.objects.create(program=program, what="terracotta pots", quantity=60, needed_by=date(2026, 11, 20))
    log_visit(desk=desk, said=Said(where=garden, happened="no", day=TUESDAY))
    page = flat(signed_in.get(f"/partners/{garden.pk}/may-ask/", {"need": pots.pk}))
    assert "Don’t ask Riverbend Garden Center before October 1, 2027 (they said no)" in page
    assert "How was this worked out?" in page
    assert page.count("nothing against it") >= 6
    assert "Earliest: October 1, 2027." in page or "too late for this need" in page


def test_the_verdict_page_for_a_yes(signed_in, garden):
    page = flat(signed_in.get(f"/partners/{garden.pk}/may-ask/"))
    assert "<p>You may ask</p>" in page
    assert "A quiet school day to go: Tuesday, October 6, 2026." in page


def test_a_need_nobody_knows_is_told_on_the_verdict_page(signed_in, garden, otto):
    answer = signed_in.get(f"/partners/{garden.pk}/may-ask/", {"need": make_row(Need, otto.program).pk})
    assert "need" in answer.context["form"].errors
