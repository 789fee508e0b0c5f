"""Figures of the money: by year and by school, each with the purchases behind it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise
from random import Random
from typing import Any
from urllib.parse import parse_qs

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.funding.buying_models import Purchase
from partners.funding.figures import Span, span_of, span_on, spans
from partners.funding.money_figures import BEHIND, behind, money_page
from partners.program.desk import Desk
from partners.program.models import Membership, Opened
from tests import people
from tests.ladder import enter, flat, status
from tests.query_plan import plan_of

DAY = people.TUESDAY
MONEY = "/money/"


@pytest.mark.parametrize(
    ("code", "begins", "first", "end", "name"),
    [
        ("2026", 7, date(2026, 1, 1), date(2027, 1, 1), "2026"),
        ("2026-27", 7, date(2026, 7, 1), date(2027, 7, 1), "2026–27"),
        ("2099-00", 9, date(2099, 9, 1), date(2100, 9, 1), "2099–00"),
    ],
)
def test_an_address_names_a_school_year_or_a_calendar_year(
    code: str, begins: int, first: date, end: date, name: str
) -> None:
    assert span_of(code, begins) == Span(code, name, first, end)


@pytest.mark.parametrize("code", ["", "26", "2026-28", "2026-27-28", "1999", "2026 ", "٢٠٢٦", "9" * 40])
def test_anything_else_names_no_year(code: str) -> None:
    assert span_of(code, 7) is None


def test_where_the_fiscal_year_begins_in_january_there_is_one_kind_of_year() -> None:
    assert span_on(DAY, 1) == span_on(DAY, 1, calendar=True)
    assert span_of("2026-27", 1) is None


@pytest.mark.parametrize("calendar", [True, False])
def test_years_follow_one_another_without_a_gap(calendar: bool) -> None:
    found = spans(date(2022, 3, 1), span_on(DAY, 7, calendar=calendar), 7, 12)
    assert all(later.first == earlier.end for later, earlier in pairwise(found))
    assert found[-1].first <= date(2022, 3, 1) < found[-1].end
    assert len(spans(date(2022, 3, 1), found[0], 7, 2)) == 2


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 12:00 -0400", tick=False):
        yield


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


def bought(desk: Desk, **values: Any) -> Purchase:
    given = {"vendor": "Tamarack Hardware", "what": "glue", "slip_on": DAY, "bought_on": DAY, "total_cents": 1000}
    return Purchase.objects.create(program=desk.program, **{**given, **values})


def shown(desk: Desk, code: str = "") -> dict[str, list[int]]:
    """The figures of each year and school, in their order."""
    page = money_page(desk, code)
    return {line.name: [cell.cents for cell in line.cells] for line in (*page["years"], *page["schools"])}


@pytest.mark.parametrize(
    ("values", "figures"),
    [
        ({"payer": "order", "tax_saved_cents": 66}, [66, 0, 0, 0]),
        ({"payer": "order", "tax_cents": 66, "tax_back_due": DAY}, [0, 66, 0, 0]),
        ({"payer": "order", "tax_cents": 66, "tax_back_due": DAY, "tax_let_go": True}, [0, 0, 0, 0]),
        ({"payer": "order", "tax_cents": 66, "tax_back_due": DAY, "tax_back_on": DAY}, [0, 0, 0, 0]),
        ({"payer": "order", "tax_cents": 66}, [0, 0, 0, 0]),
        ({"payer": "own"}, [0, 0, 1000, 0]),
        ({"payer": "own", "not_claimed": True}, [0, 0, 1000, 0]),
        ({"payer": "own", "repaid_on": DAY, "repaid_cents": 1000}, [0, 0, 0, 1000]),
        ({"payer": "own", "repaid_on": DAY, "repaid_cents": 900}, [0, 0, 100, 900]),
        ({"payer": "own", "tax_back_on": DAY, "tax_back_cents": 66}, [0, 0, 934, 0]),
    ],
)
def test_what_a_purchase_counts_for(own: Desk, values: dict[str, Any], figures: list[int]) -> None:
    bought(own, **values)
    bought(own, bought_on=None, total_cents=None, payer="own")
    assert shown(own)["2026–27"] == figures
    assert [behind(own.purchases, state=state).count() for state in BEHIND] == [min(1, cents) for cents in figures]


def test_each_year_and_school_has_its_own_sum_and_each_figure_opens_its_rows(own: Desk) -> None:
    """Against sums that Python takes over every purchase, one by one."""
    schools = [None, *(people.make_school(own.program, name) for name in ("Millrace", "North Ridge"))]
    chance = Random(5)
    for n in range(60):
        day = DAY - timedelta(days=chance.randrange(1200))
        told = {"payer": chance.choice(["own", "order"]), "tax_saved_cents": chance.randrange(3) * n}
        bought(own, bought_on=day, school=chance.choice(schools), total_cents=chance.randrange(9000), **told)
    for code in ("2025-26", "2025"):
        page = money_page(own, code)
        span = page["span"]
        inside = [one for one in Purchase.objects.all() if span.first <= one.bought_on < span.end]
        for line in page["schools"]:
            rows = [one for one in inside if (one.school.name if one.school else "") == line.name]
            saved, _back, out, _repaid = line.cells
            assert saved.cents == sum(one.tax_saved_cents for one in rows)
            assert out.cents == sum(one.total_cents or 0 for one in rows if one.payer == "own")
            if saved.query:
                asked = {name: value[0] for name, value in parse_qs(saved.query).items()}
                found = behind(own.purchases, span=span_of(asked["year"], 7), state=asked["state"])
                opened = found.filter(school=asked["school"])
                assert sum(one.tax_saved_cents for one in opened) == saved.cents
        current = next(line for line in page["years"] if line.current)
        assert current.cells[0].cents == sum(one.tax_saved_cents for one in inside)


def test_a_teacher_of_one_school_counts_it_alone(own: Desk) -> None:
    millrace, ridge = (people.make_school(own.program, name) for name in ("Millrace", "North Ridge"))
    bought(own, school=millrace, tax_saved_cents=5)
    bought(own, school=ridge, tax_saved_cents=7)
    narrow = people.make_desk(own.program, school_ids=frozenset({millrace.pk}))
    assert shown(narrow) == {"2026–27": [5, 0, 0, 0], "Millrace": [5, 0, 0, 0]}


def test_the_sums_come_from_the_index_of_days_in_a_fixed_number_of_queries(
    own: Desk, django_assert_num_queries: Any
) -> None:
    for n in range(30):
        bought(own, bought_on=DAY - timedelta(days=40 * n), payer="own")
    assert "purchase_bought" in plan_of(lambda: money_page(own, ""))
    with django_assert_num_queries(3):
        money_page(own, "2026")


def test_the_page_tells_of_the_deduction_by_calendar_year_with_its_caution(signed_in: Client, own: Desk) -> None:
    bought(own, payer="own", total_cents=42_000, bought_on=date(2025, 3, 3))
    assert "see 2026" in flat(signed_in.get(MONEY))
    page = flat(signed_in.get(MONEY, {"year": "2025"}))
    assert "You paid $420.00 of your own in 2025" in page
    assert "up to $300.00 of it may count" in page
    assert "at least 900 hours" in page
    assert "This is not tax advice" in page
    assert "ask a tax adviser" in flat(signed_in.get(MONEY, {"year": "2026"}))


def test_guests_never_see_what_a_teacher_paid(client: Client, own: Desk, grace: Membership) -> None:
    assert status(client, MONEY) == 302
    assert status(enter(client, grace), MONEY) == 403
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.MONEY])
    bought(own, payer="own", total_cents=98_765, tax_saved_cents=66, bought_on=date(2026, 10, 5))
    for code in ("2026-27", "2026"):
        page = flat(client.get(MONEY, {"year": code}))
        assert "$0.66" in page
        assert "987.65" not in page
        assert "ut of pocket" not in page.replace("out of your own pocket", "")
    assert reverse("funding:money") == MONEY
    assert status(client, MONEY, "post") == 405


def test_a_figure_opens_its_purchases_and_no_others(client: Client, own: Desk, grace: Membership) -> None:
    school = people.make_school(own.program, "Millrace")
    bought(own, what="felt", tax_saved_cents=66, school=school)
    bought(own, what="glue", payer="own", bought_on=date(2026, 3, 3), slip_on=date(2026, 3, 3))
    address, saved = reverse("funding:purchase-list"), f"?year=2026-27&school={school.pk}&state=tax-saved"
    enter(client, Membership.objects.get(user__username="june"))
    page = flat(client.get(address + saved))
    assert "Tax saved, 2026–27, Millrace." in page
    assert ("felt" in page, "glue" in page) == (True, False)
    page = flat(client.get(address, {"year": "2026", "state": "out-of-pocket"}))
    assert ("felt" in page, "glue" in page) == (False, True)
    assert "No purchase stands behind this." in flat(client.get(address, {"year": "2011"}))
    nonsense = {"year": "last", "school": "٣", "state": "lost"}
    assert "Show all purchases" not in flat(client.get(address, nonsense))
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.MONEY])
    page = flat(enter(client, grace).get(address, {"state": "out-of-pocket"}))
    assert ("felt" in page, "glue" in page) == (True, True)
