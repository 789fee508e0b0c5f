"""What is promised, what of it came, and how it ends; each verb is taken back without a trace."""

from dataclasses import replace
from datetime import date, time

import pytest
from django.db import IntegrityError, transaction

from partners.agenda.check_book import differences
from partners.gifts.models import ThanksFor
from partners.gifts.thanks_actions import owe_thanks, thanks_said
from partners.ground.changes import ChangedMeanwhile
from partners.ground.models import Event
from partners.letters.models import Letter
from partners.promises import actions
from partners.promises.models import Promise, Settled, Side
from partners.school.models import SchoolDays
from tests import people
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
FRIDAY = date(2026, 10, 9)


@pytest.fixture(autouse=True)
def sound_book(program):
    """Whatever a verb did, what the book keeps ready still follows from the record."""
    yield
    assert differences(program) == []


@pytest.fixture
def garden(program):
    return people.make_partner(program)


@pytest.fixture
def pots(desk, garden):
    return actions.promise(
        desk=desk, partner=garden, side=Side.THEM, what="terracotta pots", due=FRIDAY, made_on=DAY, quantity=60
    )


def test_a_promise_keeps_the_day_that_was_said(desk, program, garden):
    saturday = date(2026, 10, 10)
    before = rows(program)
    made = actions.promise(desk=desk, partner=garden, side=Side.US, what="seed packets", due=saturday, made_on=DAY)
    assert (made.due, made.side, made.settled_on) == (saturday, Side.US, None)
    assert str(Event.objects.latest("pk")) == "We promised seed packets to Riverbend Garden Center"
    undo_newest(desk)
    assert rows(program) == before


def test_a_part_leaves_the_rest_promised(desk, program, pots):
    before = rows(program)
    actions.deliver(desk=desk, promise=pots, day=FRIDAY, quantity=40)
    assert (pots.delivered, pots.missing, pots.settled_on) == (40, 20, None)
    undo_newest(desk)
    assert rows(program) == before


def test_the_smaller_number_settles_it(desk, program, garden):
    some = actions.promise(
        desk=desk, partner=garden, side=Side.THEM, what="tubes", due=FRIDAY, made_on=DAY, quantity=40, at_most=60
    )
    before = rows(program)
    actions.deliver(desk=desk, promise=some, day=FRIDAY, quantity=45)
    assert (some.delivered, some.settled_on, some.settled_how) == (45, FRIDAY, Settled.CAME)
    undo_newest(desk)
    assert rows(program) == before


def test_without_a_number_anything_settles_it_unless_more_is_to_come(desk, garden):
    scraps = actions.promise(desk=desk, partner=garden, side=Side.THEM, what="scraps", due=FRIDAY, made_on=DAY)
    actions.deliver(desk=desk, promise=scraps, day=DAY, part=True)
    assert scraps.settled_on is None
    actions.deliver(desk=desk, promise=scraps, day=FRIDAY)
    assert scraps.settled_how == Settled.CAME


def test_an_uncounted_delivery_does_not_settle_a_counted_promise(desk, pots):
    actions.deliver(desk=desk, promise=pots, day=FRIDAY)
    assert (pots.delivered, pots.settled_on) == (0, None)


def test_what_comes_after_it_was_closed_still_counts(desk, pots):
    actions.never_came(desk=desk, promise=pots, day=FRIDAY)
    actions.deliver(desk=desk, promise=pots, day=date(2026, 11, 2), quantity=10)
    assert (pots.delivered, pots.settled_on, pots.settled_how) == (10, FRIDAY, Settled.THAT_WAS_ALL)
    actions.deliver(desk=desk, promise=pots, day=date(2026, 11, 3), quantity=50)
    assert pots.settled_how == Settled.CAME


def test_that_was_all_counts_as_kept(desk, program, pots):
    actions.deliver(desk=desk, promise=pots, day=FRIDAY, quantity=40)
    before = rows(program)
    actions.that_was_all(desk=desk, promise=pots, day=FRIDAY)
    assert list(desk.promises.kept()) == [pots]
    assert str(Event.objects.latest("pk")) == "That was all: terracotta pots, Riverbend Garden Center"
    undo_newest(desk)
    assert rows(program) == before


