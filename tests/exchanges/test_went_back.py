"""Plain items that went back: 40 pots came, 36 are decorated, 2 broke, 2 went back as they were."""

from datetime import date

import pytest
import time_machine
from django.urls import reverse

from outreach.documents import trade_receipt
from outreach.gathering.trade import gather_receipt
from partners.agenda.check_book import differences
from partners.exchanges.actions import PlainItems, call_off
from partners.exchanges.count_actions import close_part, deliver_part, tally
from partners.exchanges.counts import year_counts
from partners.exchanges.models import TradeClass
from partners.exchanges.trade_page import stock
from partners.promises.models import Settled, Side
from tests import people
from tests.exchanges.trades import DAY, PLAIN_DUE, make_trade
from tests.ladder import flat
from tests.outreach.sheets import Printed
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
THEIRS = PlainItems(side=Side.THEM, what="plain pots", due=PLAIN_DUE, quantity=40)
BACK = {"quantity": "36", "went_back": "2", "day": "2026-10-06", "once": "a"}


@pytest.fixture(autouse=True)
def tuesday():
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def trade(desk):
    made = make_trade(desk, what="decorated pots", at_least=40, at_most=None, plain=THEIRS)
    deliver_part(desk=desk, promise=made.plain, day=DAY, quantity=40)
    return made


def send(client, trade, **values):
    address = reverse("exchanges:part-deliver", args=[trade.make.pk])
    return flat(client.post(address, {**BACK, **values}, follow=True))


def test_what_went_back_is_one_number_beside_what_is_handed_over(signed_in, desk, program, trade):
    school = people.make_school(program)
    one = program.classes.create(school=school, label="3-A", grade=3, students=24)
    row = TradeClass.objects.create(program=program, trade=trade, school_class=one)
    tally(desk=desk, trade_class=row, day=DAY, done=36, spoiled=2)
    before = rows(program)
    page = send(signed_in, trade)
    assert "2 plain ones went back. Nothing more of decorated pots is waited for." in page
    assert "Plain items: 40 in, 38 used, 2 went back, 0 left." in page
    plan = flat(signed_in.get(reverse("exchanges:trade-plan", args=[trade.pk])))
    assert "40 / 38 / 0" in plan
    assert "missing" not in page + plan
    assert (trade.make.settled_how, trade.make.delivered) == (Settled.THAT_WAS_ALL, 36)
    assert (year_counts(desk, 2026).made, differences(program)) == (36, [])
    undo_newest(desk)
    assert rows(program) == before


def test_a_part_leaves_the_rest_to_be_made(signed_in, trade):
    assert "Plain items: 40 in, 36 used, 2 went back, 2 left." in send(signed_in, trade, part="yes")
    assert trade.make.settled_on is None
    assert "2 plain ones went back. Nothing more of" in send(signed_in, trade, quantity="", once="b")
    assert (trade.went_back, trade.make.settled_how) == (4, Settled.THAT_WAS_ALL)


@pytest.mark.parametrize(
    ("values", "sentence"),
    [({"went_back": "41"}, "Only 40 came that are not back yet."), ({"went_back": "", "quantity": ""}, "is required")],
)
def test_no_more_goes_back_than_came(signed_in, trade, values, sentence):
    assert sentence in send(signed_in, trade, **values)
    assert trade.went_back == 0


def test_what_is_left_in_the_end_can_go_back_later(signed_in, desk, program, trade):
    close_part(desk=desk, promise=trade.make, day=DAY, all_of_it=True)
    shown = flat(signed_in.get(trade.get_absolute_url()))
    assert "What is left over belongs to" in shown
    assert shown.count('name="went_back"') == 1
    address = reverse("exchanges:trade-back", args=[trade.pk])
    page = flat(signed_in.post(address, {"went_back": "3", "day": "2026-10-06"}, follow=True))
    assert "3 went back; 37 broke or stayed here." in page
    assert differences(program) == []


def test_it_is_told_on_the_receipt_and_in_the_story(signed_in, desk, trade):
    along = deliver_part(desk=desk, promise=trade.make, day=DAY, quantity=36, went_back=2)
    facts = gather_receipt(desk, along)
    assert (facts.item.quantity, facts.to_come) == (36, None)
    assert Printed(trade_receipt.draw(facts)).text.count("2 plain pots") == 2
    story = flat(signed_in.get(trade.partner.get_absolute_url()))
    assert "2 plain ones went back" in story


def test_the_receipt_of_what_only_went_back_names_the_school_as_the_giver(signed_in, desk, trade):
    call_off(desk=desk, trade=trade, day=DAY)
    signed_in.post(reverse("exchanges:trade-back", args=[trade.pk]), {"went_back": "40", "day": "2026-10-06"})
    facts = gather_receipt(desk, trade.plain.deliveries.get(quantity=None))
    assert (facts.giver, facts.item.quantity, facts.agreed) == (desk.program.name, 40, None)
    assert "40 plain pots, given back unused" in Printed(trade_receipt.draw(facts)).text
    assert stock(trade).left == 0


def test_what_the_school_got_itself_goes_back_to_nobody(signed_in, desk):
    ours = make_trade(desk, plain=PlainItems(side=Side.US, due=PLAIN_DUE))
    deliver_part(desk=desk, promise=ours.plain, day=date(2026, 10, 6), quantity=275)
    assert "Plain ones that go back" not in flat(signed_in.get(ours.get_absolute_url()))
