"""What came, the thanks owed for it, and whom it still has to pass; each verb is taken back without a trace."""

from datetime import date

import pytest
from django.db import IntegrityError, transaction

from partners.agenda.check_book import differences
from partners.gifts import actions
from partners.gifts.actions import Line, LineEdit
from partners.gifts.models import Gift, ThanksFor
from partners.gifts.thanks_actions import owe_thanks, thanks_said
from partners.ground.models import Event
from partners.promises.actions import make_offer, promise
from partners.promises.models import Settled, Side
from partners.school.approval_models import AcceptanceRule
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
def school(program):
    return people.make_school(program)


@pytest.fixture
def pots(desk, garden, school):
    return promise(
        desk=desk, partner=garden, side=Side.THEM, what="terracotta pots", due=FRIDAY, made_on=DAY, quantity=60,
        school=school,
    )  # fmt: skip


def arrived(desk, partner=None, **values):
    given = {"source": "partner" if partner else "families", "day": DAY, "form": "goods", "partner": partner, **values}
    given.setdefault("lines", [Line(description="yarn")])
    return actions.receive(desk=desk, **given)


def check(amount, **values):
    return {"form": "money", "amount_cents": amount, "money_kind": "check", "lines": [], **values}


def went_back(desk, before):
    undo_newest(desk)
    return rows(desk.program) == before


# What came


def test_a_gift_delivers_what_was_promised_and_owes_thanks(desk, program, garden, school, pots):
    before = rows(program)
    line = Line(description="terracotta pots", quantity=60, promise=pots)
    gift = arrived(desk, garden, school=school, lines=[line])
    owed = gift.thanks
    assert (pots.settled_how, gift.what, owed.reason) == (Settled.CAME, "60 terracotta pots", ThanksFor.GIFT)
    assert (owed.due, owed.late_from) == (date(2026, 10, 13), date(2026, 10, 21))
    assert differences(program) == []
    assert str(Event.objects.latest("pk")) == "What came from Riverbend Garden Center written down"
    assert went_back(desk, before)


def test_less_than_promised_leaves_the_rest_promised(desk, program, garden, pots):
    arrived(desk, garden, lines=[Line(description="pots", quantity=24, promise=pots)])
    assert (pots.delivered, pots.missing, pots.settled_on) == (24, 36, None)


def test_two_lines_for_one_promise_go_back_together(desk, program, garden, pots):
    before = rows(program)
    half = Line(description="pots", quantity=30, promise=pots)
    arrived(desk, garden, lines=[half, half])
    assert pots.settled_how == Settled.CAME
    assert went_back(desk, before)


def test_what_families_gave_names_nobody_and_owes_no_letter(desk, program, garden):
    before = rows(program)
    arrived(desk, lines=[Line(description="egg cartons", quantity=40)])
    assert not desk.thanks.exists()
    with pytest.raises(IntegrityError), transaction.atomic():
        arrived(desk, garden, source="families")
    assert went_back(desk, before)


def test_a_partner_that_gave_was_heard_of(desk, garden):
    arrived(desk, garden, day=date(2026, 10, 2))
    garden.refresh_from_db()
    assert garden.last_heard_on == date(2026, 10, 2)


def test_it_came_just_as_promised(desk, program, garden, school, pots):
    before = rows(program)
    gift = actions.receive_promised(desk=desk, promise=pots, day=FRIDAY)
    assert (gift.what, gift.school, pots.settled_how) == ("60 terracotta pots", school, Settled.CAME)
    assert went_back(desk, before)


def test_a_promised_amount_may_come_in_two_parts(desk, program, garden):
    pledge = promise(
        desk=desk, partner=garden, side=Side.THEM, what="clay", due=FRIDAY, made_on=DAY, amount_cents=20000
    )
    arrived(desk, garden, **check(5000, lines=[Line(description="clay", promise=pledge)]))
    assert (pledge.settled_on, actions.still_to_pay(pledge)) == (None, 15000)
    gift = actions.receive_promised(desk=desk, promise=pledge, day=FRIDAY)
    assert (gift.amount_cents, pledge.settled_how) == (15000, Settled.CAME)


