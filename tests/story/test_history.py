"""The history of changes, and taking them back."""

from __future__ import annotations

from functools import partial
from importlib import import_module

import pytest
from django.apps import apps
from django.urls import reverse

from partners.directory.actions import add_contact, add_partner, edit_partner
from partners.directory.models import Partner
from partners.gifts.actions import Line, receive
from partners.gifts.thanks_actions import all_thanked
from partners.ground.changes import change
from partners.ground.models import Event, Touched
from partners.program.actions import edit_member, edit_program, renew_calendar
from partners.program.models import Role
from partners.story.history import events_about, events_of
from partners.visits.actions import record_ask, record_visit
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY, make_desk, make_member, make_school
from tests.query_plan import plan_of
from tests.whole_book import rows

pytestmark = pytest.mark.django_db

ALL = reverse("story:history")


@pytest.fixture
def partner(desk, june):
    return add_partner(desk=make_desk(desk.program, user=june.user), name="Riverbend Garden Center")


def of(partner):
    return reverse("story:partner-history", args=[partner.pk])


def undo_url(event):
    return reverse("story:undo", args=[event.pk])


def told(client, address):
    return [str(event) for event in client.get(address).context["page"].object_list]


def test_every_change_is_told_the_latest_first_with_who(signed_in, desk, partner):
    edit_partner(desk=desk, partner=partner, city="Alder Falls")
    assert told(signed_in, ALL) == [
        "Partner Riverbend Garden Center changed",
        "Partner Riverbend Garden Center added",
    ]
    assert "June" in flat(signed_in.get(ALL))


def test_one_partners_history_holds_what_belongs_to_it_and_nothing_else(signed_in, desk, partner):
    other = add_partner(desk=desk, name="Bluebird Bakery")
    add_contact(desk=desk, partner=other, name="Luis")
    add_contact(desk=desk, partner=partner, name="Dana")
    record_visit(desk=desk, partner=partner, happened="hello", day=TUESDAY)
    shown = told(signed_in, of(partner))
    assert len(shown) == 3
    assert all("Riverbend" in words for words in shown)


def test_a_change_is_taken_back_from_the_history_and_said(signed_in, desk, partner, program):
    before = rows(program)
    edit_partner(desk=desk, partner=partner, city="Eastbrook")
    event = Event.objects.latest("pk")
    assert f'action="{undo_url(event)}"' in flat(signed_in.get(ALL))
    answer = signed_in.post(undo_url(event), {"next": of(partner)}, follow=True)
    assert answer.redirect_chain[0][0] == of(partner)
    assert "Taken back: Partner Riverbend Garden Center changed" in flat(answer)
    assert "taken back" in flat(answer)
    assert rows(program) == before


def test_what_later_stands_on_it_stops_an_undo_and_says_so(signed_in, desk, partner):
    added = Event.objects.latest("pk")
    record_visit(desk=desk, partner=partner, happened="hello", day=TUESDAY)
    answer = signed_in.post(undo_url(added), {"next": ALL}, follow=True)
    assert "nothing was undone" in flat(answer)
    assert Partner.objects.filter(pk=partner.pk).exists()


def test_an_undo_never_leads_to_another_site(signed_in, partner):
    event = Event.objects.latest("pk")
    answer = signed_in.post(undo_url(event), {"next": "https://example.org/"})
    assert answer["Location"].startswith("/")


def test_the_history_is_paged_without_counting(signed_in, desk, partner):
    for number in range(51):
        edit_partner(desk=desk, partner=partner, city=f"Town {number}")
    assert len(told(signed_in, ALL)) == 50
    assert len(told(signed_in, f"{ALL}?page=2")) == 2
    assert 'rel="next"' in flat(signed_in.get(ALL))


def test_the_history_takes_a_fixed_number_of_queries(signed_in, desk, partner, django_assert_num_queries):
    for number in range(20):
        edit_partner(desk=desk, partner=partner, city=f"Town {number}")
    with django_assert_num_queries(4):
        signed_in.get(ALL)
    with django_assert_num_queries(5):
        signed_in.get(of(partner))


def test_an_empty_history_says_so(signed_in):
    assert "Nothing has been changed yet." in flat(signed_in.get(ALL))


