"""The slip for the shop, read back from its PDF."""

from dataclasses import replace
from datetime import date

import pytest

from outreach.documents import buying_slip
from outreach.documents.buying_slip import Facts
from tests.outreach.sheets import LONG_NAME, LONG_SCHOOL, SCHOOL, Printed

SLIP = Facts(
    "en", "letter", SCHOOL, "Corner Art Supply", "white clay, 100 pounds", "order", "exempt",
    person="June Castellanos", buyer="Alder Falls School District", school="Millrace Elementary", ein="00-0000000",
    certificate="EX-0417-22", certificate_state="MN", certificate_until=date(2027, 6, 30), about_cents=14_200,
    approved_by="Dr. Ruth Okafor", approved_on=date(2026, 10, 5), order_number="PO 4417", claim_days=30,
)  # fmt: skip
NO_TAX = "Tax-exempt: please charge no sales tax."


def text(facts):
    printed = Printed(buying_slip.draw(facts))
    assert len(printed.pages) == 1
    return " ".join("\n".join(printed.pages).split())


def test_it_says_who_buys_that_no_tax_is_charged_and_what_the_receipt_must_show():
    said = text(SLIP)
    for words in (
        NO_TAX, "Alder Falls School District", "00-0000000", "EX-0417-22, MN, valid until June 30, 2027", "PO 4417",
        "$142.00", "no sales tax, or a line that says 0.00", "within 30 days of buying", "Not tax advice.",
    ):  # fmt: skip
        assert words in said
    assert buying_slip.gaps(SLIP) == ()


@pytest.mark.parametrize(
    ("changed", "no_tax", "ask"),
    [
        ({"answer": "taxed"}, False, False),
        ({"answer": "ask"}, True, True),
        ({"answer": "ask", "payer": "own"}, False, True),
        ({"certificate_ended": True}, False, True),
    ],
)
def test_a_shop_is_told_to_charge_no_tax_only_where_that_holds(changed, no_tax, ask):
    said = text(replace(SLIP, **changed))
    assert (NO_TAX in said, "Ask the business office first" in said) == (no_tax, ask)
    # Where tax is due, no certificate is waved about.
    assert ("EX-0417-22" in said) == (changed.get("answer") != "taxed")


def test_the_longest_names_still_fit_one_page_in_both_languages():
    long = replace(
        SLIP, letterhead=LONG_SCHOOL, shop=LONG_NAME, what="clay " * 32, buyer=LONG_NAME, school=LONG_SCHOOL.school,
        paid_from=LONG_NAME, person=LONG_NAME,
    )  # fmt: skip
    assert NO_TAX in text(long)
    assert "no cobre el impuesto de venta" in text(replace(long, language="es"))


def test_what_is_missing_is_named_and_leaves_no_empty_label():
    bare = Facts("en", "letter", SCHOOL, "Corner Art", "clay", "own")
    assert {gap.code for gap in buying_slip.gaps(bare)} == {"no-legal-name", "no-ein", "no-certificate", "no-approval"}
    said = text(bare)
    assert not any(words in said for words in ("EIN", "Purchase order", "Approved by", "Exemption certificate", "None"))
