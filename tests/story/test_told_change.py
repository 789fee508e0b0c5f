"""What a change did, field by field; every page of a row leads to its changes; why one cannot be taken back."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from partners.directory.actions import add_partner, edit_partner
from partners.directory.models import Partner
from partners.gifts.models import Gift
from partners.ground.changes import change
from partners.ground.models import Event
from partners.program.bar import pages_of_rows
from partners.program.desk import row_names
from partners.program.models import Role
from partners.story.told_change import by_row, told
from partners.visits.actions import record_ask
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY, make_desk, make_member, make_school
from tests.rows import make_book, make_row

pytestmark = pytest.mark.django_db
OWN = 5_000_001
# Their address is a file, or that of all rows like them.
NO_PAGE = {"attachment", "wording"}


@pytest.fixture
def own(june):
    return make_desk(june.program, user=june.user)


@pytest.fixture
def shop(own) -> Partner:
    return add_partner(desk=own, name="Riverbend", city="Alder Falls")


def page_of(event: Event) -> str:
    return reverse("story:change", args=[event.pk])


def of(row) -> str:
    return reverse("story:row-history", kwargs={"slug": row._meta.model_name, "pk": row.pk})


def test_a_row_touched_several_times_is_told_from_first_to_last() -> None:
    touched = [
        {"model": "partner", "pk": 1, "before": {"city": "A", "version": 1}, "after": {"city": "B", "version": 2}},
        {"model": "partner", "pk": 1, "before": {"web": "", "city": "B"}, "after": {"web": "w", "city": "C"}},
        {"model": "partner", "pk": 2, "before": None, "after": {"name": "New"}},
        {"model": "partner", "pk": 2, "before": {"name": "New"}, "after": {"name": "Newer"}},
        {"model": "partner", "pk": 3, "before": {"name": "Old"}, "after": {"name": "Older"}},
        {"model": "partner", "pk": 3, "before": {"name": "Older", "city": "D"}, "after": None},
    ]
    assert by_row(touched) == {
        ("partner", 1): ({"city": "A", "version": 1, "web": ""}, {"city": "C", "version": 2, "web": "w"}),
        ("partner", 2): (None, {"name": "Newer"}),
        ("partner", 3): ({"name": "Old", "city": "D"}, None),
    }


def test_money_days_choices_and_rows_are_told_in_words(signed_in: Client, own, shop) -> None:
    gift = make_row(Gift, own.program, partner=shop, form="money", amount_cents=1000)
    with change(own, "a change") as book:
        book.update(gift, amount_cents=123_456, day=TUESDAY, partner=add_partner(desk=own, name="Bluebird"))
    rows, more = told(own, Event.objects.latest("pk"))
    assert (rows[0].kind, rows[0].title, rows[0].how) == ("Partner", "Bluebird", "added")
    assert "Kind" not in {field.label for field in rows[0].fields}
    assert more == 0
    fields = {field.label: (field.before, field.after) for field in rows[1].fields}
    assert ("Riverbend", "Bluebird") in fields.values()
    assert ("$10.00", "$1,234.56") in fields.values()
    assert "October 6, 2026" in {after for _before, after in fields.values()}
    page = flat(signed_in.get(page_of(Event.objects.latest("pk"))))
    assert "$1,234.56" in page
    assert "June" in page
    assert "name_key" not in page


def test_a_newer_change_is_named_that_has_to_be_taken_back_first(signed_in: Client, own, shop) -> None:
    edit_partner(desk=own, partner=shop, city="Eastbrook")
    first = Event.objects.latest("pk")
    edit_partner(desk=own, partner=shop, city="Westbrook")
    page = flat(signed_in.get(page_of(first)))
    assert "A newer change stands on it" in page
    assert page_of(Event.objects.latest("pk")) in page
    refused = flat(signed_in.post(reverse("story:undo", args=[first.pk]), {"next": page_of(first)}, follow=True))
    assert "What stands on it: Partner Riverbend changed." in refused
    signed_in.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert "A newer change" not in flat(signed_in.get(page_of(first)))


def test_every_page_of_a_row_leads_to_its_changes(signed_in: Client, own) -> None:
    """Which pages these are is read from the models: whatever has an address of its own."""
    make_book(own.program, OWN, "Ours ", Partner={"phone": "", "web": ""}, School={"phone": ""}, Contact={"phone": ""})
    for view, kind in sorted(pages_of_rows().items()):
        said = Event.objects.create(program=own.program, words=f"About this {kind}", about_model=kind, about_pk=OWN)
        own.program.touched.create(event=said, model=kind, row=OWN)
        history = reverse("story:row-history", kwargs={"slug": kind, "pk": OWN})
        assert f'href="{history}"' in flat(signed_in.get(reverse(view, args=[OWN]))), view
        shown = flat(signed_in.get(history))
        assert str(said) in shown, view
        assert page_of(said) in shown, view


def test_the_kinds_of_rows_with_a_page_are_all_known() -> None:
    with_address = {m._meta.model_name for m in row_names().values() if hasattr(m, "get_absolute_url")}
    assert with_address - NO_PAGE == set(pages_of_rows().values())
    assert len(with_address) >= 18


def test_what_belongs_to_a_row_is_in_its_history(signed_in: Client, own, shop) -> None:
    record_ask(desk=own, partner=shop, what="pots", asked_on=TUESDAY)
    add_partner(desk=own, name="Bluebird")
    words = flat(signed_in.get(of(shop)))
    assert "Partner Riverbend added" in words
    assert "Bluebird" not in words


def test_a_teacher_of_one_school_is_told_of_its_rows_only_and_puts_back_what_they_took_out(
    client: Client, own, shop
) -> None:
    mine, other = make_school(own.program), make_school(own.program, "North Ridge Elementary")
    lena = make_member(own.program, "Lena", Role.TEACHER, school_ids=[mine.pk])
    desk = make_desk(own.program, user=lena.user, school_ids=frozenset([mine.pk]))
    rows = [
        make_row(Gift, own.program, partner=shop, school=school, purpose=f"for {school}") for school in (mine, other)
    ]
    with change(
        desk,
        "two gifts",
    ) as book:
        book.about(shop)
        for gift in rows:
            book.update(gift, purpose=f"{gift.purpose} now")
    page = flat(enter(client, lena).get(page_of(Event.objects.latest("pk"))))
    assert "Millrace Elementary now" in page
    assert "North Ridge" not in page
    with change(desk, "one gift out") as book:
        book.remove(Gift.objects.get(pk=rows[0].pk))
    client.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert Gift.objects.filter(pk=rows[0].pk).exists()


def test_who_may_look(client: Client, june, grace, otto, own, shop) -> None:
    event = Event.objects.latest("pk")
    for address in (page_of(event), of(shop)):
        client.logout()
        assert status(client, address) == 302
        assert status(enter(client, grace), address) == 403
        assert status(enter(client, june), address, "post") == 405
        assert status(enter(client, otto), address) == 404
    enter(client, june)
    assert status(client, reverse("story:change", args=[UNKNOWN])) == 404
    for slug in ("membership", "user", "nonsense"):
        assert status(client, reverse("story:row-history", kwargs={"slug": slug, "pk": june.pk})) == 404
