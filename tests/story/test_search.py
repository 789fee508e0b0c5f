"""One box finds everything."""

from __future__ import annotations

import pytest
from django.urls import reverse

from partners.directory.actions import add_partner
from partners.funding.buying_models import Purchase
from partners.funding.grant_models import Grant
from partners.funding.occasion_models import Occasion
from partners.gifts.models import Gift, GiftLine
from partners.letters.models import Letter
from partners.program.models import Opened
from partners.story import find as finding
from partners.wish_list.models import Need
from tests.ladder import enter, flat, status
from tests.people import TUESDAY, make_partner, make_school

pytestmark = pytest.mark.django_db

FIND = reverse("story:search")


@pytest.fixture
def book(desk):
    """One of each thing that can be found, all with a word in common."""
    partner = add_partner(desk=desk, name="Café Núñez", person="Anaïs Café")
    program = desk.program
    Need.objects.create(program=program, what="Café cups")
    gift = Gift.objects.create(program=program, partner=partner, day=TUESDAY)
    GiftLine.objects.create(program=program, gift=gift, description="Cardboard from the café")
    Grant.objects.create(program=program, partner=partner, title="Café clay")
    Purchase.objects.create(program=program, vendor="Clay House", what="café curtains", slip_on=TUESDAY)
    Occasion.objects.create(program=program, title="Café clear-out", first_on=TUESDAY)
    Letter.objects.create(program=program, document="gratitude-letter", title="Thanks to Café Núñez", day=TUESDAY)
    return partner


def found(client, typed):
    groups = client.get(FIND, {"q": typed}).context["groups"]
    return {str(group.title): [one.label for one in group.found] for group in groups}


@pytest.mark.parametrize("typed", ["cafe", "CAFÉ", " café "])
def test_every_kind_is_found_whatever_the_accents(signed_in, book, typed):
    assert found(signed_in, typed) == {
        "Partners": ["Café Núñez"],
        "People": ["Anaïs Café"],
        "Wish list": ["Café cups"],
        "Gifts": ["Cardboard from the café"],
        "Grants": ["Café clay"],
        "Buying": ["café curtains"],
        "Free days": ["Café clear-out"],
        "Letters and sheets": ["Thanks to Café Núñez"],
    }


def test_every_word_has_to_be_there(signed_in, book):
    assert found(signed_in, "cardboard cafe") == {"Gifts": ["Cardboard from the café"]}
    assert found(signed_in, "cardboard pots") == {}


@pytest.mark.parametrize("name", ["مكتبة النهر", "Đặng Thị Hoa", "ספריה", "0'Hara & Søn"])
def test_names_in_other_scripts_are_found(signed_in, desk, name):
    add_partner(desk=desk, name=name)
    assert found(signed_in, name)["Partners"] == [name]


@pytest.mark.parametrize("typed", ["%", "_", "!!", "'", "\\", "' OR 1=1 --", "\x00"])
def test_signs_alone_find_nobody(signed_in, program, typed):
    make_partner(program)
    assert found(signed_in, typed) == {}


def test_what_was_typed_is_shown_as_typed(signed_in, book):
    shown = flat(signed_in.get(FIND, {"q": "<script>zz"}))
    assert "<script>zz" not in shown
    assert "Nothing is found for “&lt;script&gt;zz”." in shown


def test_the_empty_page_says_what_it_finds(signed_in):
    assert "This finds partners, the people there, what you need, what was given, and letters." in flat(
        signed_in.get(FIND)
    )


def test_too_many_are_cut_and_said(signed_in, program):
    for number in range(15):
        make_partner(program, f"Shop {number:02d}")
    assert len(found(signed_in, "shop")["Partners"]) == 10
    assert "There is more." in flat(signed_in.get(FIND, {"q": "shop"}))


def test_older_rows_are_found_by_the_database(signed_in, program, monkeypatch):
    monkeypatch.setattr(finding, "FOLDED_HERE", 1)
    Need.objects.create(program=program, what="Clay tools")
    Need.objects.create(program=program, what="Brushes")
    assert found(signed_in, "clay") == {"Wish list": ["Clay tools"]}


def test_another_programs_rows_are_never_found(client, otto, book):
    assert found(enter(client, otto), "cafe") == {}


def test_a_guest_finds_only_what_is_open(client, grace, book):
    assert set(found(enter(client, grace), "cafe")) == {"Partners", "People", "Wish list"}
    grace.opened = [Opened.PARTNERS, Opened.GIFTS]
    grace.save()
    assert set(found(client, "cafe")) == {"Partners", "People", "Gifts"}


def test_a_teacher_of_one_school_does_not_find_the_others_gifts(client, omar, program):
    mine, other = make_school(program), make_school(program, "North Ridge Elementary")
    gift = Gift.objects.create(program=program, source="families", day=TUESDAY, school=other)
    GiftLine.objects.create(program=program, gift=gift, description="Yarn")
    omar.school_ids = [mine.pk]
    omar.save()
    assert found(enter(client, omar), "yarn") == {}


def test_searching_takes_a_fixed_number_of_queries(signed_in, desk, book, django_assert_num_queries):
    for number in range(30):
        add_partner(desk=desk, name=f"Café {number}", person=f"Café {number}")
        Need.objects.create(program=desk.program, what=f"Café cups {number}")
    # Session, person, membership; partners; people; helpers; projects and trades, of which there are none; then two
    # each for needs, gifts, grants, purchases, free days and letters.
    with django_assert_num_queries(21):
        signed_in.get(FIND, {"q": "cafe"})


def test_who_may_search(client, june, grace):
    assert status(client, FIND) == 302
    assert status(enter(client, june), FIND, "post") == 405
    grace.opened = []
    grace.save()
    assert status(enter(client, grace), FIND) == 403


def test_ever_so_many_words_are_answered(signed_in, book):
    assert found(signed_in, "zinc " * 2_000) == {}
    assert status(signed_in, reverse("helpers:helper-list") + "?q=" + "+zinc" * 1_500) == 200
