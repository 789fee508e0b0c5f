"""What follows from a receipt."""

from datetime import date

import pytest

from partners.funding.buying_rules import (
    ClaimDay,
    ReceiptLine,
    charged_tax_cents,
    claim_day,
    expected_tax_cents,
    tax_saved_cents,
    total_cents,
)

RECEIPT = [
    ReceiptLine("item", 1110),
    ReceiptLine("item", 1110),
    ReceiptLine("item", 500, taxable=False),
    ReceiptLine("shipping", 299, taxable=False),
    ReceiptLine("tax", 147),
]


def test_the_lines_are_summed_by_kind():
    assert (total_cents(RECEIPT), charged_tax_cents(RECEIPT)) == (3166, 147)


def test_tax_is_expected_on_what_is_taxable_only():
    # By hand: 22.20 at 6.625 % is 1.47075; 11.10 alone is 0.735375, twice rounded up 0.74.
    assert expected_tax_cents(RECEIPT, 66250, per_item=False) == 147
    assert expected_tax_cents(RECEIPT, 66250, per_item=True) == 148


def test_a_discount_lowers_what_is_taxed_and_never_below_nothing():
    # By hand: 22.20 − 2.20 = 20.00, at 6.625 % 1.33.
    assert expected_tax_cents([*RECEIPT, ReceiptLine("discount", -220)], 66250, per_item=True) == 133
    assert expected_tax_cents([*RECEIPT, ReceiptLine("discount", -9000)], 66250, per_item=False) == 0


@pytest.mark.parametrize(
    ("charged", "came_back", "exempt", "saved"),
    [
        (0, 0, True, 147),
        (147, 0, True, 0),
        (147, 147, True, 147),
        (147, 40, True, 40),
        (0, 0, False, 0),
        (200, 0, True, 0),
    ],
)
def test_tax_is_saved_where_a_certificate_spared_it(charged, came_back, exempt, saved):
    found = tax_saved_cents(expected=147, charged=charged, came_back=came_back, exempt=exempt)
    assert found == saved


@pytest.mark.parametrize(
    ("bought", "days", "starts", "day", "year_ends"),
    [
        (date(2026, 10, 6), 30, 7, date(2026, 11, 5), False),
        (date(2027, 6, 10), 30, 7, date(2027, 6, 30), True),
        (date(2027, 5, 31), 30, 7, date(2027, 6, 30), False),
        (date(2027, 6, 30), 30, 7, date(2027, 6, 30), True),
        (date(2027, 7, 1), 30, 7, date(2027, 7, 31), False),
        (date(2026, 12, 20), 60, 1, date(2026, 12, 31), True),
        (date(2026, 10, 6), None, 7, date(2027, 6, 30), True),
    ],
)
def test_a_receipt_is_handed_in_within_the_days_and_the_fiscal_year(bought, days, starts, day, year_ends):
    assert claim_day(bought, days, starts) == ClaimDay(day, year_ends)
