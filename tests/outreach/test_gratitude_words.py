"""The words of thanks for each form of gift, at the promise and at the delivery, in both languages."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from itertools import product

import pytest

from outreach.wording import gratitude
from outreach.wording.counts import Item
from outreach.wording.gratitude import listed, paragraphs, records, salutation
from partners.gifts.letter_check import check_letter
from partners.gifts.letter_phrases import asks_inside, calls_deductible, nothing_in_return, value_in_text
from tests.outreach.sheets import FORMS, THANKS

MINE = {"en": r"\b(?:we|us|our|ours|i|me|my)\b", "es": r"\b(?:nosotros|nuestr[oa]s?|nos|mi|mis|pasaremos|mostraré)\b"}
YOURS = {
    "en": r"\b(?:you|your|yours)\b",
    "es": r"\b(?:usted|ustedes|su|sus|se|\w+(?:aron|ieron)|desean|llámenme)\b",
}


def thanks(form, **changes):
    return replace(THANKS, form=form, **(FORMS[form] | changes))


def words(facts):
    return " ".join((*paragraphs(facts), *listed(facts), *records(facts)))


EVERY = [*product(FORMS, ("promise", "delivery"), ("en", "es"))]
every = pytest.mark.parametrize(("form", "moment", "language"), EVERY)


@every
def test_no_letter_breaks_a_rule_of_gifts(form, moment, language):
    facts = thanks(form, moment=moment, language=language, becomes="")
    problems = check_letter("\n\n".join((*paragraphs(facts), *records(facts))), gratitude.gift_facts(facts))
    allowed = {"no_statement"} if moment == "promise" else set()
    assert {problem.code for problem in problems} <= allowed


@every
def test_no_letter_asks_for_more_or_names_a_value(form, moment, language):
    text = words(thanks(form, moment=moment, language=language, becomes=""))
    assert asks_inside(text) == []
    assert value_in_text(text) == ([] if form != "money" else value_in_text(text))
    assert form == "money" or "$" not in text


@every
def test_every_letter_says_what_and_when(form, moment, language):
    text = " ".join(paragraphs(thanks(form, moment=moment, language=language)))
    assert ("March 4, 2027" if language == "en" else "4 de marzo de 2027") in text
    assert ("$300.00" if form == "money" else thanks(form).items[0].what) in text


@every
def test_there_is_more_you_than_we(form, moment, language):
    text = " ".join(paragraphs(thanks(form, moment=moment, language=language, becomes=""))).lower()
    assert len(re.findall(YOURS[language], text)) > len(re.findall(MINE[language], text))


@every
def test_a_blank_is_never_left_over(form, moment, language):
    for facts in (thanks(form, moment=moment, language=language), thanks(form, language=language, items=(), back="")):
        text = words(facts)
        assert not re.search(r"[{}]|None|  |\.\.|: \.| ,|\b1 students|\b1 estudiantes", text)


def test_a_promise_of_money_without_an_amount_still_thanks():
    facts = thanks("money", amount_cents=None)
    assert paragraphs(facts)[0].startswith("Thank you for the gift you made")
    assert records(facts) == ()


def test_money_from_250_says_that_nothing_was_given_in_return():
    """26 USC 170(f)(8)(A) and (B): 250.00 needs the statement, 249.99 does not."""
    assert nothing_in_return(words(thanks("money", amount_cents=250_00)))
    assert not nothing_in_return(words(thanks("money", amount_cents=249_99)))


def test_goods_are_described_with_the_statement_and_without_value():
    """26 USC 170(f)(8)(B)(i) and (ii)."""
    text = " ".join(records(thanks("goods")))
    assert "120 terracotta pots (4 inch) and 6 bags of potting soil" in text
    assert nothing_in_return(text)
    assert value_in_text(text) == []


def test_a_ticket_given_back_leaves_sixty_of_a_hundred_as_the_gift():
    """IRS "Quid pro quo contributions": pays 100, ticket worth 40, 60 may be deducted."""
    text = " ".join(records(thanks("money", amount_cents=100_00, back="a ticket", back_estimate_cents=40_00)))
    assert "In return: a ticket." in text
    assert "$40.00" in text
    assert "$60.00" in text
    assert not nothing_in_return(text)


def test_bought_at_its_price_no_part_is_a_gift():
    """IRS "Quid pro quo contributions": pays 20 for a print priced 20."""
    text = " ".join(records(thanks("money", amount_cents=20_00, back="a print", back_estimate_cents=20_00)))
    assert "no part of it is a gift" in text


def test_a_token_is_told_without_taking_anything_off():
    """Rev. Proc. 2024-40: 2025, pays 68.00, a mug with the school's name that cost 13.60."""
    facts = thanks("money", amount_cents=68_00, day=date(2025, 5, 1), back="a mug with our name", back_cost_cents=13_60)
    text = " ".join(records(replace(facts, back_bears_name=True)))
    assert "a token of insubstantial value" in text
    assert "limited" not in text


