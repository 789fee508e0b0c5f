"""May I ask now? One test for each reason, then what a verdict says about the days after."""

from dataclasses import replace
from datetime import date

import pytest

from partners.asking.may_ask import (
    Approved,
    AskFigures,
    CountedPer,
    HowOften,
    PastAsk,
    Situation,
    may_ask,
    next_turn,
    together,
)
from partners.asking.reasons import Code, Reason

DAY = date(2026, 10, 6)
MARCH = date(2026, 3, 3)
ASKED = PastAsk(MARCH, school="millrace")


def codes(situation, day=DAY):
    return [reason.code for reason in may_ask(situation, day).reasons]


def test_nothing_speaks_against_asking_a_new_partner():
    verdict = may_ask(Situation(), DAY)
    assert (verdict.allowed, verdict.reasons, verdict.earliest, verdict.once_done) == (True, (), DAY, DAY)


def test_never_ask_has_no_earliest_day():
    verdict = may_ask(Situation(never_ask=True), DAY)
    assert (verdict.allowed, verdict.earliest, verdict.once_done, verdict.to_do) == (False, None, None, ())


def test_a_rest_ends_on_its_day():
    situation = Situation(rest_until=date(2027, 3, 1))
    assert may_ask(situation, DAY).earliest == date(2027, 3, 1)
    assert codes(situation, date(2027, 2, 28)) == [Code.RESTING]
    assert may_ask(situation, date(2027, 3, 1)).allowed


@pytest.mark.parametrize(
    ("how_often", "earliest"),
    [
        (HowOften.NO_RULE, DAY),
        (HowOften.CALENDAR_YEAR, date(2027, 1, 1)),
        (HowOften.FISCAL_YEAR, date(2027, 2, 1)),
        (HowOften.TWO_YEARS, date(2028, 3, 3)),
    ],
)
def test_their_own_rule_says_when_it_is_our_turn_again(how_often, earliest):
    situation = Situation(school="millrace", how_often=how_often, fiscal_year_starts=2, asks=(ASKED,))
    assert may_ask(situation, DAY).earliest == earliest


@pytest.mark.parametrize(
    ("on", "month", "turn"),
    [
        (date(2026, 6, 30), 7, date(2026, 7, 1)),
        (date(2026, 7, 1), 7, date(2027, 7, 1)),
        (date(2026, 12, 31), 1, date(2027, 1, 1)),
    ],
)
def test_a_fiscal_year_turns_on_the_first_of_its_month(on, month, turn):
    assert next_turn(HowOften.FISCAL_YEAR, on, month) == turn


def test_an_ask_for_another_school_counts_only_where_the_district_is_one():
    situation = Situation(school="north", how_often=HowOften.CALENDAR_YEAR, asks=(ASKED,))
    assert may_ask(situation, DAY).allowed
    assert codes(replace(situation, counted_per=CountedPer.DISTRICT)) == [Code.HOW_OFTEN]


def test_an_ask_for_the_whole_program_counts_for_each_school():
    whole = replace(ASKED, school=None)
    assert codes(Situation(school="north", how_often=HowOften.CALENDAR_YEAR, asks=(whole,))) == [Code.HOW_OFTEN]


def test_a_gift_nobody_asked_for_uses_up_the_turn():
    situation = Situation(how_often=HowOften.CALENDAR_YEAR, asks=(PastAsk(date(2026, 5, 5), unasked=True),))
    assert may_ask(situation, DAY).reasons[0].facts["unasked"] is True


def test_an_open_ask_waits_for_its_answer_first():
    verdict = may_ask(Situation(asks=(replace(ASKED, waiting=True),)), DAY)
    assert (verdict.earliest, verdict.once_done) == (None, DAY)
    assert [reason.code for reason in verdict.to_do] == [Code.OPEN_ASK]


def test_thanks_come_before_the_next_ask():
    verdict = may_ask(Situation(thanks_owed_since=date(2026, 9, 1), rest_until=date(2027, 3, 1)), DAY)
    assert [reason.code for reason in verdict.reasons] == [Code.RESTING, Code.THANKS_OWED]
    assert (verdict.earliest, verdict.once_done) == (None, date(2027, 3, 1))


def test_a_result_not_shown_cautions_and_blocks_nothing():
    verdict = may_ask(Situation(result_owed_since=date(2026, 3, 20)), DAY)
    assert (verdict.allowed, verdict.earliest) == (True, DAY)
    assert [reason.code for reason in verdict.cautions] == [Code.RESULT_NOT_SHOWN]


def test_the_last_day_to_ask_is_lead_time_and_a_week_before_the_need():
    situation = Situation(needed_by=date(2026, 12, 1), lead_days=42)
    assert may_ask(situation, date(2026, 10, 13)).allowed
    verdict = may_ask(situation, date(2026, 10, 14))
    assert (verdict.allowed, verdict.earliest, verdict.send_by) == (False, None, date(2026, 10, 13))
    assert verdict.to_do == ()


def test_without_a_stated_lead_time_the_day_of_the_need_itself_is_the_last():
    situation = Situation(needed_by=DAY)
    assert may_ask(situation, DAY).allowed
    assert codes(situation, date(2026, 10, 7)) == [Code.TOO_LATE]


