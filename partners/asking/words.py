"""Plain sentences for a verdict, for what has to be done first, and for hints on busy times."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext_lazy, pgettext_lazy

from partners.asking.may_ask import HowOften, Verdict
from partners.asking.reasons import DOABLE, Code, Reason

if TYPE_CHECKING:
    from django_stubs_ext import StrPromise as Lazy

# Each is a clause after a colon or a semicolon: it begins small and has no full stop.
CLAUSES: Mapping[str, Lazy] = {
    Code.NEVER_ASK: gettext_lazy("%(partner)s is marked “never ask”"),
    Code.RESTING: gettext_lazy("don’t ask %(partner)s before %(until)s"),
    Code.HOW_OFTEN: gettext_lazy("%(turn)s, and %(rule)s"),
    Code.OPEN_ASK: gettext_lazy("your ask of %(on)s still waits for an answer"),
    Code.THANKS_OWED: gettext_lazy("thanks have been owed to %(partner)s since %(on)s"),
    Code.RESULT_NOT_SHOWN: gettext_lazy("nobody has told %(partner)s yet what their gift of %(on)s became"),
    Code.TOO_LATE: ngettext_lazy(
        "it is needed by %(needed_by)s and they want to be asked %(lead_days)s day ahead, so with some days to spare "
        "the last day to ask is %(send_by)s",
        "it is needed by %(needed_by)s and they want to be asked %(lead_days)s days ahead, so with some days to spare "
        "the last day to ask is %(send_by)s",
        "lead_days",
    ),
    Code.NO_APPROVAL: gettext_lazy("no approval to ask is recorded"),
    Code.COLLEAGUE_ASKED: gettext_lazy("%(by)s asked %(partner)s on %(on)s, and we leave time between asks"),
    Code.NOT_THIS_SCHOOL: gettext_lazy("not for %(school)s before %(until)s"),
}
RESTING_BECAUSE = gettext_lazy("don’t ask %(partner)s before %(until)s (%(why)s)")
COLLEAGUE_WAITS = gettext_lazy("%(by)s’s ask of %(on)s still waits for an answer")
APPROVAL_ENDS = gettext_lazy("there is approval to ask only until %(runs_until)s")
NEED_IS_OVER = gettext_lazy("it is needed by %(needed_by)s")
SCHOOL_NOT_YET = gettext_lazy("not yet for %(school)s")
APPROVAL_LATER = gettext_lazy("the approval to ask begins on %(until)s")

YOU_ASKED = gettext_lazy("you asked %(partner)s on %(on)s")
COLLEAGUE_ASKED = gettext_lazy("%(by)s asked %(partner)s on %(on)s")
GAVE_UNASKED = gettext_lazy("%(partner)s gave on %(on)s without being asked")
RULES: Mapping[str, Lazy] = {
    HowOften.CALENDAR_YEAR: gettext_lazy("they give once a calendar year"),
    HowOften.FISCAL_YEAR: gettext_lazy("they give once in their fiscal year"),
    HowOften.TWO_YEARS: gettext_lazy("they give every other year"),
}

TO_DO: Mapping[str, Lazy] = {
    Code.OPEN_ASK: gettext_lazy("record their answer"),
    Code.THANKS_OWED: gettext_lazy("write the thanks"),
    Code.NO_APPROVAL: gettext_lazy("get the approval and record it"),
}

RENEW = gettext_lazy("have the approval renewed and record it")

HINTS: Mapping[str, Lazy] = {
    "lunch": pgettext_lazy("a busy time", "they are busy with lunch"),
    "dinner": pgettext_lazy("a busy time", "they are busy with dinner"),
    "morning_rush": pgettext_lazy("a busy time", "it is the morning rush"),
    "after_work": pgettext_lazy("a busy time", "people shop after work"),
    "before_holiday": pgettext_lazy("a busy time", "people shop before the holiday"),
    "spring_saturday": pgettext_lazy("a busy time", "spring Saturdays are their busiest days"),
    "flower_week": pgettext_lazy("a busy time", "it is one of their two busiest weeks"),
    "holiday_season": pgettext_lazy("a busy time", "it is their holiday season"),
    "friday_afternoon": pgettext_lazy("a busy time", "Friday afternoons are busy"),
    "first_of_month": pgettext_lazy("a busy time", "the first of the month is busy"),
    "tax_season": pgettext_lazy("a busy time", "it is tax season"),
    "framing_season": pgettext_lazy("a busy time", "everybody wants frames before the holidays"),
}


def spelled(day: date) -> str:
    return date_format(day, "DATE_FORMAT")


def clause(reason: Reason, partner: str) -> str:
    """What speaks against it, in a few words that begin small: "you asked Riverbend on March 3, 2026, and …"."""
    facts: dict[str, object] = {"partner": partner, "until": spelled(reason.until) if reason.until else ""}
    facts |= {name: spelled(value) if isinstance(value, date) else value for name, value in reason.facts.items()}
    if reason.code == Code.HOW_OFTEN:
        turn = GAVE_UNASKED if facts["unasked"] else COLLEAGUE_ASKED if facts["by"] else YOU_ASKED
        facts |= {"turn": turn % facts, "rule": RULES[str(facts["how_often"])]}
    return str(_sentence(reason) % facts)


def _sentence(reason: Reason) -> Lazy:
    if reason.code == Code.RESTING and reason.facts["why"]:
        return RESTING_BECAUSE
    if reason.code == Code.OPEN_ASK and reason.facts["by"]:
        return COLLEAGUE_WAITS
    if reason.code == Code.TOO_LATE and reason.facts["send_by"] == reason.facts["needed_by"]:
        return NEED_IS_OVER
    if reason.code == Code.NO_APPROVAL and reason.until:
        return APPROVAL_LATER
    if reason.code == Code.NO_APPROVAL and "runs_until" in reason.facts:
        return APPROVAL_ENDS
    if reason.code == Code.NOT_THIS_SCHOOL and not reason.until:
        return SCHOOL_NOT_YET
    return CLAUSES[reason.code]


def to_do(reason: Reason) -> str:
    """What the teacher does so that this reason ends; empty for one that only a date ends, or nothing."""
    if "runs_until" in reason.facts and reason.until is None:
        return str(RENEW)
    return str(TO_DO[reason.code]) if reason.code in DOABLE and reason.until is None else ""


def hint(code: str) -> str:
    """Why it is a busy time; a code of the program's own hints stands for itself."""
    return str(HINTS.get(code, code))


