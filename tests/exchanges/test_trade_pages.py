"""Agreeing on a trade, its page, the list and the year: what is typed, shown and refused."""

from datetime import date

import pytest
import time_machine
from django.urls import reverse

from partners.exchanges.actions import call_off
from partners.exchanges.count_actions import close_part, deliver_part
from partners.exchanges.counts import year_counts
from partners.exchanges.models import Trade
from partners.program.models import Opened
from partners.school.actions import add_days
from partners.school.approval_actions import add_approval
from partners.visits.actions import record_visit
from tests import people
from tests.exchanges.trades import DAY, DUE, make_trade
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db
NEW, LIST, COUNTS = (reverse(f"exchanges:trade-{name}") for name in ("new", "list", "counts"))
ONE_GIFT = {"give-TOTAL_FORMS": "3", "give-INITIAL_FORMS": "0", "give-0-what": "pots", "give-0-quantity": "60"}


@pytest.fixture(autouse=True)
def tuesday():
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def school(program):
    return people.make_school(program)


def typed(**values):
    said = {
        "partner": "Riverbend Garden Center", "what": "decorated seed packets", "at_least": "200", "at_most": "250",
        "due": "2026-12-04", "plain_by": "them", "agreed_on": "2026-10-06", "spare_percent": "10",
        "minutes_per_item": "20", "finishing_days": "2", "minimum": "0", "attach": "on", **ONE_GIFT,
    }  # fmt: skip
    return {name: value for name, value in {**said, **values}.items() if value is not None}


def test_what_is_typed_at_the_counter_becomes_both_sides(signed_in, program, school):
    yes = add_approval(desk=people.make_desk(program), school=school, what_for="trades", by="Dr. Okafor", on=DAY)
    answer = signed_in.post(NEW, typed(school=school.pk))
    trade = program.trades.get()
    assert answer.url == trade.get_absolute_url()
    assert (trade.partner.name, trade.approval, trade.approval_settled) == ("Riverbend Garden Center", yes, True)
    said = [(one.part, one.side, one.quantity, one.due) for one in trade.promises.order_by("part")]
    ten_school_days = date(2026, 10, 20)
    assert said == [("give", "them", 60, DUE), ("make", "us", 200, DUE), ("plain", "them", 275, ten_school_days)]


def test_plain_items_are_there_before_half_the_time_is_over(signed_in, program, school):
    # Of the six school days after the 6th (7, 8, 9, 12, 13, 14) the third is the 9th.
    signed_in.post(NEW, typed(due="2026-10-14"))
    assert program.promises.get(part="plain").due == date(2026, 10, 9)


def test_without_an_approval_the_principal_is_to_be_asked(signed_in, program, school):
    signed_in.post(NEW, typed(school=school.pk))
    assert not program.trades.get().approval_settled
    assert "Ask the principal: trade with" in flat(signed_in.get(reverse("agenda:review")))


@pytest.mark.parametrize(
    ("values", "field", "sentence"),
    [
        ({"at_most": "150"}, "at_most", "The range is upside down: the smaller number comes first."),
        ({"due": "2026-10-05"}, "due", "That day is past. By when is it to be ready?"),
        ({"due": "2027-07-14"}, "due", "The school year in your calendar ends on June 18, 2027."),
        ({"due": "2026-11-07"}, "due", "The last school day before it is November 6, 2026."),
        ({"plain_due": "2026-12-05"}, "plain_due", "The plain items come after the day on which"),
        ({"plain_quantity": "199"}, "plain_quantity", "That is fewer than the items to be made of them."),
        ({"display_from": "2026-12-03"}, "display_from", "The show begins before the work is to be delivered."),
        ({"give-0-what": ""}, None, "Look at what they give: one of the lines is not complete."),
        ({"give-0-what": "", "give-0-quantity": ""}, None, "Say what they give. Without it this is a promise"),
        ({"give-0-due": "2026-10-01"}, None, "Look at what they give: one of the lines is not complete."),
        ({"partner": ""}, "partner", "Say with whom: choose a partner or type the name."),
        ({"what": "bags with your logo"}, "what", "“logo” sounds like promoting the business."),
        ({"minutes_per_item": "0"}, "minutes_per_item", "Ensure this value is greater than or equal to 1."),
        ({"at_least": "0"}, "at_least", "Write 1 or more."),
    ],
)  # fmt: skip
def test_a_slip_is_one_clear_sentence_and_nothing_typed_is_lost(signed_in, program, school, values, field, sentence):
    desk = people.make_desk(program)
    add_days(desk=desk, school=school, first=date(2026, 9, 1), last=date(2027, 6, 18), kind="year")
    answer = signed_in.post(NEW, typed(school=school.pk, **values))
    form = answer.context["form"]
    told = form.non_field_errors() if field is None else form.errors[field]
    assert any(sentence in one for one in told), form.errors
    assert sentence in flat(answer)
    assert 'value="2027-07-14"' in flat(answer) or 'name="give-0-what"' in flat(answer)
    assert not program.trades.exists()


