"""Every choice that a letter for a gift is made by, in words, for the gift's page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_rules import Choice, Decision, decide
from partners.gifts.models import Form, Gift
from partners.gifts.reasons import REASONS, SENTENCES, SOURCES, VERDICTS, fillings
from partners.program.desk import Desk
from partners.school.models import School

THE_GIVER_SAYS = 250_00


@dataclass(frozen=True)
class Explained:
    """One sentence of the letter: what becomes of it, why, and which rule says so."""

    sentence: str
    verdict: str
    becomes: str
    why: str
    source: str


def facts_of(desk: Desk, gift: Gift) -> GiftFacts:
    """The gift as the rules see it. Without a school of its own it is the only one there is, else a public school."""
    school: School | None = gift.school
    if school is None:
        schools = list(desk.schools[:2])
        school = schools[0] if len(schools) == 1 else None
    own: Any = "exchange" if gift.trade and gift.form == Form.GOODS else gift.form
    figure = gift.given_value_cents
    return GiftFacts(
        form=own,
        day=gift.day,
        governmental=school.governmental if school else True,
        amount_cents=gift.amount_cents,
        description=gift.what,
        giver=gift.giver,
        back=gift.gave_back,
        back_estimate_cents=gift.gave_back_cents,
        part_of_trade=gift.trade,
        giver_says_250=None if figure is None else figure >= THE_GIVER_SAYS,
        purpose=gift.purpose,
    )


def explained(desk: Desk, gift: Gift, language: str) -> list[Explained]:
    """In the order of the letter."""
    facts = facts_of(desk, gift)
    decision = decide(facts)
    return [_words(choice, facts, decision, language) for choice in decision.choices]


def _words(choice: Choice, facts: GiftFacts, decision: Decision, language: str) -> Explained:
    filled = fillings(facts, decision, language)
    return Explained(
        sentence=str(SENTENCES[choice.code]) % filled,
        verdict=choice.verdict,
        becomes=str(VERDICTS[choice.verdict]),
        why=str(REASONS[choice.reason]) % filled,
        source=str(SOURCES[choice.source]),
    )