def test_what_never_came_is_not_thanked_for_any_more(desk, program, pots):
    owed = {"desk": desk, "partner": pots.partner, "reason": ThanksFor.PROMISE, "base": DAY, "promise": pots}
    said = thanks_said(desk=desk, thanks=owe_thanks(**owed), day=DAY)
    unsaid = owe_thanks(**owed)
    letter = Letter.objects.create(program=program, document="gratitude-letter", title="A", day=DAY, thanks=unsaid)
    before = rows(program)
    actions.never_came(desk=desk, promise=pots, day=FRIDAY)
    letter.refresh_from_db()
    assert (list(desk.thanks.all()), letter.thanks_id, pots.settled_how) == ([said], None, Settled.NEVER_CAME)
    undo_newest(desk)
    assert rows(program) == before


def test_moving_asks_for_the_version_that_was_seen(desk, program, pots):
    before = rows(program)
    actions.move_promise(desk=desk, promise=pots, due=date(2026, 10, 16), seen=1)
    assert Promise.objects.get(pk=pots.pk).due == date(2026, 10, 16)
    with pytest.raises(ChangedMeanwhile):
        actions.move_promise(desk=desk, promise=pots, due=DAY, seen=1)
    undo_newest(desk)
    assert rows(program) == before


def test_a_closed_promise_is_not_closed_twice(desk, pots):
    actions.that_was_all(desk=desk, promise=pots, day=FRIDAY)
    with pytest.raises(ChangedMeanwhile):
        actions.never_came(desk=desk, promise=pots, day=FRIDAY)


def test_the_database_refuses_a_range_the_wrong_way_round(program, pots):
    with pytest.raises(IntegrityError), transaction.atomic():
        Promise.objects.filter(pk=pots.pk).update(at_most=10)


# Offers


def tubes(desk, garden, **values):
    given = {"what": "cardboard tubes", "first_on": FRIDAY, "every": "two_weeks", "hour": time(15, 30), **values}
    return actions.make_offer(desk=desk, partner=garden, **given)


def test_an_offer_is_one_event_with_its_first_promise(desk, program, garden):
    before = rows(program)
    offer = tubes(desk, garden, quantity=20)
    first = offer.promises.get()
    assert (first.due, first.due_hour, first.quantity, first.side) == (FRIDAY, time(15, 30), 20, Side.THEM)
    assert Event.objects.count() == 1
    undo_newest(desk)
    assert rows(program) == before


def test_settling_writes_the_next_on_a_school_day(desk, program, garden):
    school = people.make_school(program)
    SchoolDays.objects.create(program=program, school=school, first=date(2026, 10, 23), last=date(2026, 10, 23))
    first = tubes(desk, garden, school=school).promises.get()
    before = rows(program)
    actions.deliver(desk=desk, promise=first, day=FRIDAY)
    following = desk.promises.open().get()
    assert (following.due, following.due_hour, following.turn) == (date(2026, 10, 26), time(15, 30), 1)
    undo_newest(desk)
    assert rows(program) == before


def test_skipping_writes_the_next_counted_from_the_first_day(desk, program, garden):
    first = tubes(desk, garden).promises.get()
    actions.move_promise(desk=desk, promise=first, due=date(2026, 10, 7))
    before = rows(program)
    actions.skip(desk=desk, promise=first, day=DAY)
    assert desk.promises.open().get().due == date(2026, 10, 23)
    undo_newest(desk)
    assert rows(program) == before


def test_what_was_missed_is_not_called_up_again(desk, garden):
    first = tubes(desk, garden, every="week").promises.get()
    actions.never_came(desk=desk, promise=first, day=date(2026, 11, 4))
    assert desk.promises.open().get().due == date(2026, 11, 6)


def test_an_offer_ends_by_itself_after_its_last_day(desk, program, garden):
    offer = tubes(desk, garden, ends_on=date(2026, 10, 22))
    before = rows(program)
    actions.that_was_all(desk=desk, promise=offer.promises.get(), day=FRIDAY)
    offer.refresh_from_db()
    assert (desk.promises.open().count(), offer.ended_on) == (0, FRIDAY)
    undo_newest(desk)
    assert rows(program) == before


def test_an_offer_made_once_has_no_next(desk, garden):
    actions.deliver(desk=desk, promise=tubes(desk, garden, every="").promises.get(), day=FRIDAY)
    assert not desk.promises.open().exists()


def test_ending_an_offer_skips_only_what_is_still_ahead(desk, program, garden):
    offer = tubes(desk, garden)
    before = rows(program)
    actions.end_offer(desk=desk, offer=offer, day=DAY)
    assert (offer.promises.get().settled_how, offer.ended_on) == (Settled.SKIPPED, DAY)
    undo_newest(desk)
    assert rows(program) == before
    offer.refresh_from_db()
    actions.end_offer(desk=replace(desk, day=date(2026, 10, 12)), offer=offer, day=date(2026, 10, 12))
    assert desk.promises.open().count() == 1