def test_promotion_is_asked_about_once_and_told_on_the_page(signed_in, program, school):
    signed_in.post(NEW, typed(what="bags with your logo", heeded="on"))
    page = flat(signed_in.get(program.trades.get().get_absolute_url()))
    assert "“logo”: many boards do not let students promote a business." in page


def test_a_name_like_one_in_the_book_is_asked_about(signed_in, program, school):
    garden = people.make_partner(program)
    answer = signed_in.post(NEW, typed(partner="Riverbend Garden Centre"))
    assert "Is it one of these?" in flat(answer)
    signed_in.post(NEW, typed(partner="Riverbend Garden Centre", one_of=garden.pk))
    assert program.trades.get().partner == garden


def test_a_logged_visit_and_a_partner_lead_to_a_trade(signed_in, program, desk):
    garden = people.make_partner(program)
    visit = record_visit(desk=desk, partner=garden, happened="hello", day=date(2026, 10, 5))
    page = flat(signed_in.get(f"{NEW}?visit={visit.pk}"))
    assert f'name="visit" value="{visit.pk}"' in page
    assert 'name="agreed_on" value="2026-10-05"' in page
    assert "Riverbend Garden Center" in page
    assert f"{NEW}?visit={visit.pk}" in flat(signed_in.get(reverse("asking:visit-saved", args=[visit.pk])))
    assert f"{NEW}?partner={garden.pk}" in flat(signed_in.get(garden.get_absolute_url()))


def test_the_page_shows_both_sides_and_what_is_next(signed_in, desk):
    trade = make_trade(desk, note="ring twice")
    deliver_part(desk=desk, promise=trade.plain, day=DAY, quantity=100)
    page = flat(signed_in.get(trade.get_absolute_url()))
    for words in (
        "200 to 250 decorated seed packets",
        "to deliver by December 4, 2026",
        "100 of 275 came; the rest by",
        "still to come, by April 9, 2027",
        "0 of 200",
        "Plain items: 100 in, 0 used, 100 left.",
        "200 are still to be made: 100 plain items are missing.",
        "Get the memo signed",
        "ring twice",
    ):
        assert words in page  # fmt: skip


def test_a_part_that_is_delivered_is_no_gift_and_owes_no_thanks(signed_in, desk, program):
    trade = make_trade(desk)
    plain = trade.plain
    address = reverse("exchanges:part-deliver", args=[plain.pk])
    signed_in.post(address, {"quantity": "275", "day": "2026-10-06", "part": "yes"})
    plain.refresh_from_db()
    assert (plain.delivered, plain.settled_on) == (275, None)
    signed_in.post(reverse("exchanges:part-close", args=[plain.pk, "that-was-all"]))
    assert not program.gifts.exists()
    assert not program.thanks.exists()
    refused = signed_in.post(reverse("exchanges:part-deliver", args=[trade.make.pk]), {"quantity": "", "day": ""})
    assert "This field is required." in flat(refused)


def test_the_list_narrows_to_how_trades_stand(signed_in, desk):
    kinds = ("going on", "settled", "called off")
    trades = [make_trade(desk, what=f"bags {kind}") for kind in kinds]
    for promise in trades[1].promises.all():
        close_part(desk=desk, promise=promise, day=DAY, all_of_it=True)
    call_off(desk=desk, trade=trades[2], day=DAY)
    for state, kind in zip(("open", "settled", "called_off"), kinds, strict=True):
        page = flat(signed_in.get(LIST, {"state": state}))
        assert [one for one in kinds if f"bags {one}" in page] == [kind]
    assert all(f"bags {kind}" in flat(signed_in.get(LIST, {"state": "all"})) for kind in kinds)


def test_a_year_counts_what_was_delivered_and_shows_the_rows(signed_in, desk):
    trade = make_trade(desk)
    for day, count in ((date(2026, 7, 1), 5), (DAY, 12), (date(2027, 6, 30), 600), (date(2027, 7, 1), 7)):
        deliver_part(desk=desk, promise=trade.make, day=day, quantity=count, part=True)
    pots = trade.side("give")[0]
    for day, came in ((DAY, 85), (date(2026, 6, 30), 4), (DAY, None)):
        deliver_part(desk=desk, promise=pots, day=day, quantity=came, part=True)
    found = year_counts(desk, 2026)
    assert (found.name, found.made, found.received, found.uncounted) == ("2026–27", 617, 85, 1)
    assert "school made 617" in flat(signed_in.get(LIST))
    page = flat(signed_in.get(COUNTS, {"year": "2026", "side": "made"}))
    assert page.count("decorated seed packets") == 3
    for wrong in ({"year": "x"}, {"side": "x"}, {"year": "0000"}):
        assert signed_in.get(COUNTS, wrong).status_code == 404


