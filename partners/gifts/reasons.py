"""The words that explain a letter on the screen: what each sentence is, what becomes of it, and why."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_check import ProblemCode
from partners.gifts.letter_rules import Code, Decision, Reason, Source, Verdict
from partners.ground.money import format_cents

Words = str | Promise

CAUTION = _("Not tax advice. The district's rules and the giver's own adviser decide.")
OFFICE = _(
    "A public school is part of government: the tax number is the district's, and the business office may be the one "
    "that issues receipts. Ask before you promise one."
)
NOTE_8283 = _(
    "The giver may have to file Form 8283 when all goods they gave in a year are more than $500, and need an appraisal "
    "above $5,000. That is for them and their adviser; nothing is added to the letter."
)

VERDICTS: Mapping[Verdict, Words] = {
    "must": _("must be in the letter"),
    "must_not": _("must not be in the letter"),
    "may": _("good to say"),
    "stop": _("stops the letter"),
}

SENTENCES: Mapping[Code, Words] = {
    "thanks": _("the thanks"),
    "giver_and_day": _("the giver's name and the day of the gift"),
    "receiver": _("the school's name and address"),
    "receiver_number": _("whose tax number it is"),
    "amount": _("the amount, %(amount)s"),
    "description": _("what was given, in words"),
    "purpose": _("what the giver wants it used for: %(purpose)s"),
    "value": _("what it is worth"),
    "nothing_in_return": _("that nothing was given in return"),
    "back_described": _("what we gave back: %(back)s"),
    "back_estimate": _("our honest estimate of what we gave back, %(back_estimate)s"),
    "token_only": _("that what we gave back was only a token"),
    "deduction_limited": _("that only the part above the estimate can be deducted, here %(gift_part)s"),
    "deductible_gift": _("that the gift can be deducted"),
    "ask_adviser": _("that the giver asks their own adviser about the trade"),
    "another_ask": _("a new ask, or our needs"),
    "other_givers": _("the name of another giver"),
    "named_person": _("a gift meant for one person"),
}

REASONS: Mapping[Reason, Words] = {
    "thanks_always": _("Every letter says thank you first."),
    "record_of_giver_and_day": _("The giver keeps the letter as the record of the gift: name and day belong on it."),
    "record_of_receiver": _("The giver's record names who received the gift, and where."),
    "district_number": _(
        "A public school is part of government; the tax number is the district's, not the school's own."
    ),
    "own_number": _("The group has its own tax number and may not borrow the district's."),
    "amount_of_money": _("For money the letter states the amount."),
    "describe_goods": _("For goods the letter describes what came, in enough detail to know it again."),
    "say_what_was_done": _("Say what was done or lent, and when."),
    "givers_words": _("Say it as the giver said it, and promise no more than that."),
    "giver_values_goods": _("The giver puts a value on goods, never the school."),
    "no_value_of_help": _("Time, skill, a lower price, and what is lent are thanked for without a value."),
    "statement_from_250": _("From $250 the giver needs the letter to say whether anything was given in return."),
    "may_reach_250": _(
        "Only the giver knows what the goods are worth. If it is $250 or more, they need the letter to say whether "
        "anything was given in return, so it does."
    ),
    "below_250": _("Below $250 this is not required; saying it is still kind."),
    "something_was_given": _("Something was given in return, so the letter cannot say that nothing was."),
    "trade_returns": _("In a trade both sides give. A letter never says that nothing was given in return."),
    "told_by_law": _("The payment is above $75 and something was given back: the law asks this of your group."),
    "told_from_250": _("From $250 the letter describes what was given back and estimates its value."),
    "good_practice": _("Not required here; it keeps the giver's record honest."),
    "schools_not_bound": _("The law does not bind a public school here; it is shown as good practice."),
    "not_above_75": _("The law asks for it only above $75; it is shown as good practice."),
    "within_two_percent": _("What we gave back is worth no more than two percent of the payment, and within the cap."),
    "low_cost_with_name": _("What we gave back bears the school's name, cost little, and the payment is large enough."),
    "no_token": _("What we gave back is more than a token: its whole value counts, not only what is above the limit."),
    "token_year_missing": _("The limits for tokens in %(year)s are not available, so it is not called a token."),
    "no_gift_part": _("What was given back is worth the whole payment: there is no gift part."),
    "help_not_deductible": _(
        "Time, service, a lower price and the use of a room or a thing cannot be deducted as a gift."
    ),
    "trade_not_pure_gift": _("A trade is not a pure gift, and a business has its own tax duties when it barters."),
    "public_purpose": _(
        "A gift to a public school for public purposes can be deducted. Use the district's own sentence, if it has one."
    ),
    "thanks_stand_alone": _("Thanks and a new ask never share a letter."),
    "givers_private": _("Other givers are not named in a letter to this one."),
    "to_a_person": _(
        "A gift meant for a named teacher or child is not a gift to the school. Ask the office how to take it, or ask "
        "the giver whether it may be for the program."
    ),
}

SOURCES: Mapping[Source, Words] = {
    "A1": _("26 USC 170(f)(8)(A)"),
    "A2": _("26 USC 170(f)(8)(B); IRS Publication 1771"),
    "A5": _("IRS Publication 1771"),
    "A6": _("26 CFR 1.170A-16(a)(1)"),
    "B1": _("26 USC 170(c)(1); IRS Publication 526"),
    "B2": _("IRS Publication 526"),
    "P": _("common practice"),
    "Q1": _("26 USC 6115"),
    "Q2": _("26 USC 6115(a)"),
    "Q3": _("26 USC 6115(a), on each payment"),
    "Q5": _("IRS, quid pro quo contributions"),
    "T1": _("Rev. Proc. 90-12, section 3.01(2)(a)"),
    "T2": _("Rev. Proc. 90-12, section 3.01(2)(b)"),
    "T3": _("common reading of Rev. Proc. 90-12"),
}

PROBLEMS: Mapping[ProblemCode, Words] = {
    "named_person": _("This gift is meant for one person, so the school cannot thank for it as a gift to the school."),
    "value": _("“%(snippet)s” puts a value on goods. Describe them; the giver values them."),
    "value_of_help": _("“%(snippet)s” puts a value on help. Thank for it without a value."),
    "nothing_on_trade": _("“%(snippet)s” cannot stand in a letter about a trade: both sides give."),
    "nothing_but_given": _("“%(snippet)s” is not so: we gave %(back)s back."),
    "deductible": _("“%(snippet)s” calls this a gift that can be deducted, which it is not. Leave it out."),
    "ask": _("“%(snippet)s” reads like an ask or a need. Thanks and asks never share a letter."),
    "other_giver": _("%(snippet)s is another giver. Leave the name out."),
    "no_statement": _("The letter does not say whether anything was given in return."),
    "not_described_back": _("The letter does not say what we gave back: %(back)s."),
    "no_estimate": _("The letter does not give our estimate of what we gave back."),
    "no_amount": _("The letter does not state the amount, %(amount)s."),
    "no_day": _("The letter does not tell the day of the gift, %(day)s."),
    "no_description": _("The letter does not name what was given: %(description)s."),
    "no_purpose": _("The letter does not say what the giver wants it used for: %(purpose)s."),
    "last_words": _("These are almost the words of the last letter. Say something that is new."),
}


def fillings(facts: GiftFacts, decision: Decision, language: str, snippet: str = "") -> dict[str, str]:
    """What fills the placeholders of the sentences, reasons and problems of one gift, in the language in force."""

    def money(cents: int | None) -> str:
        return str(_("not known yet")) if cents is None else format_cents(cents, language)

    return {
        "amount": money(facts.amount_cents),
        "back": facts.back,
        "back_estimate": money(facts.back_estimate_cents),
        "gift_part": money(decision.gift_part_cents),
        "year": str(facts.day.year),
        "day": date_format(facts.day, "DATE_FORMAT"),
        "description": facts.description,
        "purpose": facts.purpose,
        "snippet": snippet,
    }
