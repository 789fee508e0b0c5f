"""May I ask now? A verdict with every reason against it, and the first day on which the answer is yes.

Plain values in, plain values out. The rules are the project's own, from what partners state and what the trade does;
where no source names a figure it is common practice and can be set.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from partners.asking.reasons import Code, Facts, Reason
from partners.ground.months import add_months


class HowOften(StrEnum):
    NO_RULE = ""
    CALENDAR_YEAR = "calendar_year"
    FISCAL_YEAR = "fiscal_year"
    TWO_YEARS = "two_years"


class CountedPer(StrEnum):
    SCHOOL = "school"
    DISTRICT = "district"


@dataclass(frozen=True)
class AskFigures:
    """Days to leave free after a colleague's ask, and between asking in time and the partner's own lead time."""

    colleague_days: int = 30
    margin_days: int = 7


@dataclass(frozen=True)
class PastAsk:
    """One ask that was made. `school` None is the whole program; `by` names a colleague, empty is the teacher herself.

    `unasked` is a gift nobody asked for: it uses up a partner's turn just the same, and no one waits for an answer.
    """

    on: date
    school: Hashable = None
    by: str = ""
    waiting: bool = False
    unasked: bool = False


@dataclass(frozen=True)
class Approved:
    """An approval to ask, from `on` through `until`, both counted; without `until` it stands."""

    on: date
    until: date | None = None

    def covers(self, day: date) -> bool:
        return self.on <= day and (self.until is None or day <= self.until)


@dataclass(frozen=True, kw_only=True)
class Situation:
    """All that the record knows about asking one partner for one need, as plain values.

    `school` is the school the ask is for. `asks` holds the program's asks and its colleagues', in any order.
    `thanks_owed_since` and `result_owed_since` are the day of the oldest gift not thanked for, and of the oldest whose
    result the giver was not told. `lead_days` None: the partner states no lead time. `fiscal_year_starts` is the month
    (1 to 12) in which the partner's year begins.
    """

    school: Hashable = None
    never_ask: bool = False
    rest_until: date | None = None
    rest_why: str = ""
    how_often: HowOften = HowOften.NO_RULE
    counted_per: CountedPer = CountedPer.SCHOOL
    fiscal_year_starts: int = 1
    asks: tuple[PastAsk, ...] = ()
    thanks_owed_since: date | None = None
    result_owed_since: date | None = None
    needed_by: date | None = None
    lead_days: int | None = None
    approval_needed: bool = False
    approvals: tuple[Approved, ...] = ()


@dataclass(frozen=True)
class Verdict:
    """The answer for `day`.

    `reasons`: everything that speaks against it on that day, one per code, in the order of `Code`. `earliest`: the
    first day from `day` on when the answer is yes; None when the record alone cannot tell or there is none. `later`:
    what stands in the way only after the dated reasons have ended. `once_done`: the first day of a yes if everything
    in `to_do` were done today; None when that does not help. `send_by`: the last day to ask for this need, if it has
    a day.
    """

    day: date
    reasons: tuple[Reason, ...]
    earliest: date | None
    later: tuple[Reason, ...] = ()
    once_done: date | None = None
    send_by: date | None = None

    @property
    def allowed(self) -> bool:
        return not any(reason.blocks for reason in self.reasons)

    @property
    def to_do(self) -> tuple[Reason, ...]:
        return tuple(reason for reason in self.reasons + self.later if reason.to_do)

    @property
    def cautions(self) -> tuple[Reason, ...]:
        return tuple(reason for reason in self.reasons if not reason.blocks)


def may_ask(situation: Situation, day: date, figures: AskFigures = AskFigures()) -> Verdict:
    """The verdict for asking on `day`; an ask dated after `day` counts as made already.

    A dated reason holds on every day before its `until`, so jumping from one end to the next misses no day.
    """
    reasons = reasons_on(situation, day, figures)
    against = [reason for reason in reasons if reason.blocks]
    later: dict[Code, Reason] = {}
    free: date | None = day
    while free and against:
        ends = [reason.until for reason in against if not reason.to_do]
        dates = [end for end in ends if end is not None]
        if not ends:
            break
        free = max(dates) if len(dates) == len(ends) else None
        if free:
            against = [reason for reason in reasons_on(situation, free, figures) if reason.blocks]
            later |= {reason.code: reason for reason in against}
    return Verdict(
        day=day,
        reasons=reasons,
        earliest=None if against else free,
        later=tuple(reason for reason in later.values() if reason not in reasons),
        once_done=free,
        send_by=send_by(situation, figures),
    )


def together(by_school: Mapping[str, Verdict]) -> Verdict:
    """One verdict for several schools: that of the school which may ask first, and of the others when they may."""
    best = min(by_school.values(), key=_wait)
    others: dict[date | None, list[str]] = {}
    for school, verdict in by_school.items():
        if _wait(verdict) > _wait(best):
            others.setdefault(None if verdict.to_do else verdict.once_done, []).append(school)
    named = (Reason(Code.NOT_THIS_SCHOOL, until, {"school": ", ".join(schools)}) for until, schools in others.items())
    return replace(best, reasons=(*best.reasons, *named))


def _wait(verdict: Verdict) -> tuple[bool, date, bool]:
    return not verdict.allowed, verdict.once_done or date.max, bool(verdict.to_do)


def reasons_on(situation: Situation, day: date, figures: AskFigures) -> tuple[Reason, ...]:
    """Everything that speaks against asking on this very day."""
    found = (rule(situation, day, figures) for rule in RULES)
    return tuple(reason for reason in found if reason is not None)


def send_by(situation: Situation, figures: AskFigures) -> date | None:
    """The last day to ask: lead time and our margin before the need; the day of the need without a stated lead time."""
    if situation.needed_by is None or situation.lead_days is None:
        return situation.needed_by
    return situation.needed_by - timedelta(days=situation.lead_days + figures.margin_days)


def next_turn(how_often: HowOften, on: date, fiscal_year_starts: int = 1) -> date | None:
    """The first day on which a partner's own rule allows the ask after one made `on`; None when it has no rule."""
    if how_often == HowOften.CALENDAR_YEAR:
        return date(on.year + 1, 1, 1)
    if how_often == HowOften.FISCAL_YEAR:
        return date(on.year + (on.month >= fiscal_year_starts), fiscal_year_starts, 1)
    if how_often == HowOften.TWO_YEARS:
        return add_months(on, 24)
    return None


