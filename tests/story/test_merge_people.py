"""Two rows of one person are put together: nothing is lost, and undo parts them again."""

from __future__ import annotations

from datetime import date, time, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.directory.actions import add_contact, add_partner
from partners.ground.changes import ChangedMeanwhile
from partners.helpers.actions import add_helper, edit_helper
from partners.helpers.models import Helper
from partners.helpers.session_actions import add_session, ask_helpers, reply
from partners.helpers.session_models import Session
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.story.merge_people import merge_contacts, merge_helpers
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import make_desk
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db
DAY = date(2027, 3, 16)


@pytest.fixture
def own(june: Membership) -> Desk:
    return make_desk(june.program, user=june.user)


@pytest.fixture
def rosa(own: Desk) -> Helper:
    return add_helper(desk=own, name="Rosa Delgado", phone="(201) 555-0140", jobs=["mounting"], days=[1])


@pytest.fixture
def again(own: Desk) -> Helper:
    said: dict[str, Any] = {"email": "rosa@example.org", "jobs": ["hanging"], "days": [1, 3], "note": "Second slip."}
    return add_helper(desk=own, name="Rosa  Delgado", **said)


@pytest.fixture
def session(own: Desk, rosa: Helper, again: Helper) -> Session:
    """Asked twice: one row is silent, the other said yes."""
    planned = {"job": "hanging", "starts": time(13), "ends": time(14), "place": "the gym", "needed": 1}
    session = add_session(desk=own, day=DAY, **planned)
    ask_helpers(desk=own, session=session, helpers=[rosa, again])
    reply(desk=own, turn=session.turns.get(helper=again), answer="yes", day=DAY)
    return session


def test_a_helper_keeps_what_both_said_and_stands_once_in_a_session(own: Desk, rosa, again, session: Session) -> None:
    before = rows(own.program)
    one = merge_helpers(desk=own, kept=Helper.objects.get(pk=rosa.pk), other=Helper.objects.get(pk=again.pk))
    one.refresh_from_db()
    assert (one.email, one.jobs, one.days, one.note) == (
        "rosa@example.org",
        ["hanging", "mounting"],
        [1, 3],
        "Second slip.",
    )
    session.refresh_from_db()
    assert [(turn.helper, turn.reply) for turn in session.turns.all()] == [(one, "yes")]
    assert (session.said_yes, Helper.objects.count()) == (1, 1)
    assert differences(own.program) == []
    undo_newest(own)
    assert rows(own.program) == before


def test_the_longer_clearance_holds_and_what_changed_meanwhile_stops_it(own: Desk, rosa, again) -> None:
    edit_helper(desk=own, helper=again, cleared=True, cleared_until=date(2027, 9, 1), cleared_by="the office")
    old = Helper.objects.get(pk=rosa.pk)
    edit_helper(desk=own, helper=rosa, cleared=True, cleared_until=date(2027, 3, 1), cleared_by="June")
    with pytest.raises(ChangedMeanwhile):
        merge_helpers(desk=own, kept=old, other=again)
    one = merge_helpers(desk=own, kept=rosa, other=again)
    assert (one.cleared_until, one.cleared_by) == (date(2027, 9, 1), "the office")


@pytest.mark.parametrize("days", [0, -1, 1])
def test_who_helps_no_longer_does_so_again_only_where_a_slip_came_later(own: Desk, rosa, again, days) -> None:
    said_on = again.created_at.date() + timedelta(days=days)
    Helper.objects.filter(pk=rosa.pk).update(stopped_on=said_on)
    one = merge_helpers(desk=own, kept=Helper.objects.get(pk=rosa.pk), other=again)
    assert one.stopped_on == (None if days < 0 else said_on)


def test_their_page_offers_it_and_who_may(client: Client, own: Desk, rosa, again, grace, june) -> None:
    address = reverse("story:helper-merge", args=[rosa.pk])
    assert status(enter(client, grace), address, "post", other=str(again.pk)) == 403
    enter(client, june)
    page = flat(client.get(rosa.get_absolute_url()))
    assert f"{address}?other={again.pk}" in page
    shown = flat(client.get(address, {"other": again.pk}))
    assert "rosa@example.org" in shown
    assert "not cleared" in shown
    for other in (str(UNKNOWN), "x", str(rosa.pk)):
        assert status(client, address, "post", other=other) == 404
    assert "are one now" in flat(client.post(address, {"other": again.pk}, follow=True))
    assert client.get(again.get_absolute_url())["Location"] == rosa.get_absolute_url()
    edit = reverse("helpers:helper-edit", args=[again.pk])
    assert client.get(edit)["Location"] == reverse("helpers:helper-edit", args=[rosa.pk])


def test_two_people_of_one_partner_are_one_and_those_of_two_partners_are_not(client: Client, own: Desk, june) -> None:
    garden = add_partner(desk=own, name="Riverbend Garden Center", person="Dana Whitlock")
    dana = garden.contacts.get()
    other = add_contact(desk=own, partner=garden, name="D. Whitlock", email="dana@example.org", decides=True)
    bakery = add_partner(desk=own, name="Bluebird Bakery", person="Luis Abad")
    address = reverse("story:contact-merge", args=[dana.pk])
    enter(client, june)
    assert status(client, address, "post", other=str(bakery.contacts.get().pk)) == 404
    assert "D. Whitlock" in flat(client.get(reverse("directory:contact-edit", args=[dana.pk])))
    before = rows(own.program)
    one = merge_contacts(desk=own, kept=dana, other=other)
    assert (one.name, one.email, one.decides) == ("Dana Whitlock", "dana@example.org", True)
    assert list(garden.contacts.all()) == [one]
    assert client.get(reverse("directory:contact-edit", args=[other.pk]))["Location"] == garden.get_absolute_url()
    assert differences(own.program) == []
    undo_newest(own)
    assert rows(own.program) == before