def test_what_a_standing_offer_brought_calls_up_the_next(desk, garden):
    offer = make_offer(desk=desk, partner=garden, what="tubes", first_on=FRIDAY, every="month")
    actions.receive_promised(desk=desk, promise=offer.promises.get(), day=FRIDAY)
    assert desk.promises.open().get().due == date(2026, 11, 9)


# Thanks


def test_thanks_over_a_closed_week(desk, program, garden, school):
    # Counted by hand on the calendar of November 2026: 25 to 27 closed. Due, overdue from, late from.
    SchoolDays.objects.create(program=program, school=school, first=date(2026, 11, 25), last=date(2026, 11, 27))
    owed = arrived(desk, garden, day=date(2026, 11, 20), school=school).thanks
    assert (owed.due, owed.late_from) == (date(2026, 12, 2), date(2026, 12, 10))


def test_thanks_for_a_promise_become_those_for_what_came_of_it(desk, program, garden, pots):
    early = owe_thanks(desk=desk, partner=garden, reason=ThanksFor.PROMISE, base=DAY, promise=pots)
    other = owe_thanks(desk=desk, partner=garden, reason=ThanksFor.CONSIDERING, base=DAY)
    before = rows(program)
    gift = arrived(desk, garden, lines=[Line(description="pots", quantity=60, promise=pots)], day=FRIDAY)
    assert gift.thanks.pk == early.pk
    assert (gift.thanks.reason, gift.thanks.base, gift.thanks.promise) == (ThanksFor.GIFT, FRIDAY, None)
    assert set(desk.thanks.owed()) == {early, other}
    assert went_back(desk, before)


def test_a_promise_thanked_for_before_owes_thanks_for_what_comes(desk, program, garden, pots):
    early = owe_thanks(desk=desk, partner=garden, reason=ThanksFor.PROMISE, base=DAY, promise=pots)
    thanks_said(desk=desk, thanks=early, day=DAY, how="letter")
    gift = arrived(desk, garden, lines=[Line(description="pots", quantity=60, promise=pots)])
    assert list(desk.thanks.owed()) == [gift.thanks] != [early]


@pytest.mark.parametrize(
    ("other", "owed"),
    [({}, 0), ({"day": FRIDAY}, 1), ({"gave_back": "a tile"}, 1), ({"form": "money", "amount_cents": 900}, 1)],
)
def test_one_thank_you_is_for_all_that_one_letter_can_thank_for(desk, program, garden, other, owed):
    first, second = arrived(desk, garden), arrived(desk, garden, **other)
    arrived(desk, people.make_partner(program, "Bluebird Bakery"))
    before = rows(program)
    thanks_said(desk=desk, thanks=first.thanks, day=FRIDAY, how="letter")
    assert desk.thanks.owed().filter(gift=second).count() == owed
    assert desk.thanks.owed().count() == owed + 1
    assert went_back(desk, before)


# Whom it still has to pass


@pytest.fixture
def board(program, school):
    AcceptanceRule.objects.create(program=program, school=school, from_cents=10_000, who="The principal")
    AcceptanceRule.objects.create(program=program, school=school, from_cents=50_000, who="The board")


@pytest.mark.parametrize(
    ("cents", "who"), [(9_999, ""), (10_000, "The principal"), (49_999, "The principal"), (50_000, "The board")]
)
@pytest.mark.usefixtures("board")
def test_the_highest_rule_that_the_value_reaches(desk, garden, school, cents, who):
    money = arrived(desk, garden, school=school, **check(cents))
    goods = arrived(desk, garden, school=school, given_value_cents=cents)
    assert money.accept_by_whom == goods.accept_by_whom == who
    assert money.accept_due == (date(2026, 10, 20) if who else None)


@pytest.mark.usefixtures("board")
def test_a_gift_to_no_school_in_particular_answers_to_all_rules(desk, garden):
    assert arrived(desk, garden, **check(60_000)).accept_by_whom == "The board"


@pytest.mark.usefixtures("board")
def test_nobody_accepts_what_is_only_lent(desk, garden, school):
    lent = arrived(desk, garden, school=school, form="loan", given_value_cents=90_000, return_on=FRIDAY)
    assert (lent.accept_due, lent.return_on) == (None, FRIDAY)


