"""The list of partners, and the list as a file."""

from __future__ import annotations

import csv
import io
from datetime import date

import pytest
import time_machine
from django.urls import reverse

from partners.directory.actions import add_contact, add_partner
from partners.program.models import Opened
from tests.ladder import enter, flat, status
from tests.people import make_partner, make_school

pytestmark = pytest.mark.django_db

LIST = reverse("directory:partner-list")
EXPORT = reverse("directory:partner-export")


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


def names(answer) -> list[str]:
    return [row.record.name for row in answer.context["table"].paginated_rows]


def exported(client, **data) -> list[dict[str, str]]:
    answer = client.get(EXPORT, data)
    text = b"".join(answer.streaming_content).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_list_goes_by_name_without_accents(signed_in, program):
    for name in ("Zebra Print", "Éclair Bakery", "eastside Deli", "Đông Nguyễn Market"):
        make_partner(program, name)
    assert names(signed_in.get(LIST)) == ["Đông Nguyễn Market", "eastside Deli", "Éclair Bakery", "Zebra Print"]


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("nguyen", "Nguyễn Family Nursery"),
        ("NGUYỄN nursery", "Nguyễn Family Nursery"),
        ("zoe", "Bluebird Bakery"),
        ("مكتبة", "مكتبة النهر"),
        ("o'neill", "O’Neill & Sons"),
        ("50%", "50% Off Framing"),
    ],
)
def test_search_finds_names_and_people_whatever_the_accents(signed_in, desk, typed, found):
    for name in ("Nguyễn Family Nursery", "مكتبة النهر", "O’Neill & Sons", "50% Off Framing", "Tamarack Hardware"):
        add_partner(desk=desk, name=name)
    add_partner(desk=desk, name="Bluebird Bakery", person="Zoë Núñez")
    assert names(signed_in.get(LIST, {"q": typed})) == [found]


@pytest.mark.parametrize(
    ("asking", "found"),
    [
        ("open", ["New Shop", "Quiet Shop"]),
        ("resting", ["Resting Shop"]),
        ("never", ["Never Shop"]),
        ("quiet", ["Quiet Shop"]),
        ("", ["Never Shop", "New Shop", "Quiet Shop", "Resting Shop"]),
    ],
)
def test_the_list_can_be_narrowed_to_who_may_be_asked(signed_in, program, asking, found):
    long_ago = date(2025, 10, 6)
    make_partner(program, "Quiet Shop", last_heard_on=long_ago, rest_until=date(2026, 10, 6))
    make_partner(program, "New Shop")
    make_partner(program, "Resting Shop", last_heard_on=long_ago, rest_until=date(2026, 10, 7))
    make_partner(program, "Never Shop", last_heard_on=long_ago, never_ask=True)
    assert names(signed_in.get(LIST, {"asking": asking})) == found


def test_who_rests_comes_by_the_day_it_ends_with_the_reason(signed_in, program):
    make_partner(program, "A Shop", city="Lower Quarry", rest_until=date(2027, 3, 1))
    make_partner(program, "Z Shop", city="Alder Falls", rest_until=date(2027, 1, 1), rest_why="they said no")
    answer = signed_in.get(LIST, {"asking": "resting"})
    assert names(answer) == ["Z Shop", "A Shop"]
    assert "they said no" in flat(answer)
    assert names(signed_in.get(LIST, {"city": "quarry"})) == ["A Shop"]


def test_of_a_partner_the_town_is_said_where_no_school_is(signed_in, program):
    make_school(program, city="Alder Falls")
    make_partner(program, "A Shop", city="Lower Quarry", business_kind="grocer")
    make_partner(program, "Z Shop", city="Alder Falls", business_kind="grocer")
    page = flat(signed_in.get(LIST))
    assert ("Grocer, Lower Quarry" in page, "Alder Falls<" in page) == (True, False)


def test_the_list_can_be_narrowed_to_a_kind(signed_in, program):
    make_partner(program, "Library", kind="library")
    make_partner(program, "Diner", business_kind="restaurant")
    assert names(signed_in.get(LIST, {"kind": "library"})) == ["Library"]
    assert names(signed_in.get(LIST, {"business_kind": "restaurant"})) == ["Diner"]


def test_a_choice_that_does_not_exist_is_said(signed_in, program):
    make_partner(program)
    assert "Select a valid choice" in flat(signed_in.get(LIST, {"kind": "castle"}))


@pytest.mark.parametrize(
    ("sort", "found"), [("heard", ["Never", "Long ago", "Lately"]), ("-heard", ["Lately", "Long ago", "Never"])]
)
def test_the_list_sorts_by_when_we_last_heard(signed_in, program, sort, found):
    make_partner(program, "Lately", last_heard_on=date(2026, 10, 1))
    make_partner(program, "Never")
    make_partner(program, "Long ago", last_heard_on=date(2024, 10, 1))
    answer = signed_in.get(LIST, {"sort": sort})
    assert names(answer) == found
    assert 'aria-sort="' in flat(answer)


