"""What a letter for a gift is decided from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from partners.gifts.acknowledgment import needs_acknowledgment

Form = Literal["money", "goods", "service", "space", "discount", "loan", "exchange"]

# Time, skill, use of a room or a thing, a lower price: thanked for, never a deductible gift.
HELP: frozenset[Form] = frozenset({"service", "space", "discount", "loan"})


@dataclass(frozen=True, slots=True)
class GiftFacts:
    """What a letter is decided from. Money in whole US cents, only for `money`; raises ValueError otherwise.

    `back` describes what we gave back, `back_estimate_cents` our honest estimate of its fair value, `back_cost_cents`
    what it cost us, `back_bears_name` whether it bears the school's name or logo. `giver_says_250` is whether the giver
    says the goods are worth 250 or more, None where they did not say; the figure itself stays with the giver.
    `purpose` is what the giver said it is for, in their words.
    `governmental` is True for a public school, False for a parent or booster group with its own tax status.
    """

    form: Form
    day: date
    governmental: bool
    amount_cents: int | None = None
    description: str = ""
    giver: str = ""
    back: str = ""
    back_estimate_cents: int | None = None
    back_cost_cents: int | None = None
    back_bears_name: bool = False
    part_of_trade: bool = False
    for_named_person: bool = False
    giver_says_250: bool | None = None
    purpose: str = ""

    def __post_init__(self) -> None:
        if (self.form == "money") != (self.amount_cents is not None):
            raise ValueError("money needs its amount, and nothing else has one")
        amounts = (self.amount_cents, self.back_estimate_cents, self.back_cost_cents)
        if any(cents is not None and cents < 0 for cents in amounts):
            raise ValueError("amounts cannot be negative")

    @property
    def is_trade(self) -> bool:
        return self.form == "exchange" or self.part_of_trade

    @property
    def is_help(self) -> bool:
        return self.form in HELP

    @property
    def reaches_250(self) -> bool | None:
        """None where only the giver could tell."""
        if self.amount_cents is not None:
            return needs_acknowledgment(self.amount_cents)
        return self.giver_says_250 if self.form == "goods" else False
