"""Inviting by link, joining with it, and that a book never loses its last keeper."""

from __future__ import annotations

import re
from datetime import timedelta
from urllib.parse import parse_qs, urlsplit

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.ground.undo import CannotUndo
from partners.program import actions
from partners.program.actions import free_username
from partners.program.invitation_actions import hash_of, invite
from partners.program.models import Invitation, Membership, Program, Role, User
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import SECRET, make_desk, make_member, make_partner, make_program, make_school

pytestmark = pytest.mark.django_db
JOIN = reverse("program:join")
MINE = {"name": "Priya Nolan", "username": "priya", "password1": "seven clay pots", "password2": "seven clay pots"}


def link_of(secret: str) -> str:
    return reverse("program:join-link", args=[secret])


@pytest.fixture
def secret(june: Membership) -> str:
    desk = make_desk(june.program, user=june.user, day=timezone.localdate())
    return invite(desk=desk, name="Priya Nolan", role=Role.TEACHER)[1]


def test_the_link_is_shown_once_as_text_and_as_a_mail(signed_in: Client, program) -> None:
    school = make_school(program)
    given = {"name": "Priya Nolan", "role": "teacher", "school_ids": [school.pk]}
    page = flat(signed_in.post(reverse("program:member-new"), given, follow=True))
    secret = re.findall(r"/join/([\w-]{43})/", page)[0]
    mail = re.findall(r'href="(mailto:[^"]+)"', page)[0].replace("&amp;", "&")
    assert f"/join/{secret}/" in parse_qs(urlsplit(mail).query)["body"][0]
    assert "\r\n" in parse_qs(urlsplit(mail).query)["body"][0]  # RFC 6068, section 5
    stored = Invitation.objects.get()
    assert stored.secret_hash == hash_of(secret)
    assert secret not in str(list(Event.objects.values_list("changes", flat=True)))
    assert signed_in.get(reverse("program:member-link")).status_code == 302
    assert secret not in flat(signed_in.get(reverse("program:member-list")))


def test_a_guest_is_offered_what_is_usual_and_comes_in_where_something_is_open(client: Client, june, program) -> None:
    offered = enter(client, june).get(reverse("program:member-new")).context["form"]["opened"].initial
    assert offered == ["partners", "wish_list"]
    guest = enter(client, make_member(program, "Grace", Role.GUEST, opened=offered))
    assert guest.get("/")["Location"] == reverse("directory:partner-list")


def test_who_is_invited_to_some_schools_reads_which_before_joining(client: Client, june, program) -> None:
    make_school(program, "Millrace Elementary")
    ridge = make_school(program, "North Ridge Elementary")
    desk = make_desk(program, user=june.user, day=timezone.localdate())
    client.get(link_of(invite(desk=desk, name="Priya Nolan", role=Role.TEACHER, school_ids=[ridge.pk])[1]))
    page = flat(client.get(JOIN))
    assert "Only these schools: North Ridge Elementary." in page
    assert "Millrace" not in page


def test_who_opens_it_chooses_name_and_password_and_is_in(client: Client, secret: str, program) -> None:
    for _again in range(2):
        assert client.get(link_of(secret))["Location"] == JOIN
        page = client.get(JOIN)
    assert page["Referrer-Policy"] == "same-origin"
    assert "no-store" in page["Cache-Control"]
    assert secret not in flat(page)
    assert "too short" in flat(client.post(JOIN, MINE | {"password1": "abc", "password2": "abc"}))
    assert client.post(JOIN, MINE)["Location"] == reverse("agenda:today")
    member = Membership.objects.get(user__username="priya")
    assert (member.role, str(member.user), member.program) == (Role.TEACHER, "Priya Nolan", program)
    assert (
        Client().post(reverse("program:sign-in"), {"username": "priya", "password": MINE["password1"]}).status_code
        == 302
    )
    assert Client().get(link_of(secret)).status_code == 404
    assert differences(program) == []


def test_who_has_a_sign_in_joins_with_it_and_moves_between_books(client: Client, otto: Membership, secret: str) -> None:
    client.get(link_of(secret))
    place = f"{reverse('program:sign-in')}?next={JOIN}"
    assert client.post(place, {"username": "otto", "password": SECRET})["Location"] == JOIN
    assert "You are signed in as Otto" in flat(client.get(JOIN))
    page = flat(client.post(JOIN, follow=True))
    assert otto.user.memberships.count() == 2
    assert "This is the book of Alder Falls Art. Move to:" in page
    assert "Stone Quay Art" in page


def test_a_member_uses_nothing_up(client: Client, june: Membership, secret: str) -> None:
    enter(client, june).get(link_of(secret))
    assert "belong to this book already" in flat(client.get(JOIN))
    client.post(JOIN)
    june.refresh_from_db()
    assert (june.role, Invitation.objects.get().used_by) == (Role.KEEPER, None)


