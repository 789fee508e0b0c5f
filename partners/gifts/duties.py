"""Whom a gift still has to pass, and by when; by when thanks are due. All of it in school days.

From which value somebody else must accept a gift is the district's rule, entered per school. The days are counted in
`dates`; those for thanks are the program's figures.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from partners.gifts import dates
from partners.gifts.models import Form, Gift, Source
from partners.program.desk import Desk
from partners.school.approval_models import AcceptanceRule
from partners.school.calendar import SchoolCalendar
from partners.school.clock import clock

DUTY_OF = frozenset({"day", "school", "form", "amount_cents", "given_value_cents"})


def duties(desk: Desk, gift: Gift) -> dict[str, Any]:
    """What follows from the gift as it is now, by the names of its columns."""
    program = desk.program
    return duties_by(gift, acceptance_rule(desk, gift), clock(program, gift.school_id), program.thank_within)


def duties_by(gift: Gift, rule: AcceptanceRule | None, calendar: SchoolCalendar, within: int) -> dict[str, Any]:
    """As `duties`, where the rule that the gift falls under, its calendar and the days to thank within are known.

    Families are thanked school by school, so what names no school waits for no notice.
    """
    to_families = gift.source == Source.FAMILIES and gift.school_id is not None
    return {
        "accept_by_whom": rule.who if rule else "",
        "accept_due": dates.accept_due(calendar, gift.day) if rule else None,
        "hand_in_due": dates.hand_in_due(calendar, gift.day) if gift.form == Form.MONEY else None,
        "families_due": dates.families_due(calendar, gift.day, within) if to_families else None,
    }


def acceptance_rule(desk: Desk, gift: Gift) -> AcceptanceRule | None:
    """The rule of the gift's school with the highest value that the gift reaches; nobody accepts what is only lent.

    The value is the amount of money, else the giver's own figure; unknown counts as nothing, which only a rule for
    every gift (from 0) reaches. A gift to no school in particular answers to the rules of all of them.
    """
    return rule_of(gift, desk.program.acceptance_rules.order_by("-from_cents", "pk"))


def rule_of(gift: Gift, rules: Iterable[AcceptanceRule]) -> AcceptanceRule | None:
    """As `acceptance_rule`, of rules that come with the highest value first."""
    if gift.form == Form.LOAN:
        return None
    value = gift.amount_cents if gift.amount_cents is not None else gift.given_value_cents or 0
    return rule_for(value, gift.school_id, rules)


def rule_for(cents: int, school_id: int | None, rules: Iterable[AcceptanceRule]) -> AcceptanceRule | None:
    """The first of the rules that so much reaches."""
    return next((rule for rule in rules if rule.from_cents <= cents and school_id in (None, rule.school_id)), None)


def award_duties(desk: Desk, cents: int, day: date, school_id: int | None) -> dict[str, Any]:
    """`accept_by_whom` and `accept_due` of money that was awarded on `day`, as of a gift of money."""
    rule = rule_for(cents, school_id, desk.program.acceptance_rules.order_by("-from_cents", "pk"))
    due = dates.accept_due(clock(desk.program, school_id), day) if rule else None
    return {"accept_by_whom": rule.who if rule else "", "accept_due": due}


def thanks_days(desk: Desk, base: date, school_id: int | None) -> dict[str, Any]:
    """`base`, `due` and `late_from` by the columns' names."""
    program = desk.program
    due, late_from = dates.thanks_dates(clock(program, school_id), base, program.thank_within, program.thank_late)
    return {"base": base, "due": due, "late_from": late_from}
