"""What becomes of each row, without a database: columns by their heads, partners by name with phone or address."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from partners.directory.duplicates import Described
from partners.ground.csv_out import guarded
from partners.ground.grid import GridRow
from partners.ground.plain import PlainError
from partners.story.columns import guessed, letters_of, read_lines, refused_heads, unclear
from partners.story.kinds import CONTACTS, GIFTS, KINDS, PARTNERS, VISITS
from partners.story.plan_days import plan_gifts, plan_visits
from partners.story.plan_people import Places, describe, plan_contacts, plan_partners
from partners.story.planned import Becomes, Plan
from partners.story.who_is_meant import Index

BOOK = [
    {"name": "Elm Deli", "phone": "+12015550123", "street": "12 Mill St", "postal_code": "01234"},
    {"name": "Elm Deli", "phone": "+12015550124", "street": "9 Canal Rd", "postal_code": "01299"},
    {"name": "Riverbend Garden Center", "phone": "+12015550150"},
]
TODAY = date(2026, 10, 6)


def book() -> tuple[Index, dict[int, str]]:
    known = [describe(values, pk) for pk, values in enumerate(BOOK, start=1)]
    return Index(known), {one.pk: one.name for one in known if one.pk is not None}


def lines(kind: Any, *rows: list[str]) -> Any:
    grid = [GridRow(number, tuple(row)) for number, row in enumerate(rows, start=1)]
    chosen = guessed(grid[0], kind.columns)
    assert unclear(chosen, kind.columns, kind.needed) == []
    return read_lines(grid[1:], chosen, kind.columns, grid[0])


def partners(*rows: list[str]) -> Plan:
    index, names = book()
    found = lines(PARTNERS, ["Name", "Phone", "Address", "Zip"], *rows)
    return plan_partners(found, PARTNERS.columns, index, names, lambda why: " ".join(why))


def places(kind: str) -> Places:
    return Places(Plan(kind), *book(), lambda why: " ".join(why))


def codes(plan: Plan) -> list[list[str]]:
    return [[one.error.code for one in row.line.wrong] for row in plan.rows]


@pytest.mark.parametrize(
    ("row", "pk"),
    [
        (["ELM DELI", "201-555-0123"], 1), (["Elm Deli", "", "9 Canal Road", "01299"], 2),
        (["Elm Deli", "(201) 555-0124", "12 Mill Street"], None), (["Riverbend Garden Center"], 3),
        (["Riverbend Garden Center", "201-555-0199"], 3), (["Elm Deli", "201-555-0188", "1 Oak St"], None),
        (["Elm Delicatessen"], None),
    ],
)  # fmt: skip
def test_a_partner_is_known_by_name_with_phone_or_address(row: list[str], pk: int | None) -> None:
    plan = partners(row)
    assert plan.rows[0].pk == pk


def test_who_could_be_two_is_asked_for_more() -> None:
    assert codes(partners(["Elm Deli"])) == [["several"]]


def test_the_same_row_twice_is_refused_and_two_numbers_are_two_places() -> None:
    same = ["Oak Books", "201-555-0160"]
    assert codes(partners(same, ["oak books"], ["Oak Books", "201-555-0161"])) == [[], ["twice"], []]
    assert codes(partners(["Riverbend Garden Center"], ["Riverbend Garden Center", "201-555-0150"])) == [[], ["twice"]]


def test_a_new_name_with_a_known_number_is_told() -> None:
    plan = partners(
        ["River Bend Gardens", "201-555-0150"], ["Elm Deli", "201-555-0188", "1 Oak St"], ["Elsewhere Books"]
    )
    assert [[one.code for one in row.remarks] for row in plan.rows] == [["may_be"], ["other_address"], []]


def test_heads_are_known_in_many_words_and_each_column_is_taken_once() -> None:
    head = GridRow(1, ("Company Name", "E-Mail", "Zip", "Phone #", "Telephone", "Shoe size"))
    assert guessed(head, PARTNERS.columns) == {0: "name", 1: "email", 2: "postal_code", 3: "phone"}


def test_two_columns_of_one_kind_and_a_missing_one_are_told() -> None:
    wrong = unclear({0: "phone", 1: "phone"}, PARTNERS.columns, PARTNERS.needed)
    assert [error.code for error in wrong] == ["two_columns", "no_column"]


def test_every_kind_knows_its_own_heads() -> None:
    for kind in KINDS.values():
        own = [one for one in kind.columns if one.name not in ("first_name", "last_name")]
        head = GridRow(1, tuple(one.label for one in own))
        assert list(guessed(head, kind.columns).values()) == [one.name for one in own]


def test_a_list_of_children_is_not_read() -> None:
    error = refused_heads(GridRow(1, ("Student Name", "Grade")))
    assert error is not None
    assert error.code == "children"


def test_cells_are_named_as_in_a_spreadsheet() -> None:
    assert [letters_of(place) for place in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


@pytest.mark.parametrize("typed", ["=1+2", "@cmd", "'=x", "plain", "+1 201 555 0123"])
def test_what_was_guarded_comes_back_as_it_was(typed: str) -> None:
    found = lines(PARTNERS, ["Name"], [guarded(typed)])
    assert found[0].values["name"] == typed


def contacts(*rows: list[str]) -> Plan:
    index, names = book()
    found = lines(CONTACTS, ["Business", "Partner's phone", "First name", "Last name", "Title"], *rows)
    return plan_contacts(found, CONTACTS.columns, index, names, lambda why: "", {(3, "dana whitlock"): 7})


def test_people_are_known_by_their_name_at_a_partner() -> None:
    plan = contacts(
        ["Riverbend Garden Center", "", "Dana", "Whitlock", "owner"], 
        ["Elm Deli", "201-555-0123", "Dana", "Whitlock", ""],
        ["Riverbend Garden Center", "", "DANA", "WHITLOCK", ""], ["Oak Books", "", "Pat", "", ""],
        ["Oak Books", "", "", "", ""],
    )  # fmt: skip
    assert codes(plan) == [[], [], ["twice"], [], ["missing"]]
    assert [row.pk for row in plan.rows[:2]] == [7, None]
    assert [one["name"] for one in plan.new_partners.values()] == ["Oak Books"]


def gifts(*rows: list[str], stored: Any = None) -> Plan:
    head = ["Gift", "Date", "From", "Item", "Qty", "Cash", "Form", "School"]

    def school(typed: str) -> int:
        if typed != "Millrace":
            raise PlainError("no_such_school", "%(typed)s", typed=typed)
        return 5

    found = lines(GIFTS, head, *rows)
    return plan_gifts(found, GIFTS.columns, places("gifts"), TODAY, school, lambda typed: 1, stored or {})


@pytest.mark.parametrize(
    ("row", "code"),
    [
        (["", "10/7/2026", "Elm Deli 2", "bags"], "ahead"), (["", "", "Oak", "bags"], "missing"),
        (["", "10/1/2026", "Oak", ""], "missing"), (["", "10/1/2026", "", "bags"], "missing"),
        (["", "10/1/2026", "Oak", "bags", "", "5", "goods"], "no_money"),
        (["", "10/1/2026", "Oak", "", "", "", "money"], "no_amount"),
        (["", "10/1/2026", "Oak", "", "", "0", "money"], "no_amount"),
        (["", "10/1/2026", "Elm Deli", "bags"], "several"),
        (["", "10/1/2026", "Oak", "bags", "", "", "", "Nowhere"], "no_such_school"),
        (["", "10/1/2026", "Oak", "", "", "12,5"], "ambiguous"),
    ],
)  # fmt: skip
def test_a_gift_that_cannot_be_is_refused(row: list[str], code: str) -> None:
    assert codes(gifts(row)) == [[code]]


def test_things_of_one_gift_stand_in_several_rows_that_agree() -> None:
    one, two = ["7", "10/1/2026", "Oak", "bags", "5"], ["7", "10/1/2026", "Oak", "string", "2"]
    plan = gifts(one, two, ["7", "10/2/2026", "Oak", "glue"])
    assert codes(plan) == [[], [], ["differs"]]
    assert plan.rows[1].first is plan.rows[0]


def test_two_of_the_same_are_two_and_the_third_is_new() -> None:
    row = ["", "10/1/2026", "families", "Yarn"]
    key = ("families", 0, date(2026, 10, 1), ("yarn",))
    plan = gifts(row, row, row, stored={key: 2})
    assert [row.becomes for row in plan.rows] == [Becomes.LEFT, Becomes.LEFT, Becomes.NEW]


def test_a_visit_that_does_not_tell_is_just_a_hello() -> None:
    found = lines(
        VISITS, ["Date", "Place", "Comments"], ["10/1/2026", "Oak", "nice\r\nplace"], ["10/9/2026", "Oak", ""]
    )
    plan = plan_visits(found, VISITS.columns, places("visits"), TODAY, {})
    assert (plan.rows[0].values["happened"], plan.rows[0].values["note"]) == ("hello", "nice\r\nplace")
    assert codes(plan) == [[], ["ahead"]]


def test_two_shops_that_share_a_number_stay_two() -> None:
    index, _names = book()
    assert index.find(Described(None, "Another", "another", phone="+12015550123")) is None
