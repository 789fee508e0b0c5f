"""The page for who saves on an old version: what was typed beside what is stored, in words that can be compared."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.test import Client
from django.urls import reverse

from partners.directory.actions import add_partner, edit_partner
from partners.program.models import Membership
from partners.wish_list.actions import edit_need
from partners.wish_list.models import Need
from tests import people
from tests.ladder import flat
from tests.rows import make_row

pytestmark = pytest.mark.django_db


def test_a_row_that_was_chosen_is_named_and_one_of_another_program_is_not(
    signed_in: Client, june: Membership, otto: Membership
) -> None:
    here, there = (people.make_school(june.program, name) for name in ("Millrace Elementary", "North Ridge"))
    foreign = people.make_school(otto.program, "Stone Quay School")
    need = make_row(Need, june.program, school=here, what="pots")
    edit_need(desk=people.make_desk(june.program), need=need, what="terracotta pots")
    typed = {"what": "clay", "school": there.pk, "seen": 1, "hundredths_per_student": "1", "pack_size": "1"}
    page = signed_in.get(reverse("wish_list:need-edit", args=[need.pk]))
    form = {name: value for name, value in page.context["form"].initial.items() if value is not None}
    answer = signed_in.post(reverse("wish_list:need-edit", args=[need.pk]), {**form, **typed})
    assert answer.status_code == 409
    assert "North Ridge</td>" in flat(answer)
    assert "Millrace Elementary </td>" in flat(answer)
    assert foreign.name not in flat(answer)


def test_only_what_differs_stands_there_and_whose_it_is(signed_in: Client, june: Membership, omar: Membership) -> None:
    desk = people.make_desk(june.program)
    bakery = add_partner(desk=desk, name="Bluebird Bakery", phone="+12015550112", business_kind="retail")
    edit_partner(desk=replace(desk, user=omar.user), partner=bakery, street="9 Second Street")
    address = reverse("directory:partner-edit", args=[bakery.pk])
    form = {name: value for name, value in signed_in.get(address).context["form"].initial.items() if value is not None}
    typed = {**form, "seen": 1, "street": "11 Second Street", "business_kind": "coffee_shop", "phone": "(201) 555-0112"}
    answer = signed_in.post(address, typed)
    assert "It was Omar." in flat(answer)
    assert '<td data-label="Field">Phone' not in flat(answer)
    told = {row["label"]: (str(row["typed"]), str(row["stored"])) for row in answer.context["rows"]}
    told.pop("Phone")
    assert told.pop("Street") == ("11 Second Street", "9 Second Street")
    assert list(told.values()) == [("Coffee shop or bakery", "Other shop")]


def test_what_was_typed_for_a_row_that_was_taken_out_stands_there_again(signed_in: Client, june: Membership) -> None:
    here = people.make_school(june.program, "Millrace Elementary")
    need = make_row(Need, june.program, school=here, what="pots")
    address = reverse("wish_list:need-edit", args=[need.pk])
    need.delete()
    answer = signed_in.post(address, {"what": "clay", "school": here.pk, "seen": 1, "once": "a", "unit": ""})
    assert answer.status_code == 404
    told = [(row["label"], row["typed"]) for row in answer.context["typed"]]
    assert told == [("What", "clay"), ("School", "Millrace Elementary")]
    assert "clay</dd>" in flat(answer).replace(" </dd>", "</dd>")


def test_a_button_that_leads_nowhere_has_nothing_to_say_again(signed_in: Client) -> None:
    answer = signed_in.post(reverse("agenda:settle", args=["visits.follow-up", 7]), {"act": "done", "once": "a"})
    assert (answer.status_code, "What you typed" in flat(answer)) == (404, False)


def test_what_was_typed_is_called_as_in_its_own_form(signed_in: Client) -> None:
    answer = signed_in.post(reverse("directory:partner-edit", args=[7]), {"name": "Tamarack Hardware", "once": "a"})
    assert [(row["label"], row["typed"]) for row in answer.context["typed"]] == [("Name", "Tamarack Hardware")]