def test_what_was_agreed_is_put_right_on_the_page(signed_in, desk, program):
    trade = make_trade(desk)
    pots = trade.side("give")[0]
    deliver_part(desk=desk, promise=pots, day=DAY, quantity=10)
    address = reverse("exchanges:trade-edit", args=[trade.pk])
    lines = {"give-INITIAL_FORMS": "1", "give-0-row": pots.pk, "give-0-what": "", "give-0-quantity": ""}
    refused = signed_in.post(address, typed(partner=None, **lines))
    assert "Some of it came already." in flat(refused)
    lines |= {"give-0-what": "clay pots", "give-0-quantity": "50", "give-0-due": "2027-04-09", "seen": trade.version}
    assert signed_in.post(address, typed(partner=None, plain_by="none", **lines)).status_code == 302
    pots.refresh_from_db()
    assert (pots.words, program.promises.filter(part="plain").exists()) == ("50 clay pots", False)


def test_the_principal_approves(signed_in, desk, program, school):
    trade = make_trade(desk)
    address = reverse("exchanges:trade-approve", args=[trade.pk])
    assert "Say who approved it." in flat(signed_in.post(address, {"by": "", "on": "2026-10-06"}))
    signed_in.post(address, {"by": "Dr. Okafor", "on": "2026-10-06", "school": school.pk})
    trade.refresh_from_db()
    assert (trade.approval.by, trade.approval.what_for, trade.approval_settled) == ("Dr. Okafor", "trades", True)
    other = make_trade(desk)
    assert f"{school}: Dr. Okafor, October 6, 2026" in flat(
        signed_in.get(reverse("exchanges:trade-approve", args=[other.pk]))
    )
    signed_in.post(reverse("exchanges:trade-approve", args=[other.pk]), {"approval": trade.approval.pk})
    assert Trade.objects.get(pk=other.pk).approval == trade.approval


def test_plain_items_left_over_are_theirs(signed_in, desk):
    trade = make_trade(desk, gives=[])
    deliver_part(desk=desk, promise=trade.plain, day=DAY, quantity=275)
    assert "belongs to" not in flat(signed_in.get(trade.get_absolute_url()))
    deliver_part(desk=desk, promise=trade.make, day=DAY, quantity=230)
    page = flat(signed_in.get(trade.get_absolute_url()))
    assert "230 used, 45 left. What is left over belongs to" in page


def test_calling_off_says_first_what_is_left_out(signed_in, desk):
    trade = make_trade(desk)
    address = reverse("exchanges:trade-call-off", args=[trade.pk])
    assert "60 terracotta pots" in flat(signed_in.get(address))
    signed_in.post(address)
    page = flat(signed_in.get(trade.get_absolute_url()))
    assert "Called off on October 6, 2026." in page
    assert "left out, October 6, 2026" in page
    assert "to be signed by" not in page


@pytest.mark.parametrize("name", ["detail", "edit", "approve", "call-off", "progress"])
def test_who_may_open_a_trade(client, desk, grace, otto, june, name):
    address = reverse(f"exchanges:trade-{name}", args=[make_trade(desk).pk])
    assert client.get(address).status_code == 302
    assert status(enter(client, grace), address) == 403
    grace.opened = [Opened.TRADES]
    grace.save()
    assert status(client, address) == (200 if name == "detail" else 403)
    assert status(enter(client, otto), address) == 404
    assert status(enter(client, june), address.replace(str(desk.trades.get().pk), str(UNKNOWN))) == 404
    assert status(client, address, "put") == 405


def test_guests_read_trades_without_notes_and_buttons(client, desk, grace):
    trade = make_trade(desk, note="ring twice")
    grace.opened = [Opened.TRADES]
    grace.save()
    page = flat(enter(client, grace).get(trade.get_absolute_url()))
    assert "200 to 250 decorated seed packets" in page
    assert "ring twice" not in page
    assert "Write it down" not in page
    assert status(client, LIST) == status(client, COUNTS) == 200


def test_lines_of_a_trade_do_not_repeat_what_its_head_says(signed_in, desk, school):
    trade = make_trade(desk, school=school)
    deliver_part(desk=desk, promise=trade.plain, day=DAY, quantity=20, part=True)
    page = flat(signed_in.get(trade.get_absolute_url()))
    lines = page[page.index('<ol class="lines">') : page.index('id="sheets"')]
    assert trade.partner.name not in lines
    for words in ("Ask the principal", "Get the memo signed", "Plain items:", "20 so far", "Deliver", "Collect"):
        assert words in lines


def test_lines_of_a_trade_say_how_late_they_are(signed_in, desk, school):
    trade = make_trade(desk, school=school)
    with time_machine.travel("2026-10-23 15:00 -0400", tick=False):
        page = flat(signed_in.get(trade.get_absolute_url()))
    late = [words.split("<")[0] for words in page.split('<strong class="late">')[1:]]
    assert late == ["8 school days late", "8 school days late", "3 school days late"]
