"""Sheets of a grant: what they say, what is missing, and that every amount adds up. Sums done by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from outreach.documents import grant_application, grant_claim, grant_report
from outreach.page import Letterhead
from outreach.wording.grant import AWARD, GRANT, thanks_paragraphs
from outreach.wording.grant_facts import Agreed, BudgetLine, Charged, Receipt
from outreach.wording.own_words import Voice
from tests.outreach.sheets import Printed

COMMON = {
    "language": "en",
    "paper": "letter",
    "letterhead": Letterhead("Millrace Elementary"),
    "day": date(2027, 4, 1),
    "partner": "Alder Falls Education Fund",
    "title": "clay tiles",
    "teacher": "June Castellanos",
}
# Clay has 300.00 + 60.00 + 25.50 = 385.50; paid are 253.06 + 42.50 = 295.56, so 89.94 are left.
CLAY = BudgetLine("clay", 12, 30_000, 6_000, 2_550, 25_306, 4_250)
TOOLS = BudgetLine("tools", 2, 14_000, 0, -2_550, 11_450)
MOVED = Agreed("Ada Quill", date(2026, 11, 3), cents=2_550, line="tools", to_line="clay")
RECEIPT = Receipt(
    date(2026, 11, 5),
    "Clay House",
    "A-104",
    (Charged("clay", 26_301), Charged("", -995, "discount"), Charged("", 4_250, "shipping"), Charged("tools", 11_450)),
)
CLAIM = grant_claim.Facts(
    **COMMON, awarded=50_000, awarded_on=date(2026, 10, 20), buy_from=date(2026, 10, 20), spend_by=date(2027, 5, 1),
    receipts=(RECEIPT,), lines=(CLAY, TOOLS), changes=(MOVED,),
)  # fmt: skip
REPORT = grant_report.Facts(
    **COMMON, awarded=50_000, awarded_on=date(2026, 10, 20), asked=55_000, became="Forty tiles hang in the hall",
    students=40, lines=(CLAY, TOOLS), changes=(MOVED,),
)  # fmt: skip
APPLICATION = grant_application.Facts(
    **COMMON, asked=50_000, answers=(("Who are you?", ("We are an art room.", "We like clay.")),), lines=(CLAY, TOOLS)
)


def codes(module, facts):
    return {gap.code for gap in module.gaps(facts)}


def test_the_claim_lists_every_receipt_and_what_is_left():
    """263.01 - 9.95 + 42.50 + 114.50 = 410.06; of 500.00 that leaves 89.94."""
    text = Printed(grant_claim.draw(CLAIM)).text
    for words in ("November 5, 2026", "Clay House, no. A-104", "−$9.95", "discount", "$410.06", "$385.50"):
        assert words in text
    assert "Of $500.00, $89.94 is left." in text
    assert "$25.50 moved from tools to clay; Ada Quill, November 3, 2026" in text
    assert grant_claim.gaps(CLAIM) == ()


def test_lines_above_a_smaller_award_are_claimed_without_what_nobody_approved():
    text = Printed(grant_claim.draw(replace(CLAIM, awarded=42_000))).text
    assert "Of $420.00, $9.94 is left." in text
    assert "$410.06" in text
    assert "Approved" not in text
    assert "$385.50" not in text


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        ({"receipts": ()}, "no-receipts"),
        ({"receipts": (replace(RECEIPT, number=""),)}, "no-number"),
        ({"receipts": (replace(RECEIPT, day=date(2026, 10, 19)),)}, "too-early"),
        ({"receipts": (replace(RECEIPT, day=date(2027, 5, 2)),)}, "too-late"),
        ({"lines": (replace(CLAY, spent=99_999), TOOLS)}, "over"),
        ({"awarded": 41_005}, "too-much"),
        ({"awarded": 50_001}, "sums"),
    ],
)
def test_what_a_claim_would_come_back_for_is_said_before(changed, code):
    assert code in codes(grant_claim, replace(CLAIM, **changed))


def test_the_report_says_what_it_became_for_how_many_and_what_is_left():
    text = Printed(grant_report.draw(REPORT)).text
    for words in (
        "On October 20, 2026 you awarded our students $500.00 for “clay tiles”. We had asked for $550.00.",
        "Forty tiles hang in the hall. It reaches 40 students.",
        "$410.06 of it is spent, and $89.94 is left",
    ):
        assert words in text
    told = replace(REPORT, became="All 40 students made a tile.")
    assert "It reaches" not in Printed(grant_report.draw(told)).text
    assert grant_report.gaps(REPORT) == ()
    assert codes(grant_report, replace(REPORT, became="", students=None)) == {"no-becomes", "no-students"}


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_report_is_worded_in_both_languages(language):
    spent = [
        replace(REPORT, language=language, lines=lines) for lines in ((CLAY, TOOLS), (), (replace(CLAY, spent=60_000),))
    ]
    assert len({facts.body for facts in spent}) == 3
    assert all("{" not in " ".join(facts.body) for facts in spent)


def test_the_application_holds_answers_and_lines():
    text = Printed(grant_application.draw(APPLICATION)).text
    for words in ("Who are you?", "We like clay.", "clay × 12", "$440.00", "$60.00", "$500.00"):
        assert words in text
    assert grant_application.gaps(APPLICATION) == ()
    assert codes(grant_application, replace(APPLICATION, asked=50_001)) == {"sums"}


def test_thanks_for_an_award_name_it_and_ask_for_nothing():
    values = {"title": "clay tiles", "day": "October 20, 2026", "amount": "$500.00", "children": "40 students"}
    said = thanks_paragraphs(Voice(AWARD, "en", GRANT["en"], values=values))
    assert said[0] == (
        "Thank you for the grant of $500.00 that you awarded our students on October 20, 2026 for “clay tiles”. "
        "It will reach 40 students."
    )
