"""A partner's page: what is next, whether one may ask, and the story."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
import time_machine
from django.urls import reverse

from partners.directory.actions import add_contact, add_partner, edit_contact
from partners.directory.models import Partner
from partners.gifts.actions import Line, receive
from partners.ground.story import StoryLine
from partners.program.models import Opened
from partners.promises.actions import promise
from partners.story import partner_page, rooms
from partners.visits.actions import plan_follow_up, record_ask, record_visit
from partners.visits.models import Ask
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY, make_partner, make_school

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def partner(desk):
    return add_partner(
        desk=desk, name="Riverbend Garden Center", phone="+12015550123", street="410 North River Road",
        city="Alder Falls", state="New Jersey", postal_code="07000-1234", web="riverbend.example.org", notes="A secret",
    )  # fmt: skip


def page(client, partner, **data):
    return client.get(partner.get_absolute_url(), data)


def test_the_page_opens_by_the_agreed_name(signed_in, partner):
    assert reverse("directory:partner-detail", args=[partner.pk]) == partner.get_absolute_url()
    assert page(signed_in, partner).status_code == 200


def test_phone_address_and_web_are_shown_as_at_home(signed_in, partner):
    shown = flat(page(signed_in, partner))
    assert "(201) 555-0123" in shown
    assert 'href="tel:+1-201-555-0123"' in shown
    assert "410 N RIVER RD" in shown
    assert "ALDER FALLS NJ 07000-1234" in shown
    assert 'href="https://riverbend.example.org"' in shown


@pytest.mark.parametrize(
    ("typed", "link"),
    [
        ("example.org/a", "https://example.org/a"),
        ("http://example.org", "http://example.org"),
        ("HTTPS://example.org", "HTTPS://example.org"),
        ("javascript:alert(1)", ""),
        ("javascript://example.org/%0aalert(1)", ""),
        ("data:text/html,x.y", ""),
        ("none", ""),
        ("", ""),
    ],
)
def test_only_web_addresses_become_links(typed, link):
    assert partner_page.web_link(Partner(web=typed)) == link


@pytest.mark.parametrize(
    ("days", "words"),
    [
        (28, "Ask 4 weeks ahead."),
        (7, "Ask 1 week ahead."),
        (45, "Ask 45 days ahead."),
        (1, "Ask 1 day ahead."),
        (None, ""),
    ],
)
def test_lead_time_is_told_in_weeks_where_it_is_whole_weeks(days, words):
    assert partner_page.lead_words(Partner(lead_days=days)) == words


def test_what_is_due_of_this_partner_stands_on_top_the_earliest_first(signed_in, desk, partner):
    other = make_partner(desk.program, "Bluebird Bakery")
    plan_follow_up(desk=desk, partner=partner, base=TUESDAY, named_day=date(2026, 10, 20), what="ask for pots again")
    plan_follow_up(desk=desk, partner=other, base=TUESDAY, named_day=date(2026, 10, 8), what="not of this place")
    promise(desk=desk, partner=partner, side="them", what="terracotta pots", due=date(2026, 10, 12), made_on=TUESDAY)
    steps = page(signed_in, partner).context["steps"]
    assert [step.what for step in steps[-2:]] == ["terracotta pots", "ask for pots again"]
    assert "not of this place" not in flat(page(signed_in, partner))


def test_a_guest_sees_both_sides_promises_beside_each_other(client, grace, desk, partner):
    promise(desk=desk, partner=partner, side="them", what="pots", quantity=60, due=date(2026, 10, 12), made_on=TUESDAY)
    promise(desk=desk, partner=partner, side="us", what="seed packets", due=date(2026, 10, 1), made_on=date(2026, 9, 1))
    sides = page(enter(client, grace), partner).context["sides"]
    assert [(one.words, one.state) for one in sides["them"]] == [("60 pots", "by October 12, 2026")]
    assert [(one.words, one.state) for one in sides["us"]] == [("seed packets", "was due October 1, 2026")]


def test_the_verdict_is_told(signed_in, partner, program):
    assert "You may ask" in flat(page(signed_in, partner))
    Partner.objects.update(never_ask=True)
    shown = flat(page(signed_in, partner))
    assert "Not yet" in shown
    assert "They may be asked again" in shown


def test_a_guest_asks_nobody_and_does_nothing_first(client, grace, partner, program):
    make_school(program, "Millrace", asking_needs_approval=True)
    shown = flat(page(enter(client, grace), partner))
    assert "For the teachers first: get the approval and record it." in shown
    assert "you may ask" not in shown.lower()


def test_the_verdict_is_told_for_each_school_where_it_differs(signed_in, partner, program, desk):
    asked, _other = (make_school(program, name, asking_needs_approval=False) for name in ("Millrace", "North Ridge"))
    Partner.objects.update(how_often="calendar_year")
    partner.refresh_from_db()
    record_ask(desk=desk, partner=partner, what="pots", asked_on=date(2026, 3, 3), school=asked)
    Ask.objects.update(answer="no", answered_on=date(2026, 3, 3), look_on=None)
    answers = page(signed_in, partner).context["answers"]
    assert [(answer.school, answer.verdict.allowed) for answer in answers] == [
        ("Millrace", False),
        ("North Ridge", True),
    ]
    told = flat(signed_in.get(f"/partners/{partner.pk}/may-ask/"))
    assert "You may ask, but not for Millrace before January 1, 2027" in told
    Partner.objects.update(counted_per="district")
    (answer,) = page(signed_in, partner).context["answers"]
    assert (answer.school, answer.verdict.earliest) == ("", date(2027, 1, 1))


def test_what_a_teacher_can_do_is_one_click_away(signed_in, partner):
    shown = flat(page(signed_in, partner))
    for name, arguments in [
        ("outreach:document-prepare", {"slug": "leave-behind", "pk": partner.pk}),
        ("directory:partner-edit", {"pk": partner.pk}),
        ("directory:partner-rest", {"pk": partner.pk}),
        ("directory:contact-new", {"pk": partner.pk}),
        ("story:partner-history", {"pk": partner.pk}),
    ]:
        assert f'href="{reverse(name, kwargs=arguments)}"' in shown
    assert f"{reverse('visits:visit-new')}?partner={partner.pk}" in shown
    assert f"{reverse('gifts:gift-new')}?partner={partner.pk}" in shown


def test_who_came_and_who_left_is_part_of_the_story(desk, partner):
    old = add_contact(desk=desk, partner=partner, name="Dana", role="owner", since=date(2019, 5, 1))
    edit_contact(desk=desk, contact=old, left_on=date(2026, 9, 1))
    told = [(line.day, str(line.what)) for line in rooms.told(desk, partner)]
    assert (date(2026, 9, 1), "Dana left") in told
    assert told[-1] == (date(2019, 5, 1), "Dana is there now, as owner")


def test_the_story_goes_backwards(desk, partner):
    promise(desk=desk, partner=partner, side="us", what="cards", due=date(2026, 10, 9), made_on=date(2026, 9, 1))
    promise(desk=desk, partner=partner, side="them", what="pots", due=date(2026, 10, 9), made_on=TUESDAY)
    days = [line.day for line in rooms.told(desk, partner)]
    assert days == sorted(days, reverse=True)
    assert len(days) >= 3


def lines_of(count):
    return [StoryLine(date(2020, 1, 1), datetime(2020, 1, 1, tzinfo=UTC), f"Line {number}") for number in range(count)]


def test_a_story_of_three_hundred_lines_is_paged(signed_in, partner, monkeypatch):
    monkeypatch.setattr(rooms, "ROOMS", ((lambda desk, partner: lines_of(300), Opened.PARTNERS),))
    first, last = page(signed_in, partner), page(signed_in, partner, page=5)
    assert flat(first).count('<li class="line story') == 60
    assert 'rel="next"' in flat(first)
    assert flat(last).count('<li class="line story') == 60
    assert 'rel="next"' not in flat(last)


def test_a_long_story_asks_as_many_queries_as_a_short_one(signed_in, desk, partner, django_assert_max_num_queries):
    def filled(number):
        for one in range(number):
            record_visit(desk=desk, partner=partner, happened="hello", day=TUESDAY)
            promise(desk=desk, partner=partner, side="them", what=f"pots {one}", due=TUESDAY, made_on=TUESDAY)
            add_contact(desk=desk, partner=partner, name=f"Ana {one}")
        with django_assert_max_num_queries(64) as asked:
            page(signed_in, partner)
        return len(asked)

    assert filled(1) == filled(25)


def test_a_guest_reads_the_story_without_notes_and_without_dead_ends(client, grace, desk, partner):
    record_visit(desk=desk, partner=partner, happened="hello", day=TUESDAY, note="Owner was rude")
    given = promise(desk=desk, partner=partner, side="them", what="pots", due=TUESDAY, made_on=TUESDAY)
    shown = flat(page(enter(client, grace), partner))
    assert "pots" in shown
    for hidden in ("A secret", "Owner was rude", given.get_absolute_url(), "Change what is written", "Let them rest"):
        assert hidden not in shown


def test_markup_in_what_was_typed_is_shown_as_typed(signed_in, desk):
    partner = add_partner(
        desk=desk,
        name="<script>x</script>",
        decides="<b>1</b>",
        notes="<img src=x>",
        web='"><script>',
        person="<i>A</i>",
    )
    shown = flat(page(signed_in, partner))
    for typed in ("<script>x", "<b>1", "<img src=x", "<i>A", '"><script>"'):
        assert typed not in shown


def test_who_may_open_the_page(client, june, grace, otto, partner):
    address = partner.get_absolute_url()
    assert status(client, address) == 302
    assert status(enter(client, otto), address) == 404
    assert status(enter(client, june), address, "post") == 405
    assert status(client, reverse("directory:partner-detail", args=[UNKNOWN])) == 404
    grace.opened = []
    grace.save()
    assert status(enter(client, grace), address) == 403


def test_what_one_letter_thanks_for_is_one_line(desk, partner):
    came = {"desk": desk, "source": "partner", "partner": partner, "day": TUESDAY}
    for what in ("pots", "soil"):
        receive(**came, form="goods", lines=[Line(description=what)])
    receive(**came, form="money", amount_cents=5000, money_kind="check", lines=[])
    thanks = [line for line in partner_page.next_steps(desk, partner) if line.verb == "Thank"]
    assert [line.what for line in thanks] == ["pots and soil", "$50.00"]
