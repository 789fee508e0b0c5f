"""The verdict against a reading of the rules that looks at one day after the other and jumps nowhere.

The rules: never ask; rest; the partner's own rule (once a calendar year, once a fiscal year, 24 months apart), counted
for the school or for the whole district; an open ask; thanks owed; the last result not shown; send by = needed by less
lead time less 7 days; no approval; a colleague asked within the last 30 days.
"""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from partners.asking.may_ask import Approved, CountedPer, HowOften, PastAsk, Situation, may_ask
from partners.asking.reasons import CAUTIONS, Code

HORIZON = 1200
DAY_RANGE = (date(2026, 1, 1), date(2026, 12, 31))
BLOCKING = set(Code) - {Code.RESULT_NOT_SHOWN}


@cache
def fiscal_year(day, starts):
    """Named after the calendar year in which it begins."""
    while (day.month, day.day) != (starts, 1):
        day -= timedelta(days=1)
    return day.year


def used_up(situation, ask, day):
    match situation.how_often:
        case "calendar_year":
            return day.year == ask.on.year
        case "fiscal_year":
            starts = situation.fiscal_year_starts
            return fiscal_year(day, starts) == fiscal_year(ask.on, starts)
        case "two_years":
            return day < ask.on + relativedelta(years=2)
    return False


def counts(situation, ask):
    return situation.counted_per == "district" or ask.school in (None, situation.school)


def against(situation, day):
    """The codes of all that speaks against asking on this one day."""
    s = situation
    lead = 0 if s.lead_days is None else s.lead_days + 7
    holds = {
        Code.NEVER_ASK: s.never_ask,
        Code.RESTING: s.rest_until is not None and day < s.rest_until,
        Code.HOW_OFTEN: any(counts(s, ask) and used_up(s, ask, day) for ask in s.asks),
        Code.OPEN_ASK: any(ask.waiting for ask in s.asks),
        Code.THANKS_OWED: s.thanks_owed_since is not None,
        Code.RESULT_NOT_SHOWN: s.result_owed_since is not None,
        Code.TOO_LATE: s.needed_by is not None and day + timedelta(days=lead) > s.needed_by,
        Code.NO_APPROVAL: s.approval_needed
        and not any(a.on <= day and day <= (a.until or date.max) for a in s.approvals),
        Code.COLLEAGUE_ASKED: any(a.by and not a.unasked and (day - a.on).days < 30 for a in s.asks),
    }
    return {code for code, on in holds.items() if on}


def ahead(day, days=HORIZON):
    return (day + timedelta(days=n) for n in range(days))


def first_day(situation, day, bears=frozenset()):
    return next((d for d in ahead(day) if not (against(situation, d) & BLOCKING) - bears), None)


def first_day_once_done(situation, day):
    """Answers recorded and thanks sent; an approval is fetched only where none is coming any more."""
    done = replace(situation, thanks_owed_since=None, asks=tuple(replace(a, waiting=False) for a in situation.asks))
    for d in ahead(day):
        speaks = against(done, d) & BLOCKING
        if speaks == {Code.NO_APPROVAL} and all(Code.NO_APPROVAL in against(done, e) for e in ahead(d)):
            return d
        if not speaks:
            return d
    return None


def upto(day, back):
    return st.dates(day - timedelta(days=back), day)


@st.composite
def moments(draw):
    day = draw(st.dates(*DAY_RANGE))
    near = st.dates(day - timedelta(days=100), day + timedelta(days=450))
    asks = st.builds(
        PastAsk,
        on=upto(day, 900),
        school=st.sampled_from(["millrace", "north", None]),
        by=st.sampled_from(["", "", "Ana Ruiz"]),
        waiting=st.sampled_from([False] * 9 + [True]),
        unasked=st.booleans(),
    )
    lapsing = st.tuples(near, st.integers(0, 200)).map(lambda a: Approved(a[0], a[0] + timedelta(days=a[1])))
    seldom = st.one_of(st.none(), st.none(), st.none(), st.none(), upto(day, 300))
    situation = Situation(
        school=draw(st.sampled_from(["millrace", "north"])),
        never_ask=draw(st.sampled_from([False] * 19 + [True])),
        rest_until=draw(st.none() | near),
        how_often=draw(st.sampled_from(HowOften)),
        counted_per=draw(st.sampled_from(CountedPer)),
        fiscal_year_starts=draw(st.integers(1, 12)),
        asks=tuple(draw(st.lists(asks, max_size=4))),
        thanks_owed_since=draw(seldom),
        result_owed_since=draw(seldom),
        needed_by=draw(st.none() | st.dates(day, day + timedelta(days=700))),
        lead_days=draw(st.none() | st.integers(0, 90)),
        approval_needed=draw(st.booleans()),
        approvals=tuple(draw(st.lists(st.builds(Approved, near) | lapsing, max_size=3))),
    )
    return situation, day


@given(moments())
def test_the_reasons_are_those_of_the_day_and_the_earliest_day_is_the_first_free_one(moment):
    situation, day = moment
    verdict = may_ask(situation, day)
    assert {reason.code for reason in verdict.reasons} == against(situation, day)
    assert verdict.allowed == (not against(situation, day) & BLOCKING)
    assert verdict.earliest == first_day(situation, day)


@given(moments())
def test_each_reason_ends_on_the_first_day_that_no_longer_has_it(moment):
    situation, day = moment
    for reason in may_ask(situation, day).reasons:
        free = (d for d in ahead(day) if reason.code not in against(situation, d))
        assert reason.until == next(free, None)


@given(moments())
def test_once_everything_is_done_the_first_free_day_is_the_one_named(moment):
    situation, day = moment
    verdict = may_ask(situation, day)
    assert verdict.once_done == first_day_once_done(situation, day)
    assert verdict.earliest in (None, verdict.once_done)


@given(moments())
def test_where_the_answer_is_not_a_plain_yes_something_says_why(moment):
    situation, day = moment
    verdict = may_ask(situation, day)
    named = {reason.code for reason in verdict.reasons + verdict.later} - CAUTIONS
    until = verdict.earliest or day + timedelta(days=HORIZON)
    assert (verdict.earliest == day) == (not named)
    assert (verdict.earliest == verdict.once_done) or verdict.to_do
    assert named <= set().union(*(against(situation, d) for d in ahead(day, (until - day).days + 1)))


@given(moments(), st.data())
def test_one_more_fact_against_it_never_brings_the_day_nearer(moment, data):
    situation, day = moment
    ask = PastAsk(data.draw(upto(day, 900)), situation.school, data.draw(st.sampled_from(["", "Ana Ruiz"])))
    more = data.draw(
        st.sampled_from(
            [
                {"asks": (*situation.asks, ask)},
                {"thanks_owed_since": day},
                {"never_ask": True},
                {"rest_until": (situation.rest_until or day) + timedelta(days=20)},
                {"approval_needed": True},
                {"approvals": situation.approvals[1:]},
            ]
        )
    )
    before, after = may_ask(situation, day), may_ask(replace(situation, **more), day)
    assert (after.earliest or date.max) >= (before.earliest or date.max)
    assert {r.code for r in before.reasons} <= {r.code for r in after.reasons}