def test_an_approval_counts_on_both_its_ends():
    situation = Situation(approval_needed=True, approvals=(Approved(date(2026, 10, 1), date(2026, 10, 6)),))
    days = (date(2026, 9, 30), date(2026, 10, 1), DAY, date(2026, 10, 7))
    assert [may_ask(situation, day).allowed for day in days] == [False, True, True, False]


def test_an_approval_to_come_gives_the_day_and_none_at_all_gives_something_to_do():
    coming = Situation(approval_needed=True, approvals=(Approved(date(2026, 11, 2)),))
    assert may_ask(coming, DAY).earliest == date(2026, 11, 2)
    missing = may_ask(Situation(approval_needed=True), DAY)
    assert (missing.earliest, missing.once_done) == (None, DAY)
    assert [reason.code for reason in missing.to_do] == [Code.NO_APPROVAL]


def test_a_colleagues_ask_leaves_thirty_days_free_or_as_many_as_are_set():
    situation = Situation(asks=(PastAsk(date(2026, 9, 20), by="Ana Ruiz"),))
    assert may_ask(situation, DAY).earliest == date(2026, 10, 20)
    assert may_ask(situation, DAY, AskFigures(colleague_days=10)).allowed


def test_a_rest_that_ends_too_late_for_the_need_says_so_in_advance():
    verdict = may_ask(Situation(rest_until=date(2027, 1, 1), needed_by=date(2026, 12, 1), lead_days=21), DAY)
    assert (verdict.earliest, verdict.once_done) == (None, None)
    assert [reason.code for reason in verdict.later] == [Code.TOO_LATE]


def test_an_approval_that_lapses_during_the_rest_is_named():
    situation = Situation(
        rest_until=date(2027, 1, 1), approval_needed=True, approvals=(Approved(date(2026, 8, 1), date(2026, 12, 31)),)
    )
    verdict = may_ask(situation, DAY)
    assert [reason.code for reason in verdict.to_do] == [Code.NO_APPROVAL]
    assert (verdict.earliest, verdict.once_done) == (None, date(2027, 1, 1))


def test_an_approval_that_begins_and_lapses_during_the_rest_has_to_be_fetched_anew():
    november = Approved(date(2026, 11, 1), date(2026, 11, 30))
    situation = Situation(rest_until=date(2027, 1, 1), approval_needed=True, approvals=(november,))
    verdict = may_ask(situation, DAY)
    assert [reason.until for reason in verdict.reasons] == [date(2027, 1, 1), date(2026, 11, 1)]
    assert verdict.later == verdict.to_do == (Reason(Code.NO_APPROVAL, facts={"runs_until": date(2026, 11, 30)}),)


def test_what_holds_now_and_then_is_named_once():
    verdict = may_ask(Situation(rest_until=date(2027, 1, 1), thanks_owed_since=DAY), DAY)
    assert (verdict.later, len(verdict.to_do)) == ((), 1)


def test_the_next_of_several_approvals_counts_and_one_that_ends_before_it_begins_does_not():
    wrong = Approved(date(2026, 10, 20), date(2026, 10, 19))
    approvals = (Approved(date(2027, 2, 1)), wrong, Approved(date(2026, 11, 2), date(2026, 11, 30)))
    verdict = may_ask(Situation(approval_needed=True, approvals=approvals), DAY)
    assert verdict.earliest == verdict.reasons[0].until == date(2026, 11, 2)


def test_of_several_asks_the_one_that_decides_is_named():
    early, late = PastAsk(MARCH, by="Ana Ruiz", waiting=True), PastAsk(date(2026, 9, 20), by="Ben Holt", waiting=True)
    verdict = may_ask(Situation(how_often=HowOften.CALENDAR_YEAR, asks=(early, late, early)), DAY)
    assert [reason.facts["by"] for reason in verdict.reasons] == ["Ben Holt", "Ana Ruiz", "Ben Holt"]


def test_what_a_colleague_was_given_unasked_is_no_ask_of_theirs():
    assert may_ask(Situation(asks=(PastAsk(date(2026, 9, 20), by="Ana Ruiz", unasked=True),)), DAY).allowed


def test_an_ask_entered_for_a_later_day_counts_already():
    tomorrow = PastAsk(date(2026, 10, 7))
    assert may_ask(Situation(how_often=HowOften.CALENDAR_YEAR, asks=(tomorrow,)), DAY).earliest == date(2027, 1, 1)


def test_several_schools_may_ask_when_one_may_and_the_other_is_named_with_its_day():
    free, asked = may_ask(Situation(), DAY), may_ask(Situation(rest_until=date(2027, 1, 1)), DAY)
    unapproved = may_ask(Situation(approval_needed=True), DAY)
    verdict = together({"Millrace": asked, "North Ridge": free, "Riverbend": unapproved})
    assert verdict.allowed
    assert [(one.facts["school"], one.until) for one in verdict.reasons] == [
        ("Millrace", date(2027, 1, 1)),
        ("Riverbend", None),
    ]
    assert together({"Millrace": asked, "North Ridge": asked}) == asked
    (said,) = together({"Millrace": asked, "North Ridge": free, "Riverbend": asked}).reasons
    assert said.facts["school"] == "Millrace, Riverbend"
