"""A visit as it is logged: what follows from each of the seven answers, all of it one event."""

from __future__ import annotations

from datetime import date, time

import pytest

from partners.agenda.check_book import differences
from partners.asking.actions import log_visit
from partners.asking.said import Said
from partners.asking.saved import facts
from partners.directory.actions import add_partner
from partners.directory.models import Contact, Partner
from partners.gifts.models import Thanks
from partners.ground.models import Event
from partners.promises.models import Offer, Promise
from partners.school.approval_models import Approval
from partners.visits.actions import Stop, plan_outing
from partners.visits.models import Ask, FollowUp, OutingStop, Visit
from partners.wish_list.models import Need
from tests.people import TUESDAY, make_school
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db

WEEK_LATER = date(2026, 10, 13)
A_YEAR_LATER = date(2027, 10, 1)


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center")


@pytest.fixture
def pots(desk):
    return Need.objects.create(program=desk.program, what="terracotta pots", unit="pots", needed_by=date(2026, 11, 20))


@pytest.fixture
def log(desk, partner):
    def logged(happened, day=TUESDAY, **values):
        return log_visit(desk=desk, said=Said(**{"where": partner, "happened": happened, "day": day, **values}))

    return logged


def assert_one_event_that_is_taken_back(desk, before):
    assert differences(desk.program) == []
    undo_newest(desk)
    assert rows(desk.program) == before
    assert differences(desk.program) == []


def test_yes_writes_ask_answer_promise_and_thanks(desk, log, pots):
    before = rows(desk.program)
    log("yes", need=pots, quantity=40, due=date(2026, 10, 16), due_hour=time(15, 30))
    ask, promise, thanks = Ask.objects.get(), Promise.objects.get(), Thanks.objects.get()
    assert (ask.answer, ask.what, ask.quantity, ask.needed_by) == ("yes", "terracotta pots", 40, pots.needed_by)
    assert (promise.side, promise.quantity, promise.due, promise.due_hour) == (
        "them",
        40,
        date(2026, 10, 16),
        time(15, 30),
    )
    assert (promise.need, promise.ask, promise.unit) == (pots, ask, "pots")
    assert (thanks.reason, thanks.promise, thanks.due) == ("promise", promise, WEEK_LATER)
    assert Event.objects.count() == 2
    assert_one_event_that_is_taken_back(desk, before)


def test_some_of_it_promises_what_was_said_and_not_what_was_asked(desk, log, pots):
    before = rows(desk.program)
    log("some", need=pots, quantity=12)
    assert (Ask.objects.get().answer, Ask.objects.get().quantity) == ("some", None)
    assert (Promise.objects.get().quantity, Promise.objects.get().due) == (12, WEEK_LATER)
    assert_one_event_that_is_taken_back(desk, before)


def test_maybe_waits_and_is_followed_up(desk, log, pots):
    before = rows(desk.program)
    log("maybe", need=pots)
    assert (Ask.objects.get().answer, FollowUp.objects.get().due) == ("waiting", WEEK_LATER)
    assert not Thanks.objects.exists()
    assert_one_event_that_is_taken_back(desk, before)


def test_maybe_on_a_day_they_named(desk, log, pots):
    log("maybe", need=pots, back_on=date(2026, 10, 24))
    assert (FollowUp.objects.get().due, FollowUp.objects.get().named_day) == (date(2026, 10, 26), True)


def test_no_rests_until_the_same_month_next_year_and_is_thanked_for_considering(desk, log, pots):
    before = rows(desk.program)
    log("no", need=pots, reason="new owner")
    ask, partner = Ask.objects.get(), Partner.objects.get()
    assert (ask.answer, ask.reason, partner.rest_until, partner.never_ask) == ("no", "new owner", A_YEAR_LATER, False)
    assert (Thanks.objects.get().reason, Thanks.objects.get().ask) == ("considering", ask)
    assert_one_event_that_is_taken_back(desk, before)


def test_never_again_closes_whatever_still_waits(desk, log, pots):
    log("maybe", what="paper tubes")
    before = rows(desk.program)
    log("no", need=pots, day=WEEK_LATER, never_again=True)
    assert Partner.objects.get().never_ask
    assert not Ask.objects.waiting().exists()
    assert not FollowUp.objects.open().exists()
    assert_one_event_that_is_taken_back(desk, before)


def test_away_with_the_sheet_left_is_an_ask_that_waits(desk, log, pots):
    before = rows(desk.program)
    log("away", need=pots, sheet_left=True)
    assert (Ask.objects.get().answer, FollowUp.objects.get().ask) == ("waiting", Ask.objects.get())
    assert_one_event_that_is_taken_back(desk, before)


def test_away_without_a_sheet_asked_nobody_and_is_gone_back_to(desk, log, pots):
    before = rows(desk.program)
    log("away", need=pots)
    assert (Ask.objects.count(), FollowUp.objects.get().ask) == (0, None)
    assert FollowUp.objects.get().what == "who decides was away"
    assert_one_event_that_is_taken_back(desk, before)


def test_an_offer_is_promised_for_the_day_they_named(desk, log):
    before = rows(desk.program)
    log("offered", what="cardboard tubes", every="two_weeks", due=date(2026, 10, 9), quantity=20)
    assert (Offer.objects.get().every, Promise.objects.get().due) == ("two_weeks", date(2026, 10, 9))
    assert (Thanks.objects.get().reason, Ask.objects.count()) == ("promise", 0)
    assert_one_event_that_is_taken_back(desk, before)


