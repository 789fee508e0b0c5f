"""How a verdict was worked out: every rule, and what the record says about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise as LazyText
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.asking.gather import figures, gather
from partners.asking.may_ask import Verdict
from partners.asking.quiet_hours import good_day, when_to_go
from partners.asking.reasons import Code
from partners.asking.shown import show
from partners.asking.words import clause
from partners.directory.models import Partner
from partners.program.desk import Desk
from partners.school.clock import clock
from partners.school.models import School
from partners.wish_list.models import Need

RULES: Mapping[Code, LazyText] = {
    Code.NEVER_ASK: gettext_lazy("They asked not to be asked"),
    Code.RESTING: gettext_lazy("A rest: after a no, no reply, or their last gift"),
    Code.HOW_OFTEN: gettext_lazy("How often they give"),
    Code.OPEN_ASK: gettext_lazy("An ask that still waits"),
    Code.THANKS_OWED: gettext_lazy("Thanks still owed"),
    Code.RESULT_NOT_SHOWN: gettext_lazy("What their last gift became"),
    Code.TOO_LATE: gettext_lazy("Their lead time, and when it is needed"),
    Code.NO_APPROVAL: gettext_lazy("The school's approval to ask"),
    Code.COLLEAGUE_ASKED: gettext_lazy("A colleague asked lately"),
    Code.NOT_THIS_SCHOOL: gettext_lazy("Each of your schools"),
}


@dataclass(frozen=True)
class Rule:
    """One rule: what it looks at, what the record says, and whether that speaks against asking today."""

    title: Any
    says: str
    against: bool


def worked_out(desk: Desk, partner: Partner, need: Need | None, school: School | None) -> dict[str, Any]:
    verdict = gather(desk, [partner]).verdict(partner, desk.day, need, school.pk if school else None)
    calendar = clock(desk.program, school.pk if school else None)
    from_day = verdict.once_done
    return {
        "verdict": show(verdict, partner.name),
        "need": need,
        "rules": rules(verdict, partner),
        "hint": when_to_go(partner, desk.day),
        "good_day": good_day(partner, from_day, calendar) if from_day else None,
        "margin_days": figures(desk).margin_days,
        "colleague_days": figures(desk).colleague_days,
    }


def rules(verdict: Verdict, partner: Partner) -> list[Rule]:
    """Every rule in the order of the reasons."""
    found = {reason.code: reason for reason in (*verdict.later, *verdict.reasons)}
    nothing = _("nothing against it")
    return [
        Rule(
            title=title,
            says=capfirst(clause(found[code], partner.name)) if code in found else nothing,
            against=code in found and (found[code].blocks or code == Code.NOT_THIS_SCHOOL),
        )
        for code, title in RULES.items()
    ]
