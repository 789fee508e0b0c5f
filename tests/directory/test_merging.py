"""Whose word counts when two rows of one partner are put together, and which two of a book may be one. No database."""

from __future__ import annotations

import random
from datetime import date
from itertools import combinations

from partners.directory.duplicates import Described, likely_same
from partners.directory.merging import PARTS, all_names, differing, fitting_details, proposed, put_together
from partners.directory.models import Partner
from partners.directory.pairs import likely_pairs
from partners.ground.fields import KeyField

EMPTY = {name: Partner._meta.get_field(name).get_default() for names in PARTS.values() for name in names}
KEPT = {**EMPTY, "name": "Riverbend", "notes": "Ask for Dana.", "may_name": "yes", "rest_until": date(2026, 10, 1)}
OTHER = {**EMPTY, "name": "River Bend", "notes": "Pots!", "may_name": "no", "rest_until": date(2026, 9, 1)} | {
    "city": "Alder Falls"
}


def test_every_column_a_partner_fills_is_in_one_part() -> None:
    counted = {"also_called"}
    filled = {
        f.name for f in Partner._meta.concrete_fields if f.editable and not isinstance(f, KeyField) and f.name != "id"
    }
    named = [name for names in PARTS.values() for name in names]
    assert sorted(named) == sorted(filled - counted)


def test_whoever_says_anything_counts_and_what_binds_us_more() -> None:
    differ = differing(KEPT, OTHER)
    assert differ == ["name", "address", "rest", "may_name", "notes"]
    said = {part: proposed(part, KEPT, OTHER) for part in differ}
    assert said == {"name": "kept", "address": "other", "rest": "kept", "may_name": "other", "notes": "both"}
    values = put_together(KEPT, OTHER, {})
    assert (values["city"], values["may_name"], values["notes"]) == ("Alder Falls", "no", "Ask for Dana.\n\nPots!")
    assert "rest_until" not in values
    assert put_together(KEPT, OTHER, {"name": "other", "notes": "kept"})["name"] == "River Bend"


def test_every_name_is_kept_once_and_whole() -> None:
    assert all_names("Riverbend", ["Riverbend", "River Bend", "RIVER-BEND", "The Bend"]) == "River Bend; The Bend"
    long = [f"{number} {'x' * 110}" for number in range(9)]
    assert all_names("Now", long).split("; ") == long[:5]


def test_a_person_whose_two_rows_say_different_things_is_not_put_together() -> None:
    row = {"role": "owner", "phone": "", "since": None}
    assert fitting_details(row, {**row, "role": "", "phone": "+12015550123"}, row) == {"phone": "+12015550123"}
    assert fitting_details(row, {**row, "role": "manager"}, row) is None


def test_pairs_are_those_that_comparing_everybody_finds() -> None:
    """By brute force over every two of a made-up town; seeded."""
    made = random.Random(7)
    first, second = ("alder", "bluebird", "cedar", "delta", "elmwood", "fern"), ("bakery", "hardware", "framing", "inn")
    town = []
    for number in range(1, 90):
        name = f"{made.choice(first)} {made.choice(second)} {number if number % 3 else ''}".strip()
        phone = f"+1201555{made.randrange(100, 160):04d}" if number % 2 else ""
        town.append(Described(number, name, name, phone))
    found = {(pair.first, pair.second) for pair in likely_pairs(town)}
    wanted = {
        (one.pk, other.pk)
        for one, other in combinations(town, 2)
        if any({"same_name", "same_phone"} & set(likely.why) for likely in likely_same(one, [other]))
    }
    assert len(wanted) >= 30
    assert wanted <= found
    assert all(first < second for first, second in found)
    assert likely_pairs(town[:2], not_same=found) == []


def test_another_name_of_a_partner_is_compared_and_the_partner_with_itself_is_not() -> None:
    named = ((1, "riverbend"), (1, "gardens by jo"), (2, "gardens by jo"))
    town = [Described(pk, name, name) for pk, name in named]
    assert [(pair.first, pair.second) for pair in likely_pairs(town)] == [(1, 2)]