def test_goods_with_a_stool_given_back_describe_both_and_value_only_the_stool():
    """26 USC 170(f)(8)(B): paint given; a decorated stool, estimate 80, given back."""
    facts = thanks("goods", items=(Item("paint", 4, "gallons"),), back="a decorated stool", back_estimate_cents=80_00)
    text = " ".join(records(facts))
    assert "4 gallons of paint" in text
    assert "a decorated stool" in text
    assert re.findall(r"\$[\d.]+\d", text) == ["$80.00"]
    assert not nothing_in_return(text)


@pytest.mark.parametrize("form", ["service", "space", "discount"])
def test_help_is_thanked_for_and_never_recorded_as_a_gift(form):
    """IRS Publication 526: time, services and the use of property are not deductible."""
    assert records(thanks(form)) == ()


@pytest.mark.parametrize("form", ["exchange", "goods", "money"])
def test_a_trade_never_says_nothing_in_return_and_sends_to_an_adviser(form):
    text = words(thanks(form, part_of_trade=True, back="300 decorated seed packets"))
    assert not nothing_in_return(text)
    assert not calls_deductible(text) or form == "money"
    assert "300 decorated seed packets" in text
    assert "ask your adviser" in text


@pytest.mark.parametrize("language", ["en", "es"])
def test_what_the_giver_said_it_is_for_stands_behind_the_thanks_and_moves_nothing_else(language):
    plain = thanks("money", language=language)
    facts = replace(plain, purpose="glazes for the fifth grade")
    said = {"en": "You said what it is for", "es": "Nos dijeron para qué es"}[language]
    first, *others = paragraphs(facts)
    assert first == f"{paragraphs(plain)[0]} {said}: glazes for the fifth grade."
    assert (others, records(facts)) == (list(paragraphs(plain)[1:]), records(plain))
    assert check_letter(words(facts), gratitude.gift_facts(facts)) == []


def test_a_loan_names_its_day_of_return():
    assert "May 28, 2027" in words(thanks("loan"))


def test_a_promise_names_the_day_it_is_collected():
    facts = thanks("goods", moment="promise", expected_on=date(2027, 3, 12), we_collect=True)
    assert "You can expect us to collect it on Friday, March 12, 2027." in paragraphs(facts)[0]
    assert records(facts) == ()


@pytest.mark.parametrize(
    ("partner", "contact", "english", "spanish"),
    [
        (
            "Bluebird Bakery",
            "Ana Ruiz",
            "Dear Ana Ruiz and everyone at Bluebird Bakery,",
            "Apreciable Ana Ruiz y el",
        ),
        ("Bluebird Bakery", "", "Dear friends at Bluebird Bakery,", "Al equipo de Bluebird Bakery:"),
        ("", "Ana Ruiz", "Dear Ana Ruiz,", "Apreciable Ana Ruiz:"),
        ("Ana Ruiz", "Ana Ruiz", "Dear Ana Ruiz,", "Apreciable Ana Ruiz:"),
        ("", "", "Dear friends of our art room,", "A quienes apoyan nuestra clase de arte:"),
    ],
)
def test_the_greeting_writes_names_as_they_do(partner, contact, english, spanish):
    facts = replace(THANKS, partner=partner, contact=contact)
    assert salutation(facts) == english
    assert salutation(replace(facts, language="es")).startswith(spanish)


def test_spanish_speaks_to_a_person_alone_in_the_singular():
    alone = paragraphs(thanks("goods", language="es", partner=""))
    shop = paragraphs(thanks("goods", language="es"))
    assert "que dio a nuestros estudiantes" in alone[0]
    assert "llámeme" in alone[-1]
    assert "que dieron a nuestros estudiantes" in shop[0]


def test_up_to_three_things_stand_in_the_sentence_and_more_in_a_list():
    three = thanks("goods", items=tuple(Item(name) for name in ("ribbon", "wire", "felt")))
    four = replace(three, items=(*three.items, Item("yarn")))
    assert "ribbon, wire and felt." in paragraphs(three)[0]
    assert listed(three) == ()
    assert paragraphs(four)[0].endswith("March 4, 2027:")
    assert listed(four) == ("ribbon", "wire", "felt", "yarn")
    assert "as listed above" in words(four)
