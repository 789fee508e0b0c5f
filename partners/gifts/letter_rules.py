"""What a letter for a gift must and must not say, each choice with its rule. Pure; the words are in `reasons`.

Source ids are those of the published rules: A1-A6 acknowledgment (26 USC 170(f)(8), IRS Publication 1771), Q1-Q5
something given back (26 USC 6115), T1-T3 tokens (Rev. Proc. 90-12), B1-B2 what can be deducted (26 USC 170(c)(1), IRS
Publication 526); P is common practice of school art programs. The giver's own figure is no part of the facts: a letter
cannot print it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from partners.gifts.acknowledgment import (
    Token,
    disclosure_required,
    gift_part_cents,
    is_above_75,
    token_harbour,
)
from partners.gifts.gift_facts import GiftFacts

Verdict = Literal["must", "must_not", "may", "stop"]
Source = Literal["A1", "A2", "A5", "A6", "B1", "B2", "P", "Q1", "Q2", "Q3", "Q5", "T1", "T2", "T3"]
Code = Literal[
    "thanks",
    "giver_and_day",
    "receiver",
    "receiver_number",
    "amount",
    "description",
    "purpose",
    "value",
    "nothing_in_return",
    "back_described",
    "back_estimate",
    "token_only",
    "deduction_limited",
    "deductible_gift",
    "ask_adviser",
    "another_ask",
    "other_givers",
    "named_person",
]
Reason = Literal[
    "thanks_always",
    "record_of_giver_and_day",
    "record_of_receiver",
    "district_number",
    "own_number",
    "amount_of_money",
    "describe_goods",
    "say_what_was_done",
    "givers_words",
    "giver_values_goods",
    "no_value_of_help",
    "statement_from_250",
    "may_reach_250",
    "below_250",
    "something_was_given",
    "trade_returns",
    "told_by_law",
    "told_from_250",
    "good_practice",
    "schools_not_bound",
    "not_above_75",
    "within_two_percent",
    "low_cost_with_name",
    "no_token",
    "token_year_missing",
    "no_gift_part",
    "help_not_deductible",
    "trade_not_pure_gift",
    "public_purpose",
    "thanks_stand_alone",
    "givers_private",
    "to_a_person",
]


@dataclass(frozen=True, slots=True)
class Choice:
    """One sentence and what becomes of it: `may` is shown as good practice. `source` and `reason` say why."""

    code: Code
    verdict: Verdict
    source: Source
    reason: Reason


@dataclass(frozen=True)
class Decision:
    """Every choice for one gift. `gift_part_cents` is None where only the giver can tell: goods, or no estimate yet."""

    choices: tuple[Choice, ...]
    gift_part_cents: int | None
    harbour: Token | None
    disclosed_by_law: bool

    @cached_property
    def _by_code(self) -> dict[Code, Choice]:
        return {choice.code: choice for choice in self.choices}

    def verdict(self, code: Code) -> Verdict | None:
        """What becomes of that sentence; None where it has no place in such a letter."""
        choice = self._by_code.get(code)
        return choice.verdict if choice else None

    def choice(self, code: Code) -> Choice | None:
        return self._by_code.get(code)

    def codes(self, verdict: Verdict) -> frozenset[Code]:
        return frozenset(choice.code for choice in self.choices if choice.verdict == verdict)


def decide(facts: GiftFacts) -> Decision:
    """What the letter for this gift must say, must not say, and says as good practice."""
    harbour = _harbour(facts)
    is_token = harbour in ("share", "item")
    counted = 0 if not facts.back or is_token else facts.back_estimate_cents
    choices = (
        *_of_every_letter(facts),
        *_of_the_gift(facts),
        *_of_what_went_back(facts, harbour),
        *_of_tax(facts, counted),
    )
    return Decision(choices, _gift_part(facts, counted), harbour, _disclosed_by_law(facts, counted))


def _harbour(facts: GiftFacts) -> Token | None:
    if facts.amount_cents is None or not facts.back:
        return None
    return token_harbour(
        facts.day.year, facts.amount_cents, facts.back_estimate_cents, facts.back_cost_cents, facts.back_bears_name
    )


def _gift_part(facts: GiftFacts, counted: int | None) -> int | None:
    if facts.is_help or facts.form == "exchange":
        return 0
    if facts.amount_cents is None or counted is None:
        return None
    return gift_part_cents(facts.amount_cents, counted)


def _disclosed_by_law(facts: GiftFacts, counted: int | None) -> bool:
    if facts.amount_cents is None:
        return False
    if counted is None:
        # Without an estimate nobody can say that there is no gift part: the careful answer.
        return is_above_75(facts.amount_cents) and not facts.governmental
    return disclosure_required(facts.amount_cents, counted, facts.governmental)


def _of_every_letter(facts: GiftFacts) -> Iterator[Choice]:
    if facts.for_named_person:
        yield Choice("named_person", "stop", "B1", "to_a_person")
    yield Choice("thanks", "must", "P", "thanks_always")
    yield Choice("giver_and_day", "must", "A5" if facts.form == "money" else "A6", "record_of_giver_and_day")
    yield Choice("receiver", "must", "A6", "record_of_receiver")
    yield Choice("receiver_number", "may", "B1", "district_number" if facts.governmental else "own_number")
    yield Choice("another_ask", "must_not", "P", "thanks_stand_alone")
    yield Choice("other_givers", "must_not", "P", "givers_private")


def _of_the_gift(facts: GiftFacts) -> Iterator[Choice]:
    if facts.form == "money":
        yield Choice("amount", "must", "A2", "amount_of_money")
    elif facts.is_help:
        yield Choice("description", "must", "P", "say_what_was_done")
        yield Choice("value", "must_not", "B2", "no_value_of_help")
    else:
        yield Choice("description", "must", "A2", "describe_goods")
        yield Choice("value", "must_not", "A2", "giver_values_goods")
    if facts.purpose:
        yield Choice("purpose", "must", "P", "givers_words")


def _of_what_went_back(facts: GiftFacts, harbour: Token | None) -> Iterator[Choice]:
    if facts.is_trade:
        yield Choice("nothing_in_return", "must_not", "P", "trade_returns")
    elif facts.back:
        yield Choice("nothing_in_return", "must_not", "A2", "something_was_given")
    elif not facts.is_help:
        yield _statement("nothing_in_return", facts)
    if not facts.back:
        return
    if harbour in ("share", "item"):
        yield _statement("back_described", facts)
        if harbour == "share":
            yield Choice("token_only", "may", "T1", "within_two_percent")
        else:
            yield Choice("token_only", "may", "T2", "low_cost_with_name")
    elif facts.is_help or (facts.is_trade and facts.amount_cents is None):
        yield Choice("back_described", "may", "P", "good_practice")
    else:
        yield _told(facts, "back_described")
        yield _told(facts, "back_estimate")
        if harbour == "none":
            yield Choice("token_only", "must_not", "T3", "no_token")
        elif harbour == "not_available":
            yield Choice("token_only", "must_not", "T1", "token_year_missing")


def _statement(code: Code, facts: GiftFacts) -> Choice:
    """Whether something was given in return: needed from 250, and where only the giver knows that it is."""
    if facts.reaches_250:
        return Choice(code, "must", "A2", "statement_from_250")
    if facts.reaches_250 is None:
        return Choice(code, "must", "A2", "may_reach_250")
    return Choice(code, "may", "A1", "below_250")


def _told(facts: GiftFacts, code: Code) -> Choice:
    if _disclosed_by_law(facts, facts.back_estimate_cents):
        return Choice(code, "must", "Q1", "told_by_law")
    if facts.reaches_250 is None:
        return Choice(code, "must", "A2", "may_reach_250")
    if facts.reaches_250:
        return Choice(code, "must", "A2", "told_from_250")
    return Choice(code, "may", "Q2" if facts.governmental else "P", "good_practice")


def _of_tax(facts: GiftFacts, counted: int | None) -> Iterator[Choice]:
    if facts.is_help:
        yield Choice("deductible_gift", "must_not", "B2", "help_not_deductible")
        return
    if facts.is_trade:
        yield Choice("deductible_gift", "must_not", "P", "trade_not_pure_gift")
        yield Choice("ask_adviser", "may", "P", "trade_not_pure_gift")
    if facts.amount_cents is not None and counted != 0:
        if counted is not None and counted >= facts.amount_cents:
            yield Choice("deduction_limited", "must_not", "Q5", "no_gift_part")
            if not facts.is_trade:
                yield Choice("deductible_gift", "must_not", "Q5", "no_gift_part")
            return
        yield _limited(facts, counted)
    if not facts.is_trade:
        yield Choice("deductible_gift", "may", "B1", "public_purpose")


def _limited(facts: GiftFacts, counted: int | None) -> Choice:
    if _disclosed_by_law(facts, counted):
        return Choice("deduction_limited", "must", "Q1", "told_by_law")
    if facts.governmental:
        return Choice("deduction_limited", "may", "Q2", "schools_not_bound")
    return Choice("deduction_limited", "may", "Q3", "not_above_75")