def test_a_rule_for_every_gift_needs_no_value(desk, program, garden, school):
    AcceptanceRule.objects.create(program=program, school=school, from_cents=0, who="The office")
    assert arrived(desk, garden, school=school).accept_by_whom == "The office"


@pytest.mark.usefixtures("board")
def test_accepting_takes_it_off_the_list(desk, program, garden, school):
    gift = arrived(desk, garden, school=school, **check(50_000))
    before = rows(program)
    actions.accept(desk=desk, gift=gift, day=FRIDAY)
    assert not desk.gifts.to_accept().exists()
    assert went_back(desk, before)


@pytest.mark.usefixtures("board")
def test_a_day_the_board_named_stays(desk, program, garden, school):
    gift = arrived(desk, garden, school=school, **check(50_000))
    before = rows(program)
    actions.move_acceptance(desk=desk, gift=gift, due=date(2026, 11, 10))
    assert went_back(desk, before)
    actions.move_acceptance(desk=desk, gift=Gift.objects.get(), due=date(2026, 11, 10))
    actions.edit_gift(desk=desk, gift=Gift.objects.get(), day=FRIDAY)
    assert Gift.objects.get().accept_due == date(2026, 11, 10)


def test_money_goes_to_the_office_on_the_next_school_day(desk, program, garden):
    gift = arrived(desk, garden, day=FRIDAY, **check(2_500))
    before = rows(program)
    assert gift.hand_in_due == date(2026, 10, 12)
    actions.hand_in(desk=desk, gift=gift, day=date(2026, 10, 12), receipt_number="114")
    assert (gift.handed_in_on, gift.receipt_number) == (date(2026, 10, 12), "114")
    assert went_back(desk, before)


def test_a_loan_goes_back(desk, program, garden):
    lent = arrived(desk, garden, form="loan", return_on=FRIDAY)
    before = rows(program)
    actions.move_return(desk=desk, gift=lent, due=date(2026, 11, 2))
    assert (lent.return_on, went_back(desk, before)) == (date(2026, 11, 2), True)
    lent.refresh_from_db()
    actions.return_loan(desk=desk, gift=lent, day=FRIDAY)
    assert lent.returned_on == FRIDAY


# Put right


def test_another_number_puts_the_promise_right_too(desk, program, garden, pots):
    gift = arrived(desk, garden, lines=[Line(description="pots", quantity=60, promise=pots)])
    before = rows(program)
    line = gift.lines.get()
    actions.edit_gift(desk=desk, gift=gift, lines=[LineEdit(row=line, description="small pots", quantity=6)])
    pots.refresh_from_db()
    assert (gift.what, pots.delivered, pots.settled_on) == ("6 small pots", 6, None)
    assert differences(program) == []
    assert went_back(desk, before)


def test_a_line_without_words_is_taken_out_with_its_delivery(desk, program, garden, pots):
    gift = arrived(desk, garden, lines=[Line(description="pots", quantity=60, promise=pots)])
    before = rows(program)
    edits = [LineEdit(row=gift.lines.get(), description=""), LineEdit(row=None, description="soil", quantity=2)]
    actions.edit_gift(desk=desk, gift=gift, lines=edits)
    pots.refresh_from_db()
    assert (gift.what, pots.delivered, pots.settled_on, pots.deliveries.count()) == ("2 soil", 0, None, 0)
    assert went_back(desk, before)


def test_another_day_moves_every_day_that_follows_from_it(desk, program, garden):
    gift = arrived(desk, garden, **check(2_500))
    before = rows(program)
    actions.edit_gift(desk=desk, gift=gift, day=date(2026, 10, 5), seen=1)
    owed = desk.thanks.get()
    assert (owed.due, gift.hand_in_due) == (date(2026, 10, 12), date(2026, 10, 6))
    assert differences(program) == []
    assert went_back(desk, before)


def test_the_database_wants_money_with_its_amount_and_nothing_else_with_one(desk, garden):
    for values in ({"form": "money"}, {"form": "goods", "amount_cents": 100}):
        with pytest.raises(IntegrityError), transaction.atomic():
            arrived(desk, garden, **values)
    assert Gift.objects.count() == 0
