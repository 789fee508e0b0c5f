"""Handing over: what stands open, what is carried out and taken back, and who may see which."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.directory.models import Partner
from partners.gifts.actions import Line, receive
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.promises.actions import promise
from partners.school.approval_actions import add_approval
from partners.visits.actions import record_ask
from partners.year.handover_actions import former_teacher, hand_over
from partners.year.introduced import to_introduce
from partners.year.open_things import OPEN, desk_of, homes
from partners.year.whom_to_ask import ASK, NEVER, REST, whom_to_ask
from tests import people, whole_book
from tests.ladder import enter, flat, status
from tests.rows import make_book

pytestmark = pytest.mark.django_db
PAGES = ["year:handover", "year:handover-rows"]
KEEPERS = "year:handover-carry-out"
SOON = people.TUESDAY + timedelta(days=20)


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.fixture
def garden(own: Desk) -> Partner:
    """Gave pots last month, and stands open on both sides."""
    partner = people.make_partner(own.program)
    lines = [Line(description="terracotta pots", quantity=60)]
    receive(desk=own, source="partner", partner=partner, day=people.TUESDAY, form="goods", lines=lines)
    for side, what in (("them", "potting soil"), ("us", "a window display")):
        promise(desk=own, partner=partner, side=side, what=what, due=SOON, made_on=own.day)
    return partner


def test_each_page_is_for_who_teaches_and_takes_one_method(
    client: Client, june: Membership, omar: Membership, grace: Membership
) -> None:
    assert {status(client, reverse(name)) for name in (*PAGES, KEEPERS)} == {302}
    assert {status(enter(client, grace), reverse(name)) for name in (*PAGES, KEEPERS)} == {403}
    assert {status(enter(client, omar), reverse(name)) for name in PAGES} == {200}
    assert status(client, reverse(KEEPERS)) == 403
    assert {status(enter(client, june), reverse(name), "post") for name in PAGES} == {405}
    assert status(client, reverse("year:handover-rows"), what="nothing") == 404


def test_every_number_opens_as_many_rows_as_it_says(signed_in: Client, june: Membership) -> None:
    made = make_book(june.program, 5_000_001, "Ours ", Partner={"never_ask": False})
    for query in ("", f"?school={made['School'].pk}"):
        shown = flat(signed_in.get(reverse("year:handover") + query))
        numbers = re.findall(r'href="([^"]*hand-over/rows/[^"]*)">(\d+)</a>', shown)
        assert len(numbers) > 10
        for address, number in numbers:
            listed = signed_in.get(unescape(address))
            assert len(listed.context["table"].rows) == int(number), address


def test_another_programs_school_is_the_whole_book(signed_in: Client, otto: Membership) -> None:
    foreign = people.make_school(otto.program, "Stone Quay School")
    for typed in (str(foreign.pk), "x", "9" * 30):
        assert "Stone Quay" not in flat(signed_in.get(reverse("year:handover"), {"school": typed}))


def test_one_school_shows_its_own_and_what_is_of_no_school(own: Desk, garden: Partner) -> None:
    here, there = (people.make_school(own.program, name) for name in ("Millrace Elementary", "North Ridge"))
    for school in (here, there):
        promise(desk=own, partner=garden, side="them", what=str(school), due=SOON, made_on=own.day, school=school)
    found = OPEN["theirs"].found(desk_of(own, here))
    assert sorted(one.what for one in found) == ["Millrace Elementary", "potting soil"]
    assert homes(own) == {garden.pk: frozenset({here.pk, there.pk})}


def test_families_who_were_not_thanked_yet_stand_open_once_for_a_school(own: Desk) -> None:
    school = people.make_school(own.program)
    for what in ("egg cartons", "corks"):
        lines = [Line(description=what)]
        receive(desk=own, source="families", day=own.day, form="goods", school=school, lines=lines)
    told = [OPEN["families"].line(one) for one in OPEN["families"].found(own)]
    assert [(line.partner, line.what) for line in told] == [(f"all families of {school}", "egg cartons")]


def test_who_rests_is_told_with_who_asked(own: Desk, garden: Partner) -> None:
    never = people.make_partner(own.program, "Heron Bookkeeping", never_ask=True, rest_why="they said so")
    free = people.make_partner(own.program, "Granite Hill Tile")
    waits = people.make_partner(own.program, "Mill Pond Yarn")
    record_ask(desk=own, partner=waits, what="yarn", asked_on=own.day - timedelta(days=9))
    told = {one.partner: (one.how, one.why) for one in whom_to_ask(own, [garden, never, free, waits])}
    assert told[never] == (NEVER, "they said so")
    assert told[free] == (ASK, "")
    assert told[garden][0] == REST
    resting = people.make_partner(own.program, "Birch Books", rest_until=own.day + timedelta(days=90))
    (rests,) = whom_to_ask(own, [resting])
    assert (rests.why, rests.again) == ("they rest", resting.rest_until)
    assert told[waits] == (REST, "June’s ask of September 27, 2026 still waits for an answer")


def test_carried_out_letters_bear_the_new_name_and_ticked_approvals_end(own: Desk, garden: Partner) -> None:
    school = people.make_school(own.program)
    ends, stays = (
        add_approval(desk=own, school=school, what_for=what, by="Dr. Okafor", on=own.day)
        for what in ("asking", "trades")
    )
    before = whole_book.rows(own.program)
    hand_over(desk=own, teacher="Priya Natarajan", title="Art", approvals=[ends])
    assert former_teacher(own) == "June Castellanos"
    assert own.approvals.holding_on(own.day).get() == stays
    assert own.promises.open().count() == 2
    assert differences(own.program) == []
    whole_book.undo_newest(own)
    assert whole_book.rows(own.program) == before
    assert former_teacher(people.make_desk(type(own.program).fresh(own.program.pk))) == ""


def test_the_form_says_what_is_wrong_and_hands_over_once(signed_in: Client, own: Desk) -> None:
    seen = {"seen": own.program.version, "title": "Art teacher"}
    same = signed_in.post(reverse(KEEPERS), {**seen, "teacher": " june  castellanos", "phone": "555-0100"})
    assert "kept under this name already" in flat(same)
    assert 'value="555-0100"' in flat(same)
    signed_in.post(reverse(KEEPERS), {**seen, "teacher": "Priya Natarajan"})
    assert "Priya Natarajan took the book over from June Castellanos." in flat(signed_in.get(reverse("year:handover")))
    late = signed_in.post(reverse(KEEPERS), {**seen, "teacher": "Somebody Else"})
    assert late.status_code == 409


def test_letters_go_to_whom_something_stands_open_or_who_gave_lately(own: Desk, garden: Partner) -> None:
    people.make_partner(own.program, "Never heard of")
    old = people.make_partner(own.program, "Gave long ago")
    long_ago = own.day - timedelta(days=900)
    receive(desk=own, source="partner", partner=old, day=long_ago, form="goods", lines=[Line(description="wool")])
    assert list(to_introduce(own)) == [garden]
    own.partners.filter(pk=garden.pk).update(never_ask=True)
    assert list(to_introduce(own)) == [garden]
    own.promises.update(settled_on=own.day, settled_how="came")
    assert not to_introduce(own).exists()


def test_pages_take_as_many_queries_with_more_rows(
    own: Desk, garden: Partner, django_assert_num_queries: Any, django_assert_max_num_queries: Any
) -> None:
    from outreach.gathering.handover import gather

    with django_assert_max_num_queries(120) as counted:
        gather(own, None, {})
    for number in range(9):
        other = people.make_partner(own.program, f"Shop {number}")
        promise(desk=own, partner=other, side="us", what="cards", due=SOON, made_on=own.day)
        receive(desk=own, source="partner", partner=other, day=own.day, form="goods", lines=[Line(description="wool")])
    with django_assert_num_queries(len(counted)):
        gather(own, None, {})
