"""What is asked first of a shop fits the shop."""

from __future__ import annotations

import doctest
from datetime import date

from outreach.gathering.leave_behind import chosen_need
from partners.asking import need_fits
from partners.directory import kind_named
from partners.directory.models import BusinessKind
from partners.wish_list.actions import add_need
from tests.people import make_partner


def test_the_examples_hold():
    assert doctest.testmod(need_fits).failed == doctest.testmod(kind_named).failed == 0


def test_what_a_name_tells_is_a_kind_of_business():
    assert {kind for kind, _words in kind_named.TRADES} < set(BusinessKind.values)


def test_a_sheet_asks_a_shop_first_for_what_its_kind_has(desk):
    for what, day in (("paper ends", 1), ("seed packets", 2), ("smocks", 3)):
        add_need(desk=desk, what=what, quantity=20, needed_by=date(2027, 3, day))
    kinds = ("printer", "garden", "bank", "frame_shop")
    shops = [make_partner(desk.program, name=kind, business_kind=kind) for kind in kinds]
    asked = [str(chosen_need(desk, shop, {})) for shop in shops]
    assert asked == ["paper ends", "seed packets", "paper ends", "smocks"]
