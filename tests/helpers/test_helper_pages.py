"""The pages of helpers: the ladder, what a guest and a teacher of some schools see, and each form."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.helpers.actions import called, clear, open_batch, stop, type_slip
from partners.helpers.models import Helper
from partners.program.desk import Desk
from partners.program.models import Membership, Opened, Role
from tests import people
from tests.helpers.cast import helper, plan
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
READ = ["helper-list", "helper-export", "session-list", "kit-list", "hour-list"]
WRITE = ["helper-new", "helper-to-call", "slip-stacks", "session-new", "session-fill"]


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.fixture
def rosa(own: Desk) -> Helper:
    return helper(
        own, phone="+12015550140", email="rosa@example.org", note="Speaks softly.", jobs=["hanging"], days=[1]
    )


def page(client: Client, name: str, *args: Any, **query: str) -> str:
    answer = client.get(reverse(f"helpers:{name}", args=args), query)
    assert answer.status_code == 200
    return flat(answer)


@pytest.mark.parametrize("name", [*READ, *WRITE])
def test_signed_out_nobody_gets_in_and_another_method_is_refused(client: Client, june: Membership, name: str) -> None:
    assert status(client, reverse(f"helpers:{name}")) == 302
    assert status(enter(client, june), reverse(f"helpers:{name}"), "delete") == 405


@pytest.mark.parametrize("name", READ)
def test_a_guest_reads_what_is_opened_and_writes_nothing(client: Client, grace: Membership, name: str) -> None:
    assert status(enter(client, grace), reverse(f"helpers:{name}")) == 403
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.HELPERS])
    assert status(client, reverse(f"helpers:{name}")) == 200
    assert {status(client, reverse(f"helpers:{one}")) for one in WRITE} == {403}


def test_unknown_and_foreign_rows_are_not_there(signed_in: Client, otto: Membership) -> None:
    foreign = helper(people.make_desk(otto.program), "Otto's helper")
    for pk in (UNKNOWN, foreign.pk):
        assert status(signed_in, reverse("helpers:helper-detail", args=[pk])) == 404


def test_a_guest_sees_neither_phone_nor_mail_nor_note(client: Client, grace: Membership, rosa: Helper) -> None:
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.HELPERS])
    enter(client, grace)
    file = b"".join(client.get(reverse("helpers:helper-export")).streaming_content).decode()
    for shown in (page(client, "helper-list"), page(client, "helper-detail", rosa.pk), file):
        assert "Rosa Delgado" in shown
        assert not [word for word in ("555-0140", "5550140", "rosa@", "softly") if word in shown]


def test_a_teacher_of_one_school_sees_its_helpers_and_sessions_only(client: Client, own: Desk) -> None:
    here, there = people.make_school(own.program), people.make_school(own.program, "North Ridge")
    helper(own, "Here Abara", school=here)
    other = helper(own, "There Odell", school=there)
    plan(own, school=there, place="the far hall")
    enter(client, people.make_member(own.program, "Omar", Role.TEACHER, school_ids=[here.pk]))
    assert "There Odell" not in page(client, "helper-list")
    assert "the far hall" not in page(client, "session-list", when="")
    assert status(client, reverse("helpers:helper-detail", args=[other.pk])) == 404


def test_the_list_is_narrowed_by_job_day_state_and_stack(signed_in: Client, own: Desk, rosa: Helper) -> None:
    batch = open_batch(desk=own)
    type_slip(desk=own, batch=batch, name="", unreadable=True)
    clear(desk=own, helper=helper(own, "Ilse Brandt", days=[0]), cleared=True, by="the office")
    stop(desk=own, helper=helper(own, "Walter Okoye"), day=DAY)
    for query, names in [
        ({"job": "hanging"}, {"Rosa"}), ({"on": "0"}, {"Ilse"}), ({"state": "cleared"}, {"Ilse"}),
        ({"q": "rosa"}, {"Rosa"}), ({"state": "unread"}, {"cannot be read"}), ({"state": "stopped"}, {"Walter"}),
        ({"batch": "1"}, {"cannot be read"}), ({}, {"Rosa", "Ilse", "cannot be read"}),
        ({"state": "not_cleared"}, {"Rosa", "cannot be read"}),
    ]:  # fmt: skip
        table = page(signed_in, "helper-list", **query).partition("<tbody")[2]
        assert {name for name in ("Rosa", "Ilse", "Walter", "cannot be read") if name in table} == names, query


@pytest.mark.parametrize("name", ["helpers:helper-new", "helpers:show-new", "funding:grant-new", "school:project-new"])
def test_where_there_is_one_school_it_is_chosen_already(signed_in: Client, june: Membership, name: str) -> None:
    school = people.make_school(june.program)
    assert signed_in.get(reverse(name)).context["form"]["school"].value() == school.pk


def test_one_button_says_who_was_called(signed_in: Client, rosa: Helper) -> None:
    assert "Rosa Delgado" in page(signed_in, "helper-to-call")
    assert status(signed_in, reverse("helpers:helper-called", args=[rosa.pk]), "post") == 302
    assert "Everybody was called." in page(signed_in, "helper-to-call")


def test_a_new_helper_like_a_known_one_is_asked_about(signed_in: Client, rosa: Helper) -> None:
    typed = {"name": "R. Delgado", "phone": "201-555-0140"}
    shown = flat(signed_in.post(reverse("helpers:helper-new"), typed))
    assert "The same phone" in shown
    assert Helper.objects.count() == 1
    assert status(signed_in, reverse("helpers:helper-new"), "post", **typed, new_one="yes") == 302
    assert Helper.objects.count() == 2


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ({"cleared": "on", "cleared_by": ""}, "Say who in the office confirmed it."),
        ({"cleared": "on", "cleared_by": "Ms. Abara", "cleared_until": "2020-01-01"}, "That day is past"),
    ],
)
def test_clearance_needs_who_confirmed_it_and_a_day_to_come(
    signed_in: Client, rosa: Helper, typed: dict[str, str], error: str
) -> None:
    assert error in flat(signed_in.post(reverse("helpers:helper-clearance", args=[rosa.pk]), typed))
    rosa.refresh_from_db()
    assert not rosa.cleared


def test_the_schools_rules_stand_beside_the_clearance(signed_in: Client, own: Desk, rosa: Helper) -> None:
    own.program.welcomes.create(school=people.make_school(own.program), rules="Fingerprints once a year.")
    assert "Fingerprints once a year." in page(signed_in, "helper-clearance", rosa.pk)


def test_hours_come_first_and_money_only_by_a_figure_of_that_year(signed_in: Client, own: Desk, rosa: Helper) -> None:
    session = plan(own, DAY)
    own.program.turns.create(session=session, helper=rosa, came=True, minutes=360)
    shown = page(signed_in, "hour-list")
    assert "6 h" in shown
    assert "no figure is known for this year" in shown
    type(own.program).objects.update(hour_value_cents=3000, hour_value_year=2026, hour_value_source="State office")
    assert "$180.00" in page(signed_in, "hour-list")


def test_settings_take_a_value_of_hours_only_with_year_and_source(signed_in: Client, own: Desk) -> None:
    from tests.whole_site.pages import Page

    address = reverse("program:settings")
    form = next(one for one in Page.read(signed_in.get(address).content.decode()).forms if "thank_within" in one.sent)
    shown = flat(signed_in.post(address, form.data(hour_value_cents="31.80")))
    assert "A value of hours is told only with its year and who published it." in shown
    more = {"hour_value_cents": "31.80", "hour_value_year": "2022", "hour_value_source": "Independent Sector"}
    assert signed_in.post(address, form.data(**more)).status_code == 302
    own.program.refresh_from_db()
    assert own.program.hour_value_cents == 3180


def test_a_call_is_noted_once(own: Desk, rosa: Helper) -> None:
    called(desk=own, helper=rosa, day=DAY)
    assert rosa.first_called_on == DAY
    assert differences(own.program) == []


def test_a_childs_name_in_the_class_is_asked_about_before_it_is_kept(signed_in: Client, rosa: Helper) -> None:
    for address in (reverse("helpers:helper-new"), reverse("helpers:helper-edit", args=[rosa.pk])):
        answer = signed_in.post(address, {"name": "Rosa Castle", "room": "Emma Torres"})
        assert "Is “Emma Torres” a child?" in flat(answer)
        assert 'name="room_is_class"' in flat(answer)
    assert not Helper.objects.filter(room="Emma Torres").exists()
    signed_in.post(reverse("helpers:helper-new"), {"name": "Rosa Castle", "room": "Blue Fox", "room_is_class": "on"})
    assert Helper.objects.get(room="Blue Fox").name == "Rosa Castle"


def test_a_name_of_nothing_but_turning_signs_is_asked_for(signed_in):
    page = signed_in.post(reverse("helpers:helper-new"), {"name": "\u202e", "at_school": "on"})
    assert page.context["form"].errors["name"] == ["Type the name."]
    assert not Helper.objects.exists()
