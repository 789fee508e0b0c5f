from dataclasses import replace
from datetime import date

import pytest

from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_check import ProblemCode, check_letter, is_same_body

DAY = date(2025, 10, 6)
POTS = GiftFacts("goods", DAY, governmental=True, description="40 terracotta pots", giver="Riverbend Garden Center")
MONEY = GiftFacts("money", DAY, governmental=True, amount_cents=1_500_00)
GOOD = "Thank you for the terracotta pots of October 6. Nothing was given in return. Every child painted one."


def codes(text: str, facts: GiftFacts, *others: str) -> list[ProblemCode]:
    return [problem.code for problem in check_letter(text, facts, others)]


def test_a_right_letter_has_no_problem() -> None:
    assert check_letter(GOOD, POTS) == []


def test_a_gift_for_one_person_stops_any_letter() -> None:
    problems = check_letter(GOOD, replace(POTS, for_named_person=True))
    assert [(problem.code, problem.stops, problem.source) for problem in problems] == [("named_person", True, "B1")]


def test_nothing_in_return_stops_on_a_trade() -> None:
    assert codes(GOOD, replace(POTS, part_of_trade=True)) == ["nothing_on_trade"]


def test_nothing_in_return_stops_beside_something_given() -> None:
    facts = replace(POTS, back="a bowl", back_estimate_cents=8_00)
    assert "nothing_but_given" in codes(GOOD + " We gave you a bowl, which we estimate at $8.", facts)


def test_an_ask_stops_the_letter_and_is_shown() -> None:
    problem = check_letter(GOOD + " Would you consider giving again next spring?", POTS)[0]
    assert (problem.code, problem.stops, "consider giving" in problem.snippet) == ("ask", True, True)


def test_a_missing_statement_is_told_where_only_the_giver_knows_the_value() -> None:
    problems = check_letter("Thank you for the pots of October 6.", POTS)
    assert [(problem.code, problem.stops) for problem in problems] == [("no_statement", False)]


@pytest.mark.parametrize("amount", ["$1,500", "$1,500.00", "1500 dollars"])
def test_money_is_found_however_it_is_written(amount: str) -> None:
    assert codes(f"Thank you for your {amount} of October 6, 2025. Nothing was given in return.", MONEY) == []


@pytest.mark.parametrize("amount", ["$150", "$1,500.50", "$11,500", "$1,500,000"])
def test_another_amount_stops_a_money_letter(amount: str) -> None:
    assert codes(f"Thank you for your {amount} of October 6. Nothing was given in return.", MONEY) == ["no_amount"]


@pytest.mark.parametrize(
    "day", ["October 6", "Oct. 6, 2025", "October 6th", "6 October", "el 6 de octubre de 2025", "10/6/2025", "10/06/25"]
)
def test_the_day_is_found_however_it_is_written(day: str) -> None:
    assert codes(f"Thank you for the pots of {day}. Nothing was given in return.", POTS) == []


@pytest.mark.parametrize(
    "day",
    ["6 de octubre de 2024", "October 16", "October 7", "6 November", "11/6/2025", "10/6/2024", "October 6, 2024"],
)
def test_another_day_is_told(day: str) -> None:
    assert codes(f"Thank you for the pots of {day}. Nothing was given in return.", POTS) == ["no_day"]


def test_a_letter_that_does_not_name_the_goods_is_told() -> None:
    assert codes("Thank you for your gift of October 6. Nothing was given in return.", POTS) == ["no_description"]


@pytest.mark.parametrize(
    ("other", "text", "is_named"),
    [
        ("Bluebird Bakery", "Bluebird Bakery gave us boxes.", True),
        ("The Bluebird Bakery, LLC", "We thank Bluebird Bakery's staff too.", True),
        ("Café Núñez", "Cafe Nunez sent cake.", True),
        ("Target", "We hit our target of 40.", False),
        ("Target", "So did Target.", True),
        ("Garden Center", "Riverbend Garden Center is a friend.", False),
        ("Art House", "Our art house is full.", False),
        ("Bluebird Bakery", "A bluebird sat there.", False),
        ("Ann", "Ann was there.", False),
    ],
)
def test_another_givers_name_stops_the_letter(other: str, text: str, is_named: bool) -> None:
    assert codes(f"{GOOD} {text}", POTS, other) == (["other_giver"] if is_named else [])


def test_what_the_giver_wants_it_used_for_is_told_where_it_is_missing() -> None:
    facts = replace(POTS, purpose="planters for the porch")
    assert [(one.code, one.stops) for one in check_letter(GOOD, facts)] == [("no_purpose", False)]
    assert check_letter(f"{GOOD} You said what they are for: planters.", facts) == []


def test_last_years_words_are_told_again() -> None:
    last = GOOD.replace("October 6", "October 9")
    assert [(p.code, p.stops) for p in check_letter(GOOD, POTS, last_text=last)] == [("last_words", False)]


def test_another_letter_is_not_last_years() -> None:
    other = "Thank you for the 30 jars of October 9. Nothing was given in return. They hold our glazes now."
    assert not is_same_body(GOOD, other)
    assert not is_same_body(GOOD, "")


def test_what_stops_comes_before_what_is_told() -> None:
    stops = [problem.stops for problem in check_letter("We need more paint.", replace(POTS, for_named_person=True))]
    assert stops == sorted(stops, reverse=True)
    assert {True, False} == set(stops)


def test_the_estimate_of_what_went_back_is_no_value_of_the_goods() -> None:
    facts = replace(POTS, back="two painted bowls", back_estimate_cents=80_00)
    told = "Thank you for the pots of October 6. We gave you two painted bowls, with a fair market value of about $80."
    assert codes(told, facts) == []
    assert codes(told.replace("the pots", "the $80 of pots"), facts) == ["value"]
    assert codes(told.replace("$80", "$90"), facts) == ["value", "value", "no_estimate"]
