"""What is spent of a grant and of its lines, against sums done by hand."""

from __future__ import annotations

import pytest
from django.utils.translation import gettext_noop

from outreach.gathering.grant import receipts
from partners.agenda.check_book import differences
from partners.funding.buying_actions import tax_came_back
from partners.funding.buying_models import Purchase, PurchaseLine
from partners.funding.grant_models import Grant, GrantChange, GrantLine
from partners.funding.grant_sums import line_sums, sum_again
from partners.ground.changes import change
from tests.people import TUESDAY, make_desk, make_partner

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk():
    return make_desk()


def bought(desk, grant, *lines, bought_on=TUESDAY):
    program = desk.program
    total = sum(cents for _kind, cents, _line in lines) if bought_on else None
    purchase = Purchase.objects.create(
        program=program, vendor="Clay House", what="clay", slip_on=TUESDAY, grant=grant, bought_on=bought_on,
        total_cents=total,
    )  # fmt: skip
    for kind, cents, line in lines:
        PurchaseLine.objects.create(
            program=program, purchase=purchase, kind=kind, cents=cents, what=kind, grant_line=line
        )
    return purchase


def test_planned_and_actual_stand_beside_each_other(desk):
    program = desk.program
    grant = Grant.objects.create(
        program=program, partner=make_partner(program), title="Clay", state="awarded", awarded_cents=50_000
    )
    given = {"program": program, "grant": grant}
    clay = GrantLine.objects.create(**given, what="Clay", planned_cents=30_000, shipping_cents=6_000)
    tools = GrantLine.objects.create(**given, what="Tools", planned_cents=14_000, position=2)
    GrantChange.objects.create(**given, line=tools, to_line=clay, moved_cents=2_550, agreed_by="Ada", agreed_on=TUESDAY)
    bought(
        desk, grant, ("item", 19_995, clay), ("discount", -995, clay), ("tax", 1_306, clay), ("shipping", 4_250, clay)
    )
    bought(desk, grant, ("item", 5_000, clay), ("item", 12_000, tools), ("item", 999, None))
    bought(desk, grant, ("item", 77_777, tools), bought_on=None)
    with change(desk, gettext_noop("Settings changed")) as book:
        sum_again(book, grant)
    # By hand: goods for clay 199.95 - 9.95 + 13.06 + 50.00 = 253.06, with 42.50 shipping 295.56 of
    # 300 + 60 + 25.50 = 385.50, so 89.94 are left. Tools 120.00 of 140 - 25.50 = 114.50: 5.50 too much.
    first, second = line_sums(grant)
    assert (first.spent_goods, first.spent_shipping, first.has, first.left) == (25_306, 4_250, 38_550, 8_994)
    assert (second.spent, second.has, second.left, second.is_over) == (12_000, 11_450, -550, True)
    assert (grant.spent_cents, grant.left_cents) == (41_556, 8_444)
    assert list(grant.lines.values_list("spent_cents", flat=True)) == [29_556, 12_000]


def test_tax_that_came_back_is_the_grants_again(desk):
    program = desk.program
    grant = Grant.objects.create(program=program, partner=make_partner(program), title="Clay")
    clay, tools = (
        GrantLine.objects.create(program=program, grant=grant, what=what, planned_cents=30_000, position=place)
        for place, what in enumerate(("Clay", "Tools"))
    )
    purchase = bought(desk, grant, ("item", 10_000, clay), ("tax", 500, clay), ("tax", 300, tools), ("tax", 90, None))
    tax_came_back(desk=desk, purchase=purchase, day=TUESDAY, cents=650)
    # By hand: 6.50 came back, 5.00 of them for clay and 1.50 for tools; the tax that no line paid comes last.
    assert [one.spent for one in line_sums(grant)] == [10_000, 150]
    (receipt,) = receipts(desk, grant)
    assert [(line.kind, line.cents) for line in receipt.lines][-1] == ("tax_back", -650)
    assert receipt.cents == 10_150
    assert list(Grant.objects.values_list("spent_cents", flat=True)) == [10_150]
    assert [said for said in differences(program) if "grant" in said] == []
