"""What they give comes as a gift that is part of the trade, and no letter says that nothing was returned."""

import pytest
import time_machine
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.gifts.actions import LineEdit, edit_gift, receive_promised
from partners.gifts.explained import facts_of
from partners.gifts.letter_rules import decide
from tests.exchanges.trades import DAY, make_trade
from tests.ladder import flat
from tests.whole_site.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def tuesday():
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def pots(desk):
    return make_trade(desk).side("give")[0]


def says_of_return(desk, gift):
    choices = {choice.code: choice.verdict for choice in decide(facts_of(desk, gift)).choices}
    return choices["nothing_in_return"], choices["deductible_gift"]


def test_through_the_screen_it_is_part_of_the_trade(signed_in, desk, program, pots):
    address = f"{reverse('gifts:gift-new')}?promise={pots.pk}"
    page = Page.read(signed_in.get(address).content.decode())
    form = next(one for one in page.forms if "line-0-description" in one.sent)
    signed_in.post(address, {**form.sent, "trade": ""})
    gift = program.gifts.get()
    assert (gift.trade, gift.gave_back, gift.thanks.done_on) == (True, "200 to 250 decorated seed packets", None)
    assert says_of_return(desk, gift) == ("must_not", "must_not")
    pots.refresh_from_db()
    assert pots.settled_on == DAY
    letter = flat(signed_in.get(reverse("outreach:document-prepare", args=["gratitude-letter", gift.pk])))
    assert "nothing in return" not in letter.lower()
    assert differences(program) == []


def test_with_one_button_as_well_and_it_stays_so(desk, program, pots):
    gift = receive_promised(desk=desk, promise=pots, day=DAY)
    assert says_of_return(desk, gift) == ("must_not", "must_not")
    line = gift.lines.get()
    edit_gift(desk=desk, gift=gift, trade=False, lines=[LineEdit(row=line, description="clay pots", quantity=60)])
    assert gift.trade is True


def test_plain_items_are_not_offered_as_something_that_arrived(signed_in, desk, pots):
    plain = pots.trade.plain
    assert signed_in.get(f"{reverse('gifts:gift-new')}?promise={plain.pk}").status_code == 404
    assert "seed packets" not in flat(signed_in.get(reverse("gifts:gift-new")))
    assert signed_in.post(reverse("gifts:gift-new"), {"promise": plain.pk, "form": "goods"}).status_code == 404


def test_parts_that_the_plan_counts_from_lead_to_the_trade(signed_in, desk, pots):
    for promise in (pots.trade.make, pots.trade.plain):
        answer = signed_in.get(reverse("promises:promise-detail", args=[promise.pk]))
        assert answer.url == pots.trade.get_absolute_url()
        moved = signed_in.post(reverse("promises:promise-move", args=[promise.pk]), {"due": "2026-11-02"})
        assert moved.status_code == 404
    assert "Part of the trade" in flat(signed_in.get(reverse("promises:promise-detail", args=[pots.pk])))


def test_the_story_tells_a_trade_once(signed_in, desk, pots):
    page = flat(signed_in.get(pots.partner.get_absolute_url()))
    assert "Trade agreed: 200 to 250 decorated seed packets for 60 terracotta pots" in page
    found = flat(signed_in.get(reverse("story:search"), {"q": "seed packets"}))
    assert pots.trade.get_absolute_url() in found
