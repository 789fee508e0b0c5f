"""The words of a gratitude letter: thanks for exactly what was given and when, what it becomes, and never another ask.

At the promise and at the delivery, in English and Spanish. The rules are decided in `partners.gifts.letter_rules`.
"""

from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache
from typing import Literal

from outreach.wording.counts import Item, dollars, joined, reached, sentence, with_kind
from outreach.wording.dates import spelled, with_weekday
from outreach.wording.gratitude_words import DELIVERY, LETTER, PROMISE, SPOKEN_TO
from outreach.wording.own_words import HOUSE, OwnWords, Voice, house_words
from outreach.wording.records import RECORDS
from partners.gifts.gift_facts import Form, GiftFacts
from partners.gifts.letter_rules import Decision, decide

LONGEST_IN_LINE = 3
"""So many things are told in the sentence; more become a list."""

_TO = {plural: {pair[0]: pair[plural] for pair in SPOKEN_TO} for plural in (False, True)}
_THESE = {"en": "the things listed below", "es": "las cosas de la lista de abajo"}

Moment = Literal["promise", "delivery"]


@dataclass(frozen=True)
class Thanks:
    """What is thanked for. Money in whole US cents, and only for money; goods are described and never valued.

    `day` is the day of the promise or of the delivery. `becomes` is the teacher's own sentence about what the gift
    becomes or became. `back` is what was given in return, or our side of a trade, with the fields that decide what must
    be said about it (see `partners.gifts.gift_facts.GiftFacts`). `purpose` is what the giver said it is for, else
    `meant_for` what money was asked for. `receiver` is the legal name that receives the gift, `school` the name that
    everybody uses.
    """

    language: str
    moment: Moment
    form: Form
    day: date
    partner: str = ""
    contact: str = ""
    items: tuple[Item, ...] = ()
    amount_cents: int | None = None
    part_of_trade: bool = False
    back: str = ""
    back_estimate_cents: int | None = None
    back_cost_cents: int | None = None
    back_bears_name: bool = False
    becomes: str = ""
    students: int | None = None
    expected_on: date | None = None
    we_collect: bool = False
    return_on: date | None = None
    receiver: str = ""
    governmental: bool = True
    for_named_person: bool = False
    giver_says_250: bool | None = None
    purpose: str = ""
    meant_for: str = ""
    own_words: str = ""
    teacher: str = ""
    school: str = ""
    wording: OwnWords = HOUSE

    @cached_property
    def say(self) -> Voice:
        """The words of the letter, with what fills their blanks; Spanish verbs follow whom the letter speaks to."""
        language = self.language
        spoken = _TO[bool(self.partner and self.partner != self.contact)] if language == "es" else {}
        came = _THESE[language] if listed(self) else described(self)
        values = {
            **spoken,
            "giver": self.partner or self.contact,
            "person": self.contact,
            "teacher": self.teacher,
            "school": self.school or self.receiver,
            "day": spelled(self.day, language),
            "amount": dollars(self.amount_cents) if self.amount_cents is not None else "",
            "what came": came,
            "their promise": came,
            "our side": self.back,
            "purpose": self.purpose,
            "asked for": self.meant_for,
            "children": reached(self.students, language, self.becomes),
            "what it became": sentence(self.becomes),
            "day named": with_weekday(self.expected_on, language) if self.expected_on else "",
            "return day": spelled(self.return_on, language) if self.return_on else "",
        }
        return Voice(
            PROMISE if self.moment == "promise" else DELIVERY, language, LETTER[language], self.wording, values
        )

    @property
    def is_trade(self) -> bool:
        return self.form == "exchange" or self.part_of_trade


def gift_facts(facts: Thanks) -> GiftFacts:
    """The same gift as the rules look at it; ValueError when money has no amount or something else has one."""
    return GiftFacts(
        form=facts.form,
        day=facts.day,
        governmental=facts.governmental,
        amount_cents=facts.amount_cents,
        description=described(facts),
        giver=facts.partner or facts.contact,
        back=facts.back,
        back_estimate_cents=facts.back_estimate_cents,
        back_cost_cents=facts.back_cost_cents,
        back_bears_name=facts.back_bears_name,
        part_of_trade=facts.part_of_trade,
        for_named_person=facts.for_named_person,
        giver_says_250=facts.giver_says_250,
        purpose=facts.purpose,
    )


def salutation(facts: Thanks) -> str:
    """The greeting, with the names as their bearers write them."""
    path = "to_nobody"
    if facts.contact and facts.partner and facts.contact != facts.partner:
        path = "to_both"
    elif facts.contact:
        path = "to_person"
    elif facts.partner:
        path = "to_business"
    return facts.say(path)


@lru_cache(maxsize=64)
def things(facts: Thanks) -> tuple[str, ...]:
    """Everything given, each with its number, unit and kind."""
    return tuple(text for text in (with_kind(item, facts.language) for item in facts.items) if text)


def listed(facts: Thanks) -> tuple[str, ...]:
    """What stands as a list under the first paragraph; empty when it stands in the sentence."""
    all_things = things(facts)
    return all_things if len(all_things) > LONGEST_IN_LINE else ()


