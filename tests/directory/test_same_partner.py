"""Is it in the book already?"""

from __future__ import annotations

import pytest

from partners.directory import same_partner
from partners.directory.actions import add_partner
from partners.directory.same_partner import likely_partners
from tests.people import make_partner, make_program
from tests.query_plan import plan_of

pytestmark = pytest.mark.django_db


@pytest.fixture(params=["all", "narrowed"])
def either_way(request, monkeypatch):
    """Comparing with all partners, and asking the indexes as for a large book."""
    if request.param == "narrowed":
        monkeypatch.setattr(same_partner, "COMPARE_ALL", 0)


@pytest.mark.usefixtures("either_way")
@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"name": "riverbend garden center"}, "the same name"),
        ({"name": "Riverbend Garden Centre LLC"}, "the same name, written in another way"),
        ({"name": "Other", "phone": "201-555-0123"}, "the same phone number"),
        ({"name": "Other", "web": "https://www.riverbend.example.org/contact"}, "the same web address"),
        ({"name": "Other", "street": "410 River Rd.", "city": "Alder Falls", "state": "NJ"}, "the same address"),
    ],
)
def test_a_likely_partner_is_found_with_its_reason(desk, values, why):
    partner = add_partner(
        desk=desk, name="Riverbend Garden Center", phone="(201) 555-0123", web="riverbend.example.org",
        street="410 River Road", city="Alder Falls", state="NJ",
    )  # fmt: skip
    add_partner(desk=desk, name="Tamarack Hardware", phone="(201) 555-0124")
    (likely,) = likely_partners(desk, **values)
    assert (likely.partner, likely.why) == (partner, why)


@pytest.mark.usefixtures("either_way")
def test_nobody_of_another_program_is_likely(desk):
    make_partner(make_program("Stone Quay Art"))
    assert likely_partners(desk, name="Riverbend Garden Center") == []


def test_a_large_book_is_asked_through_its_indexes(desk, monkeypatch):
    monkeypatch.setattr(same_partner, "COMPARE_ALL", 0)
    make_partner(desk.program)
    values = {"phone": "(201) 555-0123", "street": "1 Main St", "city": "Alder Falls", "web": "example.org"}
    plan = plan_of(lambda: likely_partners(desk, name="The Riverbend", **values))
    for index in ("partner_by_name", "partner_phone", "partner_address", "partner_web"):
        assert f"INDEX {index} " in plan