def test_a_teacher_of_one_school_sees_and_undoes_nothing_of_another(client, omar, desk, partner):
    mine, other = make_school(desk.program), make_school(desk.program, "North Ridge Elementary")
    record_ask(desk=desk, partner=partner, what="pots", asked_on=TUESDAY, school=other)
    record_ask(desk=desk, partner=partner, what="tubes", asked_on=TUESDAY, school=mine)
    theirs, own = Event.objects.order_by("-pk")[1], Event.objects.order_by("-pk")[0]
    omar.school_ids = [mine.pk]
    omar.save()
    enter(client, omar)
    seen = [event.pk for event in client.get(ALL).context["page"].object_list]
    assert own.pk in seen
    assert theirs.pk not in seen
    assert status(client, undo_url(theirs), "post") == 404


def test_who_may_read_and_take_back(client, june, grace, otto, partner):
    event = Event.objects.latest("pk")
    for address, method in ((ALL, "get"), (of(partner), "get"), (undo_url(event), "post")):
        client.logout()
        assert status(client, address, method) == 302
        assert status(enter(client, grace), address, method) == 403
        assert status(enter(client, june), address, "delete") == 405
    assert status(enter(client, otto), of(partner)) == 404
    assert status(client, undo_url(event), "post") == 404
    assert status(client, reverse("story:partner-history", args=[UNKNOWN])) == 404
    assert told(client, ALL) == []


def test_a_teacher_neither_sees_nor_takes_back_what_a_keeper_decided_of_rights_and_settings(
    client, desk, june, program
):
    omar, school = make_member(program, "Omar", Role.TEACHER), make_school(program)
    edit_member(desk=desk, member=omar, school_ids=[school.pk])
    edit_program(desk=desk, intro="We draw.")
    enter(client, omar)
    assert told(client, ALL) == []
    assert [status(client, undo_url(event), "post") for event in Event.objects.all()] == [404, 404]
    omar.refresh_from_db()
    assert omar.school_ids == [school.pk]


def test_a_teacher_takes_back_no_rights_of_their_own_but_their_calendar_address(client, june, program):
    omar = make_member(program, "Omar", Role.TEACHER)
    own = make_desk(program, user=omar.user, role=Role.TEACHER)
    edit_member(desk=own, member=omar, opened=[])
    assert "Only who keeps the book" in flat(enter(client, omar).post(undo_url(Event.objects.get()), follow=True))
    renew_calendar(desk=own, member=omar)
    client.post(undo_url(Event.objects.latest("pk")))
    omar.refresh_from_db()
    assert (omar.calendar_turn, omar.opened) == (0, [])


def given_thrice(desk):
    """Three shops gave, and all are thanked at once."""
    for name in ("Bluebird Bakery", "Tamarack Hardware", "Marigold Framing"):
        boxes = [Line(description="boxes", quantity=3)]
        receive(desk=desk, source="partner", partner=name, day=TUESDAY, form="goods", lines=boxes)
    with change(desk, "All thanked") as book:
        all_thanked(book, list(desk.thanks.all()), day=TUESDAY, how="")


def test_a_change_of_many_rows_stands_in_the_history_of_each(signed_in, desk):
    given_thrice(desk)
    said = str(Event.objects.latest("pk"))
    assert [told(signed_in, of(one))[0] for one in desk.partners.all()] == [said] * 3


def test_history_from_before_is_pointed_at_its_rows_by_the_migration(desk):
    given_thrice(desk)
    places = ("event", "program", "model", "row")
    written = sorted(Touched.objects.values_list(*places))
    Touched.objects.all().delete()
    import_module("partners.migrations.0007_pictures_and_history").point_at_rows(apps, None)
    assert sorted(Touched.objects.values_list(*places)) == written


def test_a_history_is_found_by_its_index(desk, partner):
    for found in (events_of(desk, partner), events_about(desk, make_school(desk.program))):
        plan = plan_of(partial(list, found[:51]))
        assert "touched_row (program_id=? AND model=? AND row=?)" in plan
        assert "SEARCH partners_event USING INTEGER PRIMARY KEY (rowid=?)" in plan
        assert "touched_row (program_id=?)" not in plan