def answer(verdict: Verdict, partner: str) -> str:
    """The whole verdict: yes or not yet, every reason, what to do first, and the earliest day."""
    if verdict.allowed:
        yes = _("Yes: you may ask %(partner)s.") % {"partner": partner}
        before = [reason for reason in verdict.cautions if reason.code != Code.NOT_THIS_SCHOOL]
        but = _each(_("But %(reasons)s."), _of_schools(verdict), partner)
        return " ".join([yes, *but, *_each(_("Before you do: %(reasons)s."), before, partner)])
    parts = _each(_opening(verdict), verdict.reasons, partner)
    # A need that is too late, or an approval that has lapsed, only when the dated reasons are over.
    parts += _each(_("And by then: %(reasons)s."), verdict.later, partner)
    if any(reason.code == Code.TOO_LATE for reason in verdict.reasons + verdict.later):
        parts.append(_("That is too late for this need: try next year."))
    if verdict.to_do:
        parts.append(_("First: %(deeds)s.") % {"deeds": _("; ").join(to_do(reason) for reason in verdict.to_do)})
    free = verdict.once_done
    if free and free > verdict.day:
        parts.append(_("Earliest: %(day)s.") % {"day": spelled(free)})
    return " ".join(parts)


def short(verdict: Verdict) -> str:
    """The verdict in the few words that somebody in front of the door reads; its reasons stand elsewhere."""
    codes = {reason.code for reason in verdict.reasons + verdict.later}
    if verdict.allowed:
        but = _("; ").join(clause(reason, "") for reason in _of_schools(verdict))
        return _("You may ask, but %(but)s") % {"but": but} if but else _("You may ask")
    if Code.NEVER_ASK in codes:
        return _("They asked not to be asked")
    if Code.TOO_LATE in codes:
        return _("Too late for this need: try next year")
    if verdict.once_done and verdict.once_done > verdict.day:
        return _("Not yet: from %(day)s") % {"day": spelled(verdict.once_done)}
    deeds = _("; ").join(to_do(reason) for reason in verdict.to_do)
    return _("Not yet: first %(deeds)s") % {"deeds": deeds} if deeds else _("Not yet")


def _of_schools(verdict: Verdict) -> list[Reason]:
    return [reason for reason in verdict.reasons if reason.code == Code.NOT_THIS_SCHOOL]


def _opening(verdict: Verdict) -> str:
    codes = {reason.code for reason in verdict.reasons}
    if Code.NEVER_ASK in codes:
        return _("No: %(reasons)s.")
    return _("Not for this need: %(reasons)s.") if Code.TOO_LATE in codes else _("Not yet: %(reasons)s.")


def _each(sentence: str, reasons: Iterable[Reason], partner: str) -> list[str]:
    """The sentence around the reasons' clauses; nothing when there are none."""
    clauses = [clause(reason, partner) for reason in reasons]
    return [sentence % {"reasons": _("; ").join(clauses)}] if clauses else []
