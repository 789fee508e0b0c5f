"""Typing a stack of slips: letters, numbers, what is asked back, what is kept for later."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.helpers.actions import open_batch
from partners.helpers.models import Helper, SlipBatch
from partners.program.desk import Desk
from partners.program.models import Membership
from tests import people
from tests.helpers.cast import helper
from tests.ladder import flat
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.fixture
def batch(own: Desk) -> SlipBatch:
    return open_batch(desk=own, school=people.make_school(own.program))


def send(client: Client, batch: SlipBatch, **typed: str) -> Any:
    return client.post(reverse("helpers:slips-type", args=[batch.pk]), typed)


def test_a_slip_is_one_line_of_letters(signed_in: Client, own: Desk, batch: SlipBatch) -> None:
    before = rows(own.program)
    slip = {"name": "Rosa Delgado", "room": "3-A", "phone": "201 555 0140", "best_way": "t", "can": "sd", "days": "th"}
    assert send(signed_in, batch, **slip, jobs="mh", how_often="w", knows_rules="y").status_code == 302
    rosa = Helper.objects.get()
    assert (rosa.days, rosa.jobs, rosa.best_way, rosa.how_often) == (
        [1, 3],
        ["mounting", "hanging"],
        "text",
        "every week",
    )
    assert (rosa.at_school, rosa.from_home, rosa.show_day, rosa.knows_rules) == (True, False, True, True)
    assert (rosa.phone, rosa.place_in_batch, rosa.school) == ("+12015550140", 1, batch.school)
    assert differences(own.program) == []
    undo_newest(own)
    assert rows(own.program) == before


def test_slips_are_numbered_within_their_stack(signed_in: Client, batch: SlipBatch) -> None:
    for name in ("Ana", "Bo", "?"):
        send(signed_in, batch, name=name)
    assert list(Helper.objects.order_by("pk").values_list("place_in_batch", "unreadable")) == [
        (1, False), (2, False), (3, True),
    ]  # fmt: skip
    assert "Slip 4" in flat(signed_in.get(reverse("helpers:slips-type", args=[batch.pk])))


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ({"name": ""}, "Type the name, or a question mark"),
        ({"days": "mxq"}, "q, x stands for nothing here"),
        ({"phone": "call me"}, "is not a phone number"),
        ({"best_way": "ct"}, "One letter only"),
    ],
)
def test_what_cannot_be_meant_is_said_at_its_field_and_nothing_is_lost(
    signed_in: Client, batch: SlipBatch, typed: dict[str, str], error: str
) -> None:
    answer = send(signed_in, batch, **{"name": "Rosa", "skills": "paints well", **typed})
    assert error in flat(answer)
    assert 'value="paints well"' in flat(answer)
    assert not Helper.objects.exists()


def test_a_slip_of_somebody_known_is_added_to_them(signed_in: Client, own: Desk, batch: SlipBatch) -> None:
    rosa = helper(own, phone="+12015550140", jobs=["hanging"], language="Spanish")
    typed = {"name": "Rosa Delgado", "jobs": "c", "language": "English", "email": "rosa@example.org"}
    assert "the same name" in flat(send(signed_in, batch, **typed))
    assert send(signed_in, batch, **typed, add_to=str(rosa.pk)).status_code == 302
    rosa.refresh_from_db()
    assert (rosa.jobs, rosa.email, rosa.language) == (["hanging", "cutting"], "rosa@example.org", "Spanish")
    assert Helper.objects.count() == 1
    assert differences(own.program) == []


def test_a_second_person_of_that_name_is_saved_when_it_is_said(signed_in: Client, own: Desk, batch: SlipBatch) -> None:
    helper(own)
    send(signed_in, batch, name="Rosa Delgado", new_one="yes")
    assert Helper.objects.filter(name="Rosa Delgado").count() == 2


def test_somebody_elses_row_is_never_added_to(signed_in: Client, otto: Membership, batch: SlipBatch) -> None:
    foreign = helper(people.make_desk(otto.program), "Otto's helper")
    for pk in (str(foreign.pk), "nine", ""):
        answer = send(signed_in, batch, name="Ana", add_to=pk)
        assert answer.status_code == (302 if pk == "" else 404)


@pytest.mark.parametrize(("said", "room"), [("left", ""), ("class", "Emma Torres")])
def test_a_childs_name_in_the_class_is_asked_about_and_blocks_nothing(
    signed_in: Client, batch: SlipBatch, said: str, room: str
) -> None:
    assert "Is “Emma Torres” a child?" in flat(send(signed_in, batch, name="Rosa", room="Emma Torres"))
    assert not Helper.objects.exists()
    send(signed_in, batch, name="Rosa", room="Emma Torres", room_is=said)
    assert Helper.objects.get().room == room


def test_stacks_are_numbered_on(signed_in: Client, own: Desk) -> None:
    for number in (1, 2):
        signed_in.post(reverse("helpers:slip-stacks"), {"school": ""})
        assert SlipBatch.objects.latest("pk").number == number
    assert str(Event.objects.latest("pk")) == "Stack 2 of slips begun"
