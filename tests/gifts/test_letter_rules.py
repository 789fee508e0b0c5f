from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.gifts.acknowledgment import disclosure_required, gift_part_cents, mileage_cents, needs_acknowledgment
from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_rules import decide

DAY = date(2025, 10, 6)
GOODS = GiftFacts("goods", DAY, governmental=True, description="40 pots")
MONEY = GiftFacts("money", DAY, governmental=True, amount_cents=150_00)
FORMS = ("money", "goods", "service", "space", "discount", "loan", "exchange")


def facts_of_any_gift() -> st.SearchStrategy[GiftFacts]:
    cents = st.none() | st.integers(0, 1_000_00)
    flags = st.booleans()
    return st.sampled_from(FORMS).flatmap(
        lambda form: st.builds(
            GiftFacts,
            st.just(form),
            st.dates(date(2012, 1, 1), date(2030, 1, 1)),
            flags,
            amount_cents=st.integers(0, 1_000_00) if form == "money" else st.none(),
            back=st.sampled_from(["", "a mug"]),
            back_estimate_cents=cents,
            back_cost_cents=cents,
            back_bears_name=flags,
            part_of_trade=flags,
            for_named_person=flags,
            giver_says_250=st.none() | flags,
        )
    )


@given(facts_of_any_gift())
def test_every_sentence_is_decided_once(facts: GiftFacts) -> None:
    codes = [choice.code for choice in decide(facts).choices]
    assert len(codes) == len(set(codes))


@given(facts_of_any_gift())
def test_no_goods_or_help_letter_may_tell_a_value(facts: GiftFacts) -> None:
    assert (decide(facts).verdict("value") == "must_not") is (facts.form != "money")


@given(facts_of_any_gift())
def test_nothing_in_return_is_never_said_of_a_trade_or_beside_something_given(facts: GiftFacts) -> None:
    decision = decide(facts)
    if facts.is_trade or facts.back:
        assert decision.verdict("nothing_in_return") == "must_not"


@given(facts_of_any_gift())
def test_from_250_the_letter_says_whether_something_was_given(facts: GiftFacts) -> None:
    if facts.reaches_250 and not facts.is_trade:
        assert decide(facts).codes("must") & {"nothing_in_return", "back_described"}


@given(facts_of_any_gift())
def test_no_letter_holds_an_ask_or_another_giver(facts: GiftFacts) -> None:
    assert {"another_ask", "other_givers"} <= decide(facts).codes("must_not")


def test_a_trade_points_to_the_givers_adviser() -> None:
    decision = decide(replace(GOODS, form="exchange"))
    assert decision.verdict("ask_adviser") == "may"
    assert decision.verdict("deductible_gift") == "must_not"


def test_goods_of_unknown_value_carry_the_statement_for_the_givers_sake() -> None:
    choice = decide(GOODS).choice("nothing_in_return")
    assert choice is not None
    assert (choice.verdict, choice.reason) == ("must", "may_reach_250")


def test_small_money_shows_the_statement_as_good_practice() -> None:
    assert decide(MONEY).verdict("nothing_in_return") == "may"


def test_something_given_without_an_estimate_leaves_the_gift_part_open() -> None:
    decision = decide(replace(MONEY, governmental=False, back="a print"))
    assert decision.gift_part_cents is None
    assert decision.disclosed_by_law
    assert decision.verdict("back_estimate") == "must"


def test_what_is_no_token_counts_whole() -> None:
    decision = decide(replace(MONEY, back="a print", back_estimate_cents=20_00))
    assert decision.gift_part_cents == 130_00
    assert decision.harbour == "none"


@pytest.mark.parametrize(
    "wrong",
    [
        {"form": "money"},
        {"form": "goods", "amount_cents": 5_00},
        {"form": "money", "amount_cents": -1},
        {"form": "goods", "back_estimate_cents": -1},
        {"form": "goods", "back_cost_cents": -1},
    ],
)
def test_facts_that_cannot_be_are_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(ValueError, match=r"amount|negative"):
        GiftFacts(day=DAY, governmental=True, **wrong)


def test_negative_amounts_are_refused() -> None:
    for refuse in (lambda: gift_part_cents(-1, 0), lambda: needs_acknowledgment(-1), lambda: mileage_cents(-1)):
        with pytest.raises(ValueError, match="negative"):
            refuse()
    with pytest.raises(ValueError, match="negative"):
        disclosure_required(1, -1, governmental=False)


@given(facts_of_any_gift())
def test_only_a_gift_for_one_person_stops_the_letter(facts: GiftFacts) -> None:
    assert bool(decide(facts).codes("stop")) is facts.for_named_person
