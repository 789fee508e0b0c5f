"""What the record knows about asking a partner, and how many questions it takes to find out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from partners.asking.actions import log_visit
from partners.asking.gather import gather, situation, situations, verdicts
from partners.asking.may_ask import PastAsk
from partners.asking.reasons import Code
from partners.asking.said import Said
from partners.asking.shown import show, thaw
from partners.directory.actions import add_partner
from partners.funding.grant_models import Grant
from partners.gifts.actions import Line, receive
from partners.gifts.models import Thanks
from partners.gifts.thanks_actions import thanks_said
from partners.program.desk import Desk
from partners.promises.models import Promise
from partners.school.approval_models import Approval
from partners.school.project_actions import edit_project
from partners.school.project_models import Project
from partners.visits.frozen_verdict import freeze
from partners.wish_list.models import Need
from tests.people import TUESDAY, make_desk, make_partner, make_school

pytestmark = pytest.mark.django_db


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center")


def log(desk, partner, happened, **values):
    return log_visit(desk=desk, said=Said(where=partner, happened=happened, day=desk.day, **values))


def codes(desk, partner, **values):
    return {reason.code for reason in verdicts(desk, [partner], desk.day, **values)[partner.pk].reasons}


def test_a_new_partner_may_be_asked(desk, partner):
    assert verdicts(desk, [partner], TUESDAY)[partner.pk].allowed


def test_a_waiting_ask_and_owed_thanks_speak_against_it(desk, partner):
    log(desk, partner, "maybe", what="yarn")
    assert codes(desk, partner) == {Code.OPEN_ASK}
    log(desk, partner, "yes")
    assert codes(desk, partner) == {Code.THANKS_OWED}


def test_a_no_rests_and_a_never_is_for_good(desk, partner):
    log(desk, partner, "no", what="yarn")
    partner.refresh_from_db()
    found = verdicts(desk, [partner], TUESDAY)[partner.pk]
    assert (found.earliest, found.allowed) == (date(2027, 10, 1), False)
    log(desk, partner, "no", what="pots", never_again=True)
    partner.refresh_from_db()
    assert Code.NEVER_ASK in codes(desk, partner)


def test_after_a_gift_a_partner_rests_twelve_months_from_the_day_it_came(desk, partner):
    log(desk, partner, "yes", what="yarn", quantity=5)
    gift = receive(
        desk=desk,
        source="partner",
        partner=partner,
        day=date(2026, 10, 20),
        form="goods",
        lines=[Line(description="yarn", quantity=5, promise=Promise.objects.get())],
    )
    thanks_said(desk=desk, thanks=Thanks.objects.get(gift=gift), day=date(2026, 10, 21))
    known = situation(desk, partner)
    assert (known.rest_until, known.rest_why) == (date(2027, 10, 20), "they gave last time")
    assert [ask.unasked for ask in known.asks] == [False]
    assert verdicts(desk, [partner], date(2026, 10, 22))[partner.pk].earliest == date(2027, 10, 20)


def test_a_gift_nobody_asked_for_uses_up_a_turn(desk, partner):
    receive(desk=desk, source="partner", partner=partner, day=TUESDAY, form="goods", lines=[Line(description="frames")])
    assert situation(desk, partner).asks == (PastAsk(TUESDAY, None, unasked=True),)


@pytest.mark.parametrize("values", [{"trade": True}, {"form": "loan"}])
def test_what_came_in_a_trade_or_on_loan_is_no_gift_to_rest_after(desk, partner, values):
    receive(desk=desk, source="partner", partner=partner, day=TUESDAY, **{"form": "goods", **values})
    assert situation(desk, partner).rest_until is None


def test_a_gift_whose_project_has_become_nothing_yet_is_a_caution(desk, partner):
    project = Project.objects.create(program=desk.program, title="Pot garden")
    receive(desk=desk, source="partner", partner=partner, day=TUESDAY, form="goods", project=project)
    assert situation(desk, partner).result_owed_since == TUESDAY
    edit_project(desk=desk, project=project, what_it_became="Forty children planted a garden of pots.")
    assert situation(desk, partner).result_owed_since is None


def test_the_need_brings_its_day_and_its_school(desk, partner):
    millrace, ridge = make_school(desk.program), make_school(desk.program, "North Ridge Elementary")
    need = Need.objects.create(program=desk.program, what="yarn", needed_by=date(2026, 11, 2), school=ridge)
    Approval.objects.create(program=desk.program, school=millrace, by="Ms. Ibarra", on=TUESDAY)
    known = situation(desk, partner, need)
    assert (known.school, known.needed_by, known.approval_needed, known.approvals) == (
        ridge.pk,
        need.needed_by,
        True,
        (),
    )
    assert codes(desk, partner, need=need) == {Code.NO_APPROVAL}
    assert codes(desk, partner, school=millrace) == set()


def test_a_colleagues_ask_is_named_and_the_teachers_own_is_not(program, june, omar, partner):
    at_junes = replace(make_desk(program), user=june.user)
    at_omars = replace(make_desk(program), user=omar.user)
    log(at_junes, partner, "no", what="yarn")
    assert [ask.by for ask in situation(at_junes, partner).asks] == [""]
    assert [ask.by for ask in situation(at_omars, partner).asks] == ["June"]


def test_an_ask_for_another_school_counts_though_the_person_does_not_teach_there(program, partner):
    millrace, ridge = make_school(program), make_school(program, "North Ridge Elementary")
    log(make_desk(program), partner, "maybe", what="yarn", school=millrace)
    narrow = Desk(program=program, day=TUESDAY, school_ids=frozenset({ridge.pk}))
    assert not narrow.asks.exists()
    assert len(situation(narrow, partner).asks) == 1


def test_nothing_of_another_program_is_known(desk, otto, partner):
    theirs = make_desk(otto.program)
    log(theirs, make_partner(otto.program, "Riverbend Garden Center"), "maybe", what="yarn")
    assert situation(desk, partner).asks == ()


def test_many_partners_take_as_many_queries_as_one(desk):
    def count(partners):
        with CaptureQueriesContext(connection) as counted:
            assert len(situations(desk, partners)) == len(partners)
        return len(counted)

    partners = [add_partner(desk=desk, name=f"Place {n}") for n in range(40)]
    for partner in partners:
        log(desk, partner, "maybe", what="yarn")
    assert count(partners[:1]) == count(partners) <= 10


def test_a_frozen_verdict_thaws_as_it_was(desk, partner):
    log(desk, partner, "no", what="yarn")
    partner.refresh_from_db()
    verdict = gather(desk, [partner]).verdict(partner, TUESDAY)
    assert thaw(freeze(verdict)) == verdict
    assert show(thaw(freeze(verdict)), partner.name).sentences


def test_after_an_award_a_grantmaker_rests_as_after_a_gift(desk, partner):
    given = {"state": "awarded", "awarded_cents": 50_000, "asked_on": date(2026, 9, 1), "answered_on": TUESDAY}
    Grant.objects.create(program=desk.program, partner=partner, title="clay", **given)
    assert situation(desk, partner).rest_until == date(2027, 10, 6)
