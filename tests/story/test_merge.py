"""Two rows of one partner are put together: nothing is lost, the old address leads on, and undo parts them again."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import models
from django.test import Client
from django.urls import reverse

from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.asking.may_ask import Verdict
from partners.directory.actions import add_contact, add_partner, edit_partner, keep_two
from partners.directory.models import FormerPartner, Partner
from partners.directory.same_partner import likely_partners
from partners.ground.changes import ChangedMeanwhile
from partners.ground.models import Event
from partners.ground.undo import CannotUndo, undo
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.story.merge import merge
from partners.story.references import references
from partners.visits.actions import Stop, plan_outing, record_visit
from partners.visits.models import Visit
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY, make_desk
from tests.rows import make_row
from tests.whole_book import rows

pytestmark = pytest.mark.django_db
PHONE = "+15555550101"


@pytest.fixture
def own(june: Membership) -> Desk:
    return make_desk(june.program, user=june.user)


@pytest.fixture
def garden(own: Desk) -> Partner:
    return add_partner(desk=own, name="Riverbend Garden Center", person="Dana Whitfield", notes="Ask for Dana.")


@pytest.fixture
def bend(own: Desk) -> Partner:
    return add_partner(desk=own, name="River Bend", phone=PHONE, person="Dana Whitfield", city="Alder Falls")


def page_of(partner: Partner, other: Any = None) -> str:
    return reverse("story:partner-merge", args=[partner.pk]) + (f"?other={other.pk}" if other else "")


def sent(client: Client, partner: Partner, other: Partner, **chosen: str) -> dict[str, Any]:
    form = client.get(page_of(partner, other)).context["form"]
    return {name: form[name].value() for name in form.fields} | chosen


def test_two_that_are_not_one_are_not_shown_again_until_that_is_taken_back(client, june, own: Desk, garden) -> None:
    twin = add_partner(desk=own, name="Riverbend Garden Centre", phone=PHONE)
    shown = reverse("story:same-list")
    assert [pair["second"] for pair in enter(client, june).get(shown).context["pairs"]] == [twin]
    client.post(reverse("story:partner-two", args=[twin.pk]), {"other": garden.pk})
    assert client.get(shown).context["pairs"] == []
    take_back(desk=own, event=Event.objects.latest("pk"))
    assert len(client.get(shown).context["pairs"]) == 1


def test_what_reads_the_same_is_no_choice(client, june, own: Desk) -> None:
    one = add_partner(desk=own, name="Bluebird Bakery", phone="+12015550112")
    two = add_partner(desk=own, name="The Bluebird", phone="(201) 555-0112")
    assert enter(client, june).get(page_of(one, two)).context["form"].parts == ["name"]


def test_two_that_were_said_to_be_two_can_still_be_put_together(own: Desk, garden, bend) -> None:
    keep_two(desk=own, partner=bend, other=garden)
    before = rows(own.program)
    merge(desk=own, kept=garden, other=bend)
    assert not own.program.not_same.exists()
    undo(own, Event.objects.latest("pk"))
    assert rows(own.program) == before


def test_every_kind_of_row_that_stands_on_it_moves_and_undo_brings_it_back(own: Desk, garden, bend) -> None:
    """The kinds are read from the models: a new one is moved, or fails here."""
    for model, column in references(Partner):
        if model is not FormerPartner:
            make_row(model, own.program, **{column: bend})
    before = rows(own.program)
    merge(desk=own, kept=garden, other=bend)
    left = {m.__name__: m._base_manager.filter(**{c: bend.pk}).count() for m, c in references(Partner)}
    assert set(left.values()) == {0}
    assert len(left) >= 15
    assert garden.visits.count() == 1
    undo(own, Event.objects.latest("pk"))
    assert rows(own.program) == before


def test_no_rule_of_the_database_is_in_the_way_that_is_not_settled(own: Desk) -> None:
    """Rows that can stand on a partner only once are settled by name; another such rule has to be thought about."""
    once = {
        constraint.name
        for model, column in references(Partner)
        for constraint in model._meta.constraints
        if isinstance(constraint, models.UniqueConstraint) and column in constraint.fields
    }
    assert once == {"outingstop_once"}


def test_the_other_name_is_found_again_and_what_is_kept_ready_is_right(own: Desk, garden, bend) -> None:
    record_visit(desk=own, partner=bend, happened="hello", day=TUESDAY)
    merge(desk=own, kept=garden, other=Partner.objects.get(pk=bend.pk))
    garden.refresh_from_db()
    assert (garden.also_called, garden.phone, garden.city) == ("River Bend", PHONE, "Alder Falls")
    assert garden.last_heard_on == TUESDAY
    assert own.partners.search("river bend").get() == garden
    assert likely_partners(own, name="The River Bend")[0].partner == garden
    assert [person.name for person in garden.contacts.all()] == ["Dana Whitfield"]
    assert differences(own.program) == []


def test_people_whose_rows_say_different_things_both_stay(own: Desk, garden, bend) -> None:
    garden.contacts.update(role="owner")
    bend.contacts.update(role="manager")
    add_contact(desk=own, partner=Partner.objects.get(pk=bend.pk), name="Luis", phone=PHONE)
    merge(desk=own, kept=Partner.objects.get(pk=garden.pk), other=Partner.objects.get(pk=bend.pk))
    assert sorted(person.name for person in garden.contacts.all()) == ["Dana Whitfield", "Dana Whitfield", "Luis"]
    assert differences(own.program) == []


def test_an_outing_to_both_leads_there_once_and_knows_who_went(own: Desk, garden, bend) -> None:
    stops = [Stop(one, None, Verdict(TUESDAY, (), TUESDAY)) for one in (garden, bend)]
    outing = plan_outing(desk=own, day=TUESDAY, stops=stops)
    visit = record_visit(desk=own, partner=bend, happened="hello", day=TUESDAY)
    outing.stops.filter(partner=bend).update(visit=visit)
    before = rows(own.program)
    merge(desk=own, kept=garden, other=Partner.objects.get(pk=bend.pk))
    assert [(stop.partner, stop.visit) for stop in outing.stops.all()] == [(garden, visit)]
    assert Visit.objects.get(pk=visit.pk).partner == garden
    take_back(desk=own, event=Event.objects.latest("pk"))
    assert rows(own.program) == before
    assert differences(own.program) == []


def test_both_stand_side_by_side_and_a_press_puts_them_together(signed_in: Client, own: Desk, garden, bend) -> None:
    edit_partner(desk=own, partner=garden, city="Eastbrook")
    page = flat(signed_in.get(page_of(garden, bend)))
    assert "These people are at both and become one: Dana Whitfield" in page
    assert "Contacts: 1" in page
    typed = sent(signed_in, garden, bend, name="other", address="other")
    answer = signed_in.post(page_of(garden, bend), typed, follow=True)
    garden.refresh_from_db()
    assert "Riverbend Garden Center and River Bend are one now." in flat(answer)
    assert (garden.name, garden.also_called, garden.city) == ("River Bend", "Riverbend Garden Center", "Alder Falls")
    assert "also called Riverbend Garden Center" in flat(answer)


def test_old_addresses_and_old_pages_lead_to_the_one_that_was_kept(signed_in: Client, own: Desk, garden, bend) -> None:
    merge(desk=own, kept=garden, other=bend)
    gone = Partner(pk=bend.pk)
    assert signed_in.get(gone.get_absolute_url())["Location"] == garden.get_absolute_url()
    edit = reverse("directory:partner-edit", args=[bend.pk])
    assert signed_in.get(edit)["Location"] == reverse("directory:partner-edit", args=[garden.pk])
    answer = signed_in.post(edit, {"name": "River Bend on Main"})
    assert answer.status_code == 409
    assert "River Bend on Main" in flat(answer)
    signed_in.post(reverse("visits:visit-new"), {"partner_pk": bend.pk, "happened": "hello"})
    assert garden.visits.count() == 1


def test_an_old_address_leads_through_two_mergers(signed_in: Client, own: Desk, garden, bend) -> None:
    merge(desk=own, kept=garden, other=bend)
    third = add_partner(desk=own, name="Bluebird")
    third = merge(desk=own, kept=third, other=Partner.objects.get(pk=garden.pk))
    assert signed_in.get(Partner(pk=bend.pk).get_absolute_url())["Location"] == third.get_absolute_url()
    assert third.also_called == "Riverbend Garden Center; River Bend"


def test_whoever_saw_an_older_row_is_told_and_nothing_moves(signed_in: Client, own: Desk, garden, bend) -> None:
    typed = sent(signed_in, garden, bend)
    edit_partner(desk=own, partner=bend, city="Eastbrook")
    before = rows(own.program)
    assert signed_in.post(page_of(garden, bend), typed).status_code == 409
    assert rows(own.program) == before
    merge(desk=own, kept=garden, other=Partner.objects.get(pk=bend.pk))
    with pytest.raises(ChangedMeanwhile):
        merge(desk=own, kept=bend, other=garden)


def test_what_changed_since_stands_in_the_way_of_parting_them(own: Desk, garden, bend) -> None:
    merge(desk=own, kept=garden, other=bend)
    merged = Event.objects.latest("pk")
    edit_partner(desk=own, partner=Partner.objects.get(pk=garden.pk), city="Eastbrook")
    with pytest.raises(CannotUndo):
        take_back(desk=own, event=merged)
    take_back(desk=own, event=Event.objects.latest("pk"))
    take_back(desk=own, event=merged)
    assert differences(own.program) == []


def test_a_thousand_rows_move_in_few_statements(own: Desk, garden, bend, django_assert_max_num_queries) -> None:
    Visit.objects.bulk_create(
        Visit(program=own.program, partner=bend, day=TUESDAY, happened="hello") for _one in range(1000)
    )
    with django_assert_max_num_queries(100):
        merge(desk=own, kept=garden, other=bend)
    assert garden.visits.count() == 1000
    with django_assert_max_num_queries(100):
        take_back(desk=own, event=Event.objects.latest("pk"))
    assert bend.visits.count() == 1000


def test_likely_ones_are_listed_and_another_is_found_by_typing(signed_in: Client, own: Desk, garden, bend) -> None:
    edit_partner(desk=own, partner=garden, phone=PHONE)
    page = flat(signed_in.get(reverse("story:same-list")))
    assert "the same phone number" in page
    assert page_of(garden, bend) in page
    assert "River Bend" in flat(signed_in.get(page_of(garden)))
    assert signed_in.get(page_of(garden), {"other": "river bend"})["Location"] == page_of(garden, bend)
    assert "No partner of this name" in flat(signed_in.get(page_of(garden), {"other": "nobody"}))


def test_who_may_put_partners_together(client: Client, june, grace, otto, own: Desk, garden, bend) -> None:
    for address in (page_of(garden, bend), reverse("story:same-list")):
        client.logout()
        assert status(client, address) == 302
        assert status(enter(client, grace), address) == 403
        assert status(enter(client, june), address, "delete") == 405
    assert status(enter(client, otto), page_of(garden, bend)) == 404
    assert status(enter(client, june), page_of(Partner(pk=UNKNOWN))) == 404
    assert status(client, page_of(garden, garden)) == 404