@lru_cache(maxsize=64)
def described(facts: Thanks) -> str:
    """Everything given in one line."""
    return joined(things(facts), facts.language)


def paragraphs(facts: Thanks) -> tuple[str, ...]:
    """The body of the letter, paragraph by paragraph; `listed` stands after the first."""
    parts = (_opening(facts), _becoming(facts), sentence(facts.own_words), _closing(facts))
    return tuple(part for part in parts if part)


def _opening(facts: Thanks) -> str:
    """What was given and when; a long list stands behind it, and the house leads up to it by a colon."""
    path = f"promised.{facts.form}" if facts.moment == "promise" else f"given.{facts.form}"
    if facts.form == "money" and facts.amount_cents is None:
        path = "given_money_unknown"
    stem = house_words(facts.say.table, path).removesuffix(".").rpartition(": [")
    before = stem[0] or stem[2]
    if listed(facts):
        return facts.say(path, instead=f"{before}:")
    things = "their promise" if facts.moment == "promise" else "what came"
    told = facts.say(path, instead=f"{before}: [{things}]." if described(facts) else f"{before}.")
    return " ".join(part for part in (told, *_what_is_next(facts)) if part)


def _what_is_next(facts: Thanks) -> tuple[str, ...]:
    """What it is for, our side of a trade, and the day that was named."""
    purpose = facts.say("what_for") if facts.purpose else facts.say("meant_for") if facts.meant_for else ""
    ours = facts.say("our_side") if facts.is_trade and facts.back else ""
    day = ""
    if facts.moment == "promise" and facts.expected_on:
        day = facts.say("expect_us" if facts.we_collect and facts.form != "money" else "day_named")
    back_by = facts.say("back_by") if facts.form == "loan" and facts.return_on else ""
    return purpose, ours, day, back_by


def _becoming(facts: Thanks) -> str:
    """The list's own next steps, then what the gift becomes and for how many children."""
    what = "part" if facts.is_trade else "gift" if facts.form in ("money", "goods") else "help"
    reached = facts.say(f"{what}_will_reach" if facts.moment == "promise" else f"{what}_reaches")
    after_list = _what_is_next(facts) if listed(facts) else ()
    return " ".join(part for part in (*after_list, reached) if part)


def _closing(facts: Thanks) -> str:
    if facts.moment == "promise":
        return facts.say("said_yes")
    is_gift = facts.form in ("money", "goods") and not facts.is_trade
    form: Form = "exchange" if facts.is_trade else facts.form
    parts = (facts.say(f"closing.{form}"), facts.say("see_gift" if is_gift else "see_help"))
    return " ".join(part for part in parts if part)


def records(facts: Thanks) -> tuple[str, ...]:
    """What the giver keeps: only at the delivery, and only what the rules want said about this gift.

    Time, skill, space and discounts have no such lines. Never a value of goods; for a trade never "nothing in return".
    """
    if facts.moment == "promise" or (facts.form == "money" and facts.amount_cents is None):
        return ()
    words, decision = RECORDS[facts.language], decide(gift_facts(facts))
    if facts.form == "loan":
        until = words.loan_until.format(day=spelled(facts.return_on, facts.language)) if facts.return_on else ""
        return tuple(line for line in (_given(facts, words.loan), until) if line)
    if facts.form not in ("money", "goods", "exchange"):
        return ()
    lines = [_given(facts, _record_pattern(facts))]
    if not facts.back and decision.verdict("nothing_in_return") == "must":
        lines.append(words.nothing_back)
    lines.extend(_about_back(facts, decision))
    if facts.form == "goods":
        lines.append(words.giver_values)
    lines.append(words.trade_adviser if facts.is_trade else words.adviser)
    return tuple(line for line in lines if line)


def _record_pattern(facts: Thanks) -> str:
    words = RECORDS[facts.language]
    if facts.form == "money":
        return words.payment if facts.back else words.money
    return words.trade if facts.is_trade else words.goods


def _given(facts: Thanks, pattern: str) -> str:
    """What was given, when and to whom; nothing when a list of things would be empty."""
    words = RECORDS[facts.language]
    if facts.form != "money" and not facts.items:
        return ""
    return pattern.format(
        amount=dollars(facts.amount_cents or 0),
        day=spelled(facts.day, facts.language),
        receiver=words.to_receiver.format(receiver=facts.receiver) if facts.receiver else "",
        items=words.as_listed if listed(facts) else described(facts),
    )


def _about_back(facts: Thanks, decision: Decision) -> tuple[str, ...]:
    """What was given in return, our estimate of it, and what is left as a gift."""
    words = RECORDS[facts.language]
    if not facts.back:
        return ()
    if decision.verdict("token_only") == "may":
        return (words.trifle.format(back=facts.back),)
    said = words.back.format(back=facts.back)
    if facts.back_estimate_cents is None or decision.verdict("back_estimate") not in ("must", "may"):
        return (said,)
    estimate = words.estimate.format(estimate=dollars(facts.back_estimate_cents))
    limited = decision.verdict("deduction_limited")
    if limited == "must_not":
        return said, estimate, words.no_gift_part
    if limited and decision.gift_part_cents is not None:
        return said, estimate, words.limited.format(part=dollars(decision.gift_part_cents))
    return said, estimate
