from typing import get_args

import pytest

from partners.directory.addresses import Address, address_key
from partners.directory.duplicates import WARN_AT, Described, Why, likely_same, narrowed
from partners.directory.phones import phone_key
from partners.directory.webs import web_key
from partners.directory.why_same import WORDS

SAME = """
Bluebird Bakery|The Bluebird Bakery, LLC
Bluebird Bakery|Blue Bird Bakery
Bluebird Bakery|Bluebrid Bakery
Bluebird Bakery|Bluebird
Tamarack Hardware|Tamarak Hardware
Tamarack Hardware|Hardware Tamarack
Marigold Framing|Marygold Framing Co.
Second Street Credit Union|2nd St. Credit Union
Café Núñez|Cafe Nunez
O'Brien & Sons|OBrien and Sons Inc
Riverbend Garden Center|River Bend Garden Centre
Lakeside Arts Guild|Lakeside Art Guild
Alder Falls Public Library|Alder Falls Library
Hernandez Grocery|Hernández Groceries
"""
DIFFERENT = """
Alder Falls Public Library|Alder Falls Police Department
Alder Falls Public Library|Alder Falls Pharmacy
Main Street Deli|Main Street Diner
North Deli|South Deli
Joe's Pizza|Moe's Pizza
Pizza 21|Pizza 22
First Bank|First Bakery
Riverbend Garden Center|Riverbend Gallery
Bakery|Bluebird Bakery
Marigold Framing|Marigold Flowers
Oak Street Cafe|Oak Street Care
Golden Dragon|Golden Wagon
The Art House|The Ark House
"""


def pairs(text: str) -> list[tuple[str, str]]:
    return [(line.split("|")[0], line.split("|")[1]) for line in text.strip().splitlines()]


def why(one: Described, other: Described) -> tuple[Why, ...]:
    found = likely_same(one, [other])
    return found[0].why if found else ()


@pytest.mark.parametrize(("one", "other"), pairs(SAME))
def test_one_name_written_in_two_ways_is_found(one: str, other: str) -> None:
    assert why(Described(None, one), Described(1, other)) == why(Described(None, other), Described(1, one)) != ()


@pytest.mark.parametrize(("one", "other"), pairs(DIFFERENT))
def test_two_names_that_only_look_alike_are_left_alone(one: str, other: str) -> None:
    assert why(Described(None, one), Described(1, other)) == ()


def test_a_known_miss_two_people_one_letter_apart_are_warned_of() -> None:
    assert why(Described(None, "Maria Lopez"), Described(1, "Mario Lopez")) == ("alike_name",)


def test_phone_web_and_address_are_found_however_they_are_typed() -> None:
    mine = Described(
        None, "A", phone=phone_key("201.555.0123"), address=address_key(Address("9 Elm St", "", "Alder Falls", "OH"))
    )
    other = Described(
        1, "B", phone=phone_key("+1 (201) 555-0123 x4"), address=address_key(Address("9 elm street #2")), web="b.org"
    )
    assert why(mine, other) == ("same_phone", "same_address")
    web = Described(None, "C", web=web_key("https://www.b.org/x"))
    assert why(web, other) == ("same_web",)


def test_what_cannot_be_normalised_is_compared_as_typed() -> None:
    assert why(Described(None, "A", phone=phone_key("Ask Pat")), Described(1, "B", phone=phone_key("ask pat"))) != ()


def test_what_is_unknown_on_both_sides_says_nothing() -> None:
    assert likely_same(Described(None, ""), [Described(1, "")]) == []


def test_a_partner_is_not_its_own_double() -> None:
    assert likely_same(Described(4, "Bluebird"), [Described(4, "Bluebird")]) == []


def test_the_likeliest_comes_first_and_more_reasons_weigh_more() -> None:
    others = [Described(1, "Bluebird"), Described(2, "Bluebird Bakery", phone="+12015550123")]
    found = likely_same(Described(None, "Bluebird Bakery", phone="+12015550123"), others)
    assert [likely.pk for likely in found] == [2, 1]
    assert 1 > found[0].strength > found[1].strength >= WARN_AT


def test_candidates_are_asked_for_by_indexed_columns() -> None:
    asked = narrowed(Described(None, "The Bluebird", phone="+12015550123", address="9 elm st|2|45999", web="b.org"))
    assert asked.name_starts == ("blu", "the", "the blu")
    assert (asked.phone, asked.address_start, asked.web) == ("+12015550123", "9 elm st|", "b.org")
    assert narrowed(Described(None, "")).name_starts == ()


def test_every_reason_has_its_words() -> None:
    assert set(WORDS) == set(get_args(Why))