def _never_ask(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    return Reason(Code.NEVER_ASK) if situation.never_ask else None


def _resting(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    until = situation.rest_until
    if until is None or day >= until:
        return None
    return Reason(Code.RESTING, until, {"until": until, "why": situation.rest_why})


def _how_often(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    whole = situation.counted_per == CountedPer.DISTRICT
    counted = [ask for ask in situation.asks if whole or ask.school is None or ask.school == situation.school]
    if not counted:
        return None
    last = max(counted, key=lambda ask: ask.on)
    until = next_turn(situation.how_often, last.on, situation.fiscal_year_starts)
    if until is None or day >= until:
        return None
    facts: Facts = {"on": last.on, "by": last.by, "unasked": last.unasked, "how_often": str(situation.how_often)}
    return Reason(Code.HOW_OFTEN, until, facts)


def _open_ask(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    waiting = [ask for ask in situation.asks if ask.waiting]
    if not waiting:
        return None
    oldest = min(waiting, key=lambda ask: ask.on)
    return Reason(Code.OPEN_ASK, None, {"on": oldest.on, "by": oldest.by})


def _thanks_owed(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    since = situation.thanks_owed_since
    return Reason(Code.THANKS_OWED, None, {"on": since}) if since else None


def _result_not_shown(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    since = situation.result_owed_since
    return Reason(Code.RESULT_NOT_SHOWN, None, {"on": since}) if since else None


def _too_late(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    last = send_by(situation, figures)
    if last is None or situation.needed_by is None or day <= last:
        return None
    facts: Facts = {"needed_by": situation.needed_by, "send_by": last, "lead_days": situation.lead_days or 0}
    return Reason(Code.TOO_LATE, None, facts)


def _no_approval(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    if not situation.approval_needed or any(approved.covers(day) for approved in situation.approvals):
        return None
    usable = (a.on for a in situation.approvals if a.on > day and a.covers(a.on))
    ended = max((a.until for a in situation.approvals if a.until and a.on <= a.until < day), default=None)
    return Reason(Code.NO_APPROVAL, min(usable, default=None), {"runs_until": ended} if ended else {})


def _colleague_asked(situation: Situation, day: date, figures: AskFigures) -> Reason | None:
    theirs = [ask for ask in situation.asks if ask.by and not ask.unasked]
    if not theirs:
        return None
    last = max(theirs, key=lambda ask: ask.on)
    until = last.on + timedelta(days=figures.colleague_days)
    return Reason(Code.COLLEAGUE_ASKED, until, {"on": last.on, "by": last.by}) if day < until else None


RULES: tuple[Callable[[Situation, date, AskFigures], Reason | None], ...] = (
    _never_ask,
    _resting,
    _how_often,
    _open_ask,
    _thanks_owed,
    _result_not_shown,
    _too_late,
    _no_approval,
    _colleague_asked,
)