def test_just_hello_is_a_visit_and_nothing_more(desk, log):
    before = rows(desk.program)
    visit = log("hello", note="New sign over the door.")
    assert (Visit.objects.get(), Partner.objects.get().last_heard_on) == (visit, TUESDAY)
    assert len(rows(desk.program)) == len(before) + 1
    assert_one_event_that_is_taken_back(desk, before)


def test_what_we_promised_stands_on_our_side(desk, log):
    before = rows(desk.program)
    log("yes", what="yarn", our_promise="a window of painted pots", our_due=date(2026, 12, 1))
    ours = Promise.objects.by_us().get()
    assert (ours.what, ours.due, ours.collect) == ("a window of painted pots", date(2026, 12, 1), False)
    assert_one_event_that_is_taken_back(desk, before)


def test_an_answer_goes_to_the_ask_that_waits(desk, log, pots):
    log("maybe", need=pots)
    before = rows(desk.program)
    log("yes", day=WEEK_LATER, quantity=30)
    assert (Ask.objects.get().answer, Ask.objects.get().answered_on) == ("yes", WEEK_LATER)
    assert (Promise.objects.get().need, FollowUp.objects.open().count()) == (pots, 0)
    assert_one_event_that_is_taken_back(desk, before)


def test_another_thing_is_another_ask(log, pots):
    log("maybe", need=pots)
    log("yes", day=WEEK_LATER, what="paper tubes")
    assert sorted(Ask.objects.values_list("what", "answer")) == [("paper tubes", "yes"), ("terracotta pots", "waiting")]


def test_a_yes_of_the_same_day_settles_a_colleagues_maybe_in_either_order(desk, log, pots):
    log("yes", need=pots)
    late = log("maybe", need=pots)
    assert (Ask.objects.get().answer, FollowUp.objects.count()) == ("yes", 0)
    assert "They agreed to terracotta pots that day: nothing to ask again." in facts(desk, late)
    log("maybe", day=WEEK_LATER)
    log("yes", day=WEEK_LATER, what="yarn")
    assert not Ask.objects.waiting().exists()
    assert not FollowUp.objects.open().exists()


def test_a_maybe_to_another_thing_is_asked_again_on_a_day_of_a_yes(log, pots):
    log("yes", what="yarn")
    log("maybe", need=pots)
    assert FollowUp.objects.open().get().what == "terracotta pots"


def test_maybe_again_is_the_first_follow_up_done_and_leaves_a_last_one(desk, log):
    log("maybe", what="yarn")
    before = rows(desk.program)
    log("maybe", day=WEEK_LATER)
    last = FollowUp.objects.open().get()
    assert (last.number, last.due, Ask.objects.count()) == (2, date(2026, 10, 27), 1)
    assert_one_event_that_is_taken_back(desk, before)


def test_maybe_a_third_time_is_looked_after_and_no_longer_followed_up(desk, log):
    log("maybe", what="yarn")
    log("maybe", day=WEEK_LATER)
    log("maybe", day=date(2026, 10, 27))
    assert (FollowUp.objects.open().count(), Ask.objects.get().look_on) == (0, date(2026, 11, 3))
    log("maybe", day=date(2026, 11, 3))
    assert Ask.objects.get().look_on == date(2026, 11, 10)
    assert differences(desk.program) == []


def test_going_back_is_done_by_going(log):
    log("away")
    log("hello", day=WEEK_LATER)
    assert (FollowUp.objects.get().done_on, FollowUp.objects.get().outcome) == (WEEK_LATER, "Just hello")


def test_away_again_moves_the_follow_up_and_does_not_use_it_up(log):
    log("maybe", what="yarn")
    log("away", day=WEEK_LATER)
    assert (FollowUp.objects.get().number, FollowUp.objects.get().due) == (1, date(2026, 10, 20))


def test_an_unknown_name_is_a_new_partner_and_the_event_is_about_the_visit(desk, log):
    before = rows(desk.program)
    visit = log("hello", where="Marigold Framing", met="Dana Whitlock")
    assert (visit.partner.name, visit.contact.name) == ("Marigold Framing", "Dana Whitlock")
    assert Event.objects.latest("pk").about() == visit
    assert_one_event_that_is_taken_back(desk, before)


def test_somebody_known_by_another_spelling_is_not_added_twice(log, partner):
    log("hello", met="Zoë Núñez")
    log("hello", met="zoe nunez")
    assert Contact.objects.get().partner == partner


def test_the_place_on_the_outing_is_ticked(desk, log, partner, pots):
    from partners.asking.gather import verdicts

    verdict = verdicts(desk, [partner], TUESDAY, pots)[partner.pk]
    outing = plan_outing(desk=desk, day=TUESDAY, stops=[Stop(partner, pots, verdict)])
    before = rows(desk.program)
    visit = log("hello", stop=outing.stops.get())
    assert OutingStop.objects.get().visit == visit
    assert_one_event_that_is_taken_back(desk, before)


def test_the_standing_approval_of_the_school_stands_under_the_ask(desk, log):
    school = make_school(desk.program)
    approval = Approval.objects.create(program=desk.program, school=school, by="Ms. Ibarra", on=date(2026, 8, 20))
    log("maybe", what="yarn")
    assert (Ask.objects.get().approval, Ask.objects.get().school) == (approval, school)
