"""The sentences of a verdict: every code has words, and each names its facts."""

from datetime import date

import pytest
from django.utils.translation import override

from partners.asking import words
from partners.asking.may_ask import Approved, HowOften, PastAsk, Situation, may_ask
from partners.asking.quiet import HINTS
from partners.asking.reasons import DOABLE, Code, Reason

DAY = date(2026, 10, 6)
MARCH = date(2026, 3, 3)
PLACE = "Riverbend Garden Center"


@pytest.fixture(autouse=True)
def english():
    with override("en-us"):
        yield


def said(day=DAY, **facts):
    return words.answer(may_ask(Situation(**facts), day), PLACE)


def test_every_code_has_words():
    assert set(words.CLAUSES) == set(Code)
    assert set(words.TO_DO) == set(DOABLE)
    assert set(words.RULES) == set(HowOften) - {HowOften.NO_RULE}
    assert {busy.code for hints in HINTS.values() for busy in hints} == set(words.HINTS)


def test_yes_is_short():
    assert said() == "Yes: you may ask Riverbend Garden Center."


def test_yes_with_something_to_tell_first():
    assert said(result_owed_since=MARCH) == (
        "Yes: you may ask Riverbend Garden Center. Before you do: nobody has told Riverbend Garden Center yet what "
        "their gift of March 3, 2026 became."
    )


def test_their_own_rule_names_the_ask_and_the_earliest_day():
    assert said(how_often=HowOften.CALENDAR_YEAR, asks=(PastAsk(MARCH),)) == (
        "Not yet: you asked Riverbend Garden Center on March 3, 2026, and they give once a calendar year. "
        "Earliest: January 1, 2027."
    )


@pytest.mark.parametrize(
    ("ask", "how_often", "part"),
    [
        (
            PastAsk(MARCH, by="Ana Ruiz"),
            HowOften.FISCAL_YEAR,
            "Ana Ruiz asked Riverbend Garden Center on March 3, 2026",
        ),
        (
            PastAsk(MARCH, unasked=True),
            HowOften.TWO_YEARS,
            "Center gave on March 3, 2026 without being asked, and they",
        ),
        (PastAsk(MARCH, by="Ana Ruiz", waiting=True), HowOften.NO_RULE, "Ana Ruiz’s ask of March 3, 2026 still waits"),
        (
            PastAsk(date(2026, 9, 20), by="Ana Ruiz"),
            HowOften.NO_RULE,
            "and we leave time between asks. Earliest: October 20",
        ),
    ],
)
def test_who_asked_or_gave_is_said(ask, how_often, part):
    assert part in said(how_often=how_often, asks=(ask,))


def test_a_rest_gives_its_reason_where_there_is_one():
    until = date(2027, 3, 1)
    assert said(rest_until=until).startswith("Not yet: don’t ask Riverbend Garden Center before March 1, 2027. Earl")
    assert "before March 1, 2027 (new owner)." in said(rest_until=until, rest_why="new owner")


def test_never_ask_is_a_no_without_a_day():
    assert said(never_ask=True) == "No: Riverbend Garden Center is marked “never ask”."


def test_thanks_come_first_and_the_day_after_that_is_given():
    assert said(thanks_owed_since=MARCH, rest_until=date(2027, 3, 1)) == (
        "Not yet: don’t ask Riverbend Garden Center before March 1, 2027; thanks have been owed to Riverbend Garden "
        "Center since March 3, 2026. First: write the thanks. Earliest: March 1, 2027."
    )


def test_what_can_be_done_today_needs_no_earliest_day():
    assert said(approval_needed=True) == (
        "Not yet: no approval to ask is recorded. First: get the approval and record it."
    )


def test_an_approval_to_come_is_named():
    assert said(approval_needed=True, approvals=(Approved(date(2026, 11, 2)),)) == (
        "Not yet: the approval to ask begins on November 2, 2026. Earliest: November 2, 2026."
    )


@pytest.mark.parametrize(
    ("lead_days", "notice"),
    [
        (1, "1 day ahead, so with some days to spare the last day to ask is October 2, 2026."),
        (2, "2 days ahead, so with some days to spare the last day to ask is October 1, 2026."),
    ],
)
def test_too_late_says_what_the_last_day_was(lead_days, notice):
    sentence = said(needed_by=date(2026, 10, 10), lead_days=lead_days)
    assert sentence.startswith(
        "Not for this need: it is needed by October 10, 2026 and they want to be asked " + notice
    )
    assert sentence.endswith("2026. That is too late for this need: try next year.")


def test_a_need_that_is_over_says_so_without_a_lead_time():
    assert said(needed_by=date(2026, 10, 5)) == (
        "Not for this need: it is needed by October 5, 2026. That is too late for this need: try next year."
    )


def test_too_late_after_the_rest_is_said_in_advance():
    sentence = said(rest_until=date(2027, 1, 1), needed_by=date(2026, 12, 1), lead_days=21)
    assert sentence.startswith("Not yet: don’t ask")
    assert "And by then: it is needed by December 1, 2026" in sentence
    assert sentence.endswith("try next year.")
    assert "Earliest" not in sentence


def test_an_approval_that_ends_meanwhile_is_to_be_renewed():
    approvals = (Approved(date(2026, 8, 3), date(2027, 6, 16)),)
    sentence = said(rest_until=date(2027, 10, 1), approval_needed=True, approvals=approvals)
    assert (
        "And by then: there is approval to ask only until June 16, 2027. First: have the approval renewed" in sentence
    )


def test_a_name_that_looks_like_a_placeholder_stays_a_name():
    reason = Reason(Code.THANKS_OWED, None, {"on": MARCH})
    assert words.clause(reason, "100%(on)s Cotton") == "thanks have been owed to 100%(on)s Cotton since March 3, 2026"


def test_a_hint_of_the_programs_own_stands_for_itself():
    assert words.hint("tax_season") == "it is tax season"
    assert words.hint("closed Mondays") == "closed Mondays"


@pytest.mark.parametrize(
    ("facts", "words_said"),
    [
        ({}, "You may ask"),
        ({"never_ask": True}, "They asked not to be asked"),
        ({"rest_until": date(2027, 3, 1)}, "Not yet: from March 1, 2027"),
        ({"thanks_owed_since": MARCH}, "Not yet: first write the thanks"),
        ({"needed_by": date(2026, 10, 10), "lead_days": 30}, "Too late for this need: try next year"),
    ],
)
def test_in_front_of_the_door_a_few_words_are_enough(facts, words_said):
    assert words.short(may_ask(Situation(**facts), DAY)) == words_said