@pytest.mark.parametrize("sort", ["-notes", "12.50"])
def test_an_order_that_is_not_offered_is_left_alone(signed_in, program, sort):
    make_partner(program, "B")
    make_partner(program, "A")
    assert names(signed_in.get(LIST, {"sort": sort})) == ["A", "B"]


def test_pages_hold_fifty_and_know_whether_there_is_more(signed_in, program):
    for number in range(51):
        make_partner(program, f"Shop {number:02d}")
    first, second = signed_in.get(LIST), signed_in.get(LIST, {"page": 2})
    assert (len(names(first)), names(second)) == (50, ["Shop 50"])
    assert 'rel="next"' in flat(first)
    assert 'rel="next"' not in flat(second)
    assert "Partners: 1-50 of 51" in flat(first)
    assert "Partners: 51-51 of 51" in flat(second)


def test_the_list_says_how_many_it_holds_and_where_partners_of_one_name_are(signed_in, program):
    make_partner(program, "Twin", street="4 Mill Road")
    make_partner(program, "Twin", street="9 Bank Street")
    make_partner(program, "Zed", street="1 Elm Street")
    page = flat(signed_in.get(LIST))
    assert "Partners: 3 <" in page or "Partners: 3<" in page
    assert ("Twin, 4 Mill Road" in page, "Twin, 9 Bank Street" in page, "Elm Street" in page) == (True, True, False)


def test_the_page_asks_the_same_number_of_queries_for_one_or_fifty(signed_in, desk, django_assert_num_queries):
    for number in range(50):
        partner = add_partner(desk=desk, name=f"Shop {number}")
        add_contact(desk=desk, partner=partner, name=f"Ana {number}")
    # Session, person, membership; the schools' towns; partners; their people.
    with django_assert_num_queries(6):
        signed_in.get(LIST)


def test_an_empty_list_says_what_to_do_first(signed_in):
    assert "Log a visit, and the place is written down with it" in flat(signed_in.get(LIST))
    assert "No partner is found." in flat(signed_in.get(LIST, {"q": "nobody"}))


def test_markup_in_names_is_shown_as_typed(signed_in, program):
    make_partner(program, "<img src=x onerror=alert(1)>", city="<b>Town</b>")
    page = flat(signed_in.get(LIST))
    assert "<img src=x" not in page
    assert "&lt;b&gt;Town" in page


def test_the_file_holds_what_the_list_shows_and_no_formula(signed_in, desk):
    add_partner(desk=desk, name='=HYPERLINK("x")', phone="+12015550123", notes="+1", person="@Ana")
    add_partner(desk=desk, name="Library", kind="library")
    rows = exported(signed_in, kind="business")
    assert [row["Name"] for row in rows] == ['\'=HYPERLINK("x")']
    assert (rows[0]["Phone"], rows[0]["People"], rows[0]["Notes"]) == ("(201) 555-0123", "'@Ana", "'+1")


def test_the_file_is_read_in_a_fixed_number_of_queries(signed_in, desk, django_assert_num_queries):
    for number in range(30):
        add_partner(desk=desk, name=f"Shop {number}", person="Ana")
    with django_assert_num_queries(5):
        assert len(exported(signed_in)) == 30


def test_a_guest_reads_the_list_and_the_file_without_notes(client, grace, desk):
    add_partner(desk=desk, name="Bluebird Bakery", notes="A secret")
    enter(client, grace)
    assert names(client.get(LIST)) == ["Bluebird Bakery"]
    assert "New partner" not in flat(client.get(LIST))
    assert "Notes" not in exported(client)[0]


@pytest.mark.parametrize("address", [LIST, EXPORT])
def test_who_may_not_read_partners_is_refused(client, grace, otto, program, address):
    make_partner(program, "Only Ours")
    assert status(client, address) == 302
    assert status(enter(client, otto), address, "post") == 405
    enter(client, otto)
    assert "Only Ours" not in b"".join(iter(client.get(address))).decode()
    grace.opened = [Opened.WISH_LIST]
    grace.save()
    assert status(enter(client, grace), address) == 403


def test_a_letter_shows_whose_name_begins_with_it_and_others_stand_together(signed_in, program):
    for name in ("Éclair Bakery", "eastside Deli", "Zebra Print", "50% Off Framing", "مكتبة النهر"):
        make_partner(program, name)
    assert names(signed_in.get(LIST, {"begins": "e"})) == ["eastside Deli", "Éclair Bakery"]
    assert names(signed_in.get(LIST, {"begins": "other"})) == ["50% Off Framing", "مكتبة النهر"]
