"""Letters for gifts against the published rules, each value with its source."""

from datetime import date
from decimal import Decimal

import pytest

from partners.gifts.acknowledgment import (
    TokenLimits,
    disclosure_required,
    form_8283_note,
    gift_part_cents,
    is_above_75,
    is_contemporaneous,
    is_partly_gift,
    mileage_cents,
    needs_acknowledgment,
    share_limit_cents,
    token_harbour,
    token_limits,
)
from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_check import ProblemCode, check_letter
from partners.gifts.letter_rules import decide

DAY = date(2025, 6, 1)


def stops(text: str, facts: GiftFacts) -> list[ProblemCode]:
    return [problem.code for problem in check_letter(text, facts) if problem.stops]


def test_1_acknowledgment_from_250_inclusive() -> None:
    # 26 USC 170(f)(8)(A)
    assert needs_acknowledgment(250_00)
    assert not needs_acknowledgment(249_99)


def test_2_gifts_of_different_days_are_not_added_up() -> None:
    # 26 CFR 1.170A-13(f)(1)
    assert not any(needs_acknowledgment(cents) for cents in (200_00, 200_00))


def test_3_a_value_in_a_goods_letter_is_refused_with_the_reason() -> None:
    # 26 USC 170(f)(8)(B)(i)
    facts = GiftFacts("goods", DAY, governmental=True, description="paint", giver_says_250=False)
    problems = check_letter("Thank you for the paint of June 1, 2025, worth $300.", facts)
    assert [(problem.code, problem.snippet, problem.source) for problem in problems if problem.stops] == [
        ("value", "worth $300", "A2")
    ]


def test_4_a_goods_letter_of_250_without_the_statement_is_incomplete() -> None:
    # 26 USC 170(f)(8)(B)(ii)
    facts = GiftFacts("goods", DAY, governmental=True, description="paint", giver_says_250=True)
    assert stops("Thank you for the paint of June 1, 2025.", facts) == ["no_statement"]
    assert stops("Thank you for the paint of June 1, 2025. No goods or services were given in return.", facts) == []


def test_5_a_receipt_for_small_goods_is_complete_without_a_value() -> None:
    # 26 CFR 1.170A-16(a)(1): name and address (the sheet's head), date, description
    facts = GiftFacts("goods", DAY, governmental=True, description="12 jars of paint", giver_says_250=False)
    text = "Millrace Elementary, 12 Elm St, Alder Falls. Thank you for the twelve jars of paint of June 1, 2025."
    assert check_letter(text, facts) == []


@pytest.mark.parametrize(
    ("letter", "due", "filed", "in_time"),
    [
        (date(2026, 3, 11), date(2026, 4, 15), date(2026, 3, 10), False),
        (date(2026, 9, 1), date(2026, 10, 15), date(2026, 9, 1), True),
    ],
)
def test_6_and_7_contemporaneous(letter: date, due: date, filed: date, in_time: bool) -> None:
    # 26 USC 170(f)(8)(C)
    assert is_contemporaneous(letter, due, filed) is in_time


def test_8_a_ticket_worth_40_for_100_leaves_60() -> None:
    # IRS, "Charitable contributions: quid pro quo contributions"
    assert gift_part_cents(100_00, 40_00) == 60_00
    assert is_above_75(100_00)


@pytest.mark.parametrize(("governmental", "by_law"), [(True, False), (False, True)])
def test_9_a_school_is_not_bound_a_booster_group_is_and_both_show_the_estimate(
    governmental: bool, by_law: bool
) -> None:
    # 26 USC 6115(a)
    assert disclosure_required(100_00, 40_00, governmental) is by_law
    facts = GiftFacts("money", DAY, governmental, amount_cents=100_00, back="a ticket", back_estimate_cents=40_00)
    decision = decide(facts)
    assert decision.disclosed_by_law is by_law
    assert decision.verdict("back_estimate") == ("must" if by_law else "may")


def test_10_bought_at_its_price_is_no_gift() -> None:
    # IRS, "Charitable contributions: quid pro quo contributions"
    assert gift_part_cents(20_00, 20_00) == 0
    assert not is_partly_gift(20_00, 20_00)
    facts = GiftFacts("money", DAY, False, amount_cents=20_00, back="a print", back_estimate_cents=20_00)
    assert decide(facts).verdict("deductible_gift") == "must_not"


def test_11_a_lesson_at_100_for_500_leaves_400() -> None:
    # 26 CFR 1.6115-1(a)(3) example 2
    facts = GiftFacts("money", DAY, False, amount_cents=500_00, back="a lesson", back_estimate_cents=100_00)
    assert decide(facts).gift_part_cents == gift_part_cents(500_00, 100_00) == 400_00


def test_12_an_auction_at_the_fair_rental_leaves_nothing() -> None:
    # IRS Publication 526
    assert gift_part_cents(500_00, 500_00) == 0


def test_13_a_mug_with_the_logo_is_a_token() -> None:
    # Rev. Proc. 2024-40
    assert token_harbour(2025, 68_00, None, 13_60, bears_name=True) == "item"
    facts = GiftFacts("money", DAY, False, 68_00, back="a mug", back_cost_cents=13_60, back_bears_name=True)
    assert decide(facts).gift_part_cents == 68_00


