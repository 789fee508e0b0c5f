"""Signing in, an empty book, who may do what, and settings that refuse nonsense."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.actions import take_back
from partners.ground.models import Event
from partners.program.keepers_changes import may_take_back
from partners.program.models import Membership, Opened, Program, Role, User
from partners.school.models import School
from tests.ladder import enter
from tests.people import SECRET, make_desk, make_member, make_program, make_school

pytestmark = pytest.mark.django_db


def sign_in(client: Client, name: str, password: str) -> Any:
    return client.post(reverse("program:sign-in"), {"username": name, "password": password})


def test_the_right_password_leads_to_today(client: Client, june: Membership) -> None:
    answer = sign_in(client, "june", SECRET)
    assert answer["Location"] == reverse("agenda:today")


def test_a_wrong_password_says_so_and_keeps_the_name(client: Client, june: Membership) -> None:
    page = sign_in(client, "june", "wrong").content.decode()
    assert "correct username and password" in page
    assert 'value="june"' in page


def test_too_many_tries_are_held_up_and_others_are_not(client: Client, june: Membership, omar: Membership) -> None:
    for _try in range(8):
        answer = sign_in(client, "june", "wrong")
    assert answer.status_code == 429
    assert "Wait a quarter of an hour" in answer.content.decode()
    assert sign_in(client, "june", SECRET).status_code == 429
    assert sign_in(client, "omar", SECRET).status_code == 302


def test_sign_in_leads_nowhere_outside_the_site(client: Client, june: Membership) -> None:
    place = reverse("program:sign-in") + "?next=https://elsewhere.example.org/"
    answer = client.post(place, {"username": "june", "password": SECRET})
    assert answer["Location"] == reverse("agenda:today")


def test_signing_out_needs_a_form_and_ends_the_session(signed_in: Client) -> None:
    assert signed_in.get(reverse("program:sign-out")).status_code == 405
    signed_in.post(reverse("program:sign-out"))
    assert signed_in.get(reverse("agenda:today")).status_code == 302


def test_somebody_without_a_program_is_told_whom_to_ask(client: Client) -> None:
    user = User.objects.create_user("nobody", password=SECRET)
    client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse("agenda:today"))["Location"] == reverse("program:no-program")
    assert "Ask the teacher who keeps the book" in client.get(reverse("program:no-program")).content.decode()


def test_an_empty_book_asks_a_name_and_one_school_then_goes_to_work(client: Client) -> None:
    assert client.get(reverse("program:sign-in"))["Location"] == reverse("school:set-up")
    page = client.post(reverse("school:set-up"), {"name": "Mara Quist", "school": "Hill Elementary"}).content.decode()
    assert "sign in as <strong>mara</strong>" in page
    assert client.get(reverse("agenda:today")).status_code == 200
    assert School.objects.get().program.teacher == "Mara Quist"


def test_set_up_is_closed_once_somebody_can_sign_in(client: Client, june: Membership) -> None:
    answer = client.post(reverse("school:set-up"), {"name": "Intruder", "school": "Mine"})
    assert answer["Location"] == reverse("program:sign-in")
    assert Program.objects.count() == 1


def test_a_member_of_two_programs_moves_between_them(client: Client, june: Membership) -> None:
    other = make_program("Stone Quay Art")
    Membership.objects.create(program=other, user=june.user, role=Role.TEACHER)
    client.force_login(june.user, backend="django.contrib.auth.backends.ModelBackend")
    client.post(reverse("program:program-choose", args=[other.pk]))
    assert "Stone Quay Art" in client.get(reverse("agenda:today")).content.decode()


def test_a_program_one_does_not_belong_to_cannot_be_chosen(signed_in: Client, otto: Membership) -> None:
    assert signed_in.post(reverse("program:program-choose", args=[otto.program_id])).status_code == 404


@pytest.mark.parametrize("name", ["settings", "member-list", "member-new"])
def test_a_teacher_is_no_keeper(client: Client, omar: Membership, name: str) -> None:
    client.force_login(omar.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse(f"program:{name}")).status_code == 403


def test_the_last_keeper_stays_keeper(signed_in: Client, june: Membership) -> None:
    place = reverse("program:member-edit", args=[june.pk])
    page = signed_in.post(place, {"role": "guest", "seen": june.version}).content.decode()
    assert "Somebody must keep the book" in page
    june.refresh_from_db()
    assert june.role == Role.KEEPER


def test_a_keeper_cannot_take_themselves_out(signed_in: Client, june: Membership) -> None:
    signed_in.post(reverse("program:member-remove", args=[june.pk]))
    assert Membership.objects.filter(pk=june.pk).exists()


def test_a_teacher_limited_to_one_school_sees_no_other(client: Client, program: Program) -> None:
    mine, other = make_school(program, "Mine"), make_school(program, "Other")
    limited = make_member(program, "Lena", Role.TEACHER, school_ids=[mine.pk])
    client.force_login(limited.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(mine.get_absolute_url()).status_code == 200
    assert client.get(other.get_absolute_url()).status_code == 404


def test_a_time_zone_that_does_not_exist_is_refused_at_its_field(signed_in: Client, program: Program) -> None:
    form = signed_in.get(reverse("program:settings")).context["form"]
    values = {name: form[name].value() or "" for name in form.fields} | {"time_zone": "Mars/Crater"}
    page = signed_in.post(reverse("program:settings"), values).content.decode()
    assert "There is no time zone of that name" in page
    program.refresh_from_db()
    assert program.time_zone == "America/New_York"


def test_two_keepers_saving_settings_do_not_overwrite(signed_in: Client, program: Program) -> None:
    form = signed_in.get(reverse("program:settings")).context["form"]
    values = {name: form[name].value() or "" for name in form.fields}
    assert signed_in.post(reverse("program:settings"), values | {"name": "First"}).status_code == 302
    answer = signed_in.post(reverse("program:settings"), values | {"name": "Second"})
    assert answer.status_code == 409
    assert "Second" in answer.content.decode()
    program.refresh_from_db()
    assert program.name == "First"


def test_a_teacher_says_how_they_sign_and_takes_it_back_and_nobody_else_does(client: Client, june, omar, desk) -> None:
    page = reverse("program:own-name")
    given = {"signs_as": "Omar Whitfield", "phone": "(201) 555-0117", "role": "keeper"}
    enter(client, omar)
    client.post(page, {**given, "seen": omar.version})
    omar.refresh_from_db()
    assert (omar.signs_as, omar.phone, omar.role) == ("Omar Whitfield", "(201) 555-0117", Role.TEACHER)
    own = make_desk(omar.program, user=omar.user, role=Role.TEACHER)
    other = make_member(omar.program, "Ida", Role.TEACHER)
    event = Event.objects.latest("pk")
    assert [may_take_back(replace(own, user=who.user), event) for who in (omar, other)] == [True, False]
    take_back(desk=own, event=event)
    omar.refresh_from_db()
    assert omar.signs_as == ""


@pytest.mark.parametrize(
    ("opened", "name"), [(Opened.GIFTS, "gifts:gift-list"), (Opened.PROJECTS, "school:project-list")]
)
def test_a_guest_comes_in_at_the_one_page_that_is_open(client: Client, program, opened: str, name: str) -> None:
    guest = enter(client, make_member(program, "Grace", Role.GUEST, opened=[opened]))
    assert guest.get("/")["Location"] == reverse(name)
    assert guest.get(reverse(name)).status_code == 200
