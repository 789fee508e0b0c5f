"""Sales tax and who may pay: published values and rules, the source beside each."""

from decimal import Decimal

import pytest

from partners.funding.sales_tax import SalesTaxError, tax_cents
from partners.funding.state_rules import STATES, Answer, base_rate, who_may_pay
from partners.ground.reference import reference

PUBLISHED = [
    # New Jersey Division of Taxation, "Calculating the Tax" (2020): 1.325 is carried up, where half-even says 1.32.
    ([2000], "6.625", False, 133),
    # Streamlined Sales and Use Tax Agreement, section 324: 0.625; as a binary fraction it would come to 0.62.
    ([1000], "6.25", False, 63),
    # The same, section 324(B): the seller chooses; three items of 1.10 at 5 percent.
    ([110, 110, 110], "5", True, 18),
    ([110, 110, 110], "5", False, 17),
    # A published worked example at a combined rate of 10.275 percent (secondary source).
    ([50000], "10.275", False, 5138),
    # 1,000.00 at the rates of Minnesota, Missouri and New Jersey.
    ([100000], "6.875", False, 6875),
    ([100000], "4.225", False, 4225),
    ([100000], "6.625", False, 6625),
]


@pytest.mark.parametrize(("amounts", "rate", "per_item", "tax"), PUBLISHED)
def test_the_tax_is_what_is_published(amounts, rate, per_item, tax):
    assert tax_cents(amounts, Decimal(rate), per_item) == tax


@pytest.mark.parametrize("rate", ["600", "30.0001", "-1", "NaN", "Infinity"])
def test_a_rate_that_cannot_be_is_refused_in_words(rate):
    with pytest.raises(SalesTaxError, match="is no sales tax: a rate lies between 0 and 30%"):
        tax_cents([1000], Decimal(rate))


def test_an_amount_below_zero_and_a_binary_rate_are_refused():
    with pytest.raises(SalesTaxError, match="below zero"):
        tax_cents([1000, -1], Decimal(5), per_item=True)
    with pytest.raises(TypeError):
        tax_cents([1000], 6.25)


RULES = [
    # Minnesota Department of Revenue, Sales Tax Fact Sheet 111: paid by the school; repaying a teacher is not that.
    ({"state": "MN", "payer": "own", "school_state": "MN"}, Answer.TAXED),
    ({"state": "MN", "payer": "order", "school_state": "MN"}, Answer.EXEMPT),
    # Texas Rule 3.322(g)(4): an authorised agent may pay personally, with the certificate.
    ({"state": "TX", "payer": "own", "school_state": "TX", "authorised_agent": True}, Answer.EXEMPT),
    ({"state": "TX", "payer": "own", "school_state": "TX"}, Answer.TAXED),
    # New York Tax Bulletin ST-700: a school of another state pays the tax.
    ({"state": "NY", "payer": "order", "school_state": "NJ"}, Answer.TAXED),
    # Kansas Publication KS-1560 and Florida Administrative Code 12A-1.038: bought and paid by the school.
    ({"state": "KS", "payer": "school_card", "school_state": "KS"}, Answer.EXEMPT),
    ({"state": "FL", "payer": "order", "school_state": "FL"}, Answer.EXEMPT),
    ({"state": "FL", "payer": "own", "school_state": "FL"}, Answer.TAXED),
]


@pytest.mark.parametrize(("asked", "answer"), RULES)
def test_who_may_pay_is_as_the_state_says_and_names_its_source(asked, answer):
    verdict = who_may_pay(**asked)
    assert verdict.answer == answer
    assert verdict.source
    assert verdict.evidence in ("read", "partly", "secondary", "unnoted")


def test_without_a_certificate_nothing_is_exempt():
    assert who_may_pay(state="MN", payer="order", school_state="MN", certificate=False).answer == Answer.TAXED


@pytest.mark.parametrize("state", [*sorted(set(STATES) - {"MN", "KS", "FL", "TX"}), "", "ZZ"])
def test_where_no_rule_was_read_the_business_office_is_asked(state):
    verdict = who_may_pay(state=state, payer="order", school_state=state)
    assert (verdict.answer, verdict.source) == (Answer.ASK, "")


def test_only_states_that_were_read_stand_in_the_table_each_with_its_evidence():
    rates = {"MN": 68750, "NJ": 66250, "TX": 62500, "WI": 50000, "CA": 72500, "CO": 29000, "FL": 60000, "IN": 70000,
             "KS": 65000, "MA": 62500, "MO": 42250, "NY": 40000}  # fmt: skip
    found = {state: base_rate(state) for state in reference("sales_tax")["states"]}
    assert {state: rate.parts for state, rate in found.items()} == rates
    assert {state for state, rate in found.items() if rate.evidence == "read"} == {"MN", "NJ", "TX", "WI"}
    assert base_rate("OR") is None