def test_14_an_item_without_name_or_logo_is_none() -> None:
    # Rev. Proc. 90-12 section 3.01(2)
    assert token_harbour(2025, 68_00, 5_00, 5_00, bears_name=False) == "none"
    assert share_limit_cents(2025, 68_00) == 1_36


def test_15_two_percent_within_the_cap() -> None:
    # Rev. Proc. 2012-41: 2 % of 5,000 is 100, the cap of 2013 is 102
    assert token_harbour(2013, 5_000_00, 100_00, None, bears_name=False) == "share"
    assert token_harbour(2013, 5_000_00, 100_01, None, bears_name=False) == "none"


def test_16_limits_of_2018() -> None:
    # Rev. Proc. 2018-18
    assert token_limits(2018) == TokenLimits(10_80, 54_00, 108_00)


@pytest.mark.parametrize(
    ("year", "article", "minimum", "cap"),
    [
        (2019, 11_10, 55_50, 111_00),  # Rev. Proc. 2018-57
        (2020, 11_20, 56_00, 112_00),
        (2021, 11_30, 56_50, 113_00),
        (2022, 11_70, 58_50, 117_00),  # article: IRS Publication 526 (2022)
        (2023, 12_50, 62_50, 125_00),  # Rev. Proc. 2022-38
        (2024, 13_20, 66_00, 132_00),  # Rev. Proc. 2023-34
        (2025, 13_60, 68_00, 136_00),  # Rev. Proc. 2024-40
    ],
)
def test_limits_of_other_years(year: int, article: int, minimum: int, cap: int) -> None:
    # Secondary sources where no other is named.
    assert token_limits(year) == TokenLimits(article, minimum, cap)


def test_17_a_year_that_the_table_lacks_is_not_available() -> None:
    # No table of 2026 was found: never another year's.
    assert token_limits(2026) is None
    assert token_harbour(2026, 1_000_00, 1_00, 1_00, bears_name=True) == "not_available"
    facts = GiftFacts("money", date(2026, 6, 1), False, 68_00, back="a mug", back_estimate_cents=9_00)
    choice = decide(facts).choice("token_only")
    assert choice is not None
    assert (choice.verdict, choice.reason) == ("must_not", "token_year_missing")


def test_18_time_is_not_deductible() -> None:
    # IRS Publication 526 (2022) table 2
    decision = decide(GiftFacts("service", DAY, governmental=True, description="6 hours of help"))
    assert decision.gift_part_cents == 0
    assert decision.verdict("deductible_gift") == "must_not"


def test_19_mileage() -> None:
    # 26 USC 170(i)
    assert mileage_cents(Decimal(60)) == 8_40


def test_28_form_8283_above_500() -> None:
    # Instructions for Form 8283
    assert not form_8283_note(500_00)
    assert form_8283_note(500_01)
    assert not form_8283_note(5_000_00, corporation=True)


def test_29_use_of_a_room_is_thanked_for_only() -> None:
    # IRS Publication 526, "Right to use property"
    facts = GiftFacts("space", DAY, governmental=True, description="the lobby")
    assert decide(facts).verdict("value") == decide(facts).verdict("deductible_gift") == "must_not"
    assert decide(facts).verdict("nothing_in_return") is None
    text = "Thank you for the use of your lobby on June 1, 2025, worth $3,000 a week and tax-deductible."
    assert set(stops(text, facts)) == {"value_of_help", "deductible"}
    assert check_letter("Thank you for the use of your lobby on June 1, 2025.", facts) == []


def test_36_goods_are_described_and_what_went_back_is_estimated() -> None:
    # 26 USC 170(f)(8)(B)
    facts = GiftFacts(
        "goods",
        DAY,
        True,
        description="paint",
        back="a decorated stool",
        back_estimate_cents=80_00,
        giver_says_250=True,
    )
    decision = decide(facts)
    assert (decision.verdict("value"), decision.verdict("back_estimate")) == ("must_not", "must")
    good = (
        "Thank you for the paint of June 1, 2025. We gave you a decorated stool, and estimate its fair value at $80.00."
    )
    assert check_letter(good, facts) == []
    assert stops(good.replace("the paint", "the paint, valued at $300,"), facts) == ["value"]
    assert stops("Thank you for the paint of June 1, 2025. We gave you a decorated stool.", facts) == ["no_estimate"]


def test_37_a_photographers_hours_are_thanked_for_without_a_tax_sentence() -> None:
    # 26 CFR 1.170A-1(g)
    facts = GiftFacts("service", DAY, governmental=True, description="5 hours of photographs")
    assert check_letter("Thank you for five hours of photographs on June 1, 2025.", facts) == []
    assert stops("Thank you for the photographs of June 1, 2025. Your gift is tax-deductible.", facts) == ["deductible"]


def test_token_limits_keep_their_invariant() -> None:
    # Rev. Proc. 90-12: the minimum payment is 5 times the article, the cap 10 times
    years = [limits for year in range(2000, 2100) if (limits := token_limits(year))]
    assert len(years) == 9
    assert all((5 * it.article_cents, 10 * it.article_cents) == (it.minimum_cents, it.cap_cents) for it in years)