@pytest.mark.parametrize("how", ["used", "ended", "withdrawn", "never"])
def test_a_link_that_opens_nothing_always_says_the_same(
    client: Client, june: Membership, secret: str, how: str
) -> None:
    row = Invitation.objects.filter(secret_hash=hash_of(secret))
    if how == "used":
        row.update(used_by=june.user)
    elif how == "ended":
        row.update(ends_on=row.get().created_at.date() - timedelta(days=3))
    elif how == "withdrawn":
        enter(client, june).post(reverse("program:invitation-withdraw", args=[row.get().pk]))
        client.logout()
    answer = client.get(link_of("x" * 43 if how == "never" else secret))
    assert answer.status_code == 404
    assert flat(answer) == flat(Client().get(link_of("never")))
    assert client.get(JOIN).status_code == 404


def test_a_link_that_ends_while_somebody_types_lets_nobody_in(client: Client, june: Membership, secret: str) -> None:
    client.get(link_of(secret))
    Invitation.objects.update(used_by=june.user)
    assert client.post(JOIN, MINE).status_code == 404
    assert not User.objects.filter(username="priya").exists()


def test_guessing_is_held_up_like_wrong_passwords(client: Client, secret: str) -> None:
    answers = [client.get(link_of(f"guess-{number}")).status_code for number in range(8)]
    assert answers == [404] * 7 + [429]
    assert client.get(link_of(secret)).status_code == 429


def test_taking_a_joining_back_does_not_open_the_link_again(client: Client, june: Membership, secret: str) -> None:
    client.get(link_of(secret))
    client.post(JOIN, MINE)
    take_back(desk=make_desk(june.program, user=june.user), event=Event.objects.latest("pk"))
    assert not Membership.objects.filter(user__username="priya").exists()
    assert Client().get(link_of(secret)).status_code == 404
    assert status(client, reverse("agenda:today")) == 302


def test_no_way_leads_to_a_book_without_a_keeper(june: Membership) -> None:
    desk = make_desk(june.program, user=june.user)
    omar = make_member(june.program, "Omar")
    actions.edit_member(desk=desk, member=june, role=Role.TEACHER)
    demoted = Event.objects.latest("pk")
    for gone in (
        lambda: actions.remove_member(desk=desk, member=omar),
        lambda: actions.edit_member(desk=desk, member=omar, role=Role.GUEST),
    ):
        with pytest.raises(actions.NoKeeper):
            gone()
    take_back(desk=desk, event=demoted)
    actions.edit_member(desk=desk, member=Membership.objects.get(pk=omar.pk), role=Role.GUEST)
    actions.edit_member(desk=desk, member=Membership.objects.get(pk=omar.pk), role=Role.KEEPER)
    made = Event.objects.latest("pk")
    actions.edit_member(desk=desk, member=Membership.objects.get(pk=june.pk), role=Role.GUEST)
    with pytest.raises(CannotUndo, match="must keep the book"):
        take_back(desk=desk, event=made)


def test_who_may_invite_and_withdraw(client: Client, june, omar, grace, otto, secret: str) -> None:
    withdraw = reverse("program:invitation-withdraw", args=[Invitation.objects.get().pk])
    for address, method in (
        (reverse("program:member-new"), "get"), (reverse("program:member-link"), "get"), (withdraw, "post"),
    ):  # fmt: skip
        client.logout()
        assert status(client, address, method) == 302
        assert {status(enter(client, who), address, method) for who in (omar, grace)} == {403}
        assert status(enter(client, june), address, "delete") == 405
    assert status(enter(client, otto), withdraw, "post") == 404
    assert status(enter(client, june), reverse("program:invitation-withdraw", args=[UNKNOWN]), "post") == 404
    assert make_program("Third").memberships.count() == 0


def test_a_title_is_no_name_to_sign_in_with(db: None) -> None:
    assert [free_username(name) for name in ("Dr. Ruth Okafor", "Ann-Marie Lee", "Dr.", "")] == [
        "ruth",
        "ann",
        "dr",
        "teacher",
    ]


def test_a_colleague_signs_what_they_print(client: Client, secret: str, program) -> None:
    Program.objects.update(teacher="June Castellanos", phone="(201) 555-0100", title="Art teacher")
    client.get(link_of(secret))
    client.post(JOIN, MINE)
    partner = make_partner(program)
    told = flat(client.get(reverse("outreach:document-page", args=["leave-behind", partner.pk])))
    assert told.count("Priya Nolan") > 2
    assert "June" not in told
    assert "555-0100" not in told
