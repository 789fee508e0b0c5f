"""What was written out and read into an empty book comes out the same; read into its own book it changes nothing."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from typing import Any

import openpyxl
import pytest

from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.ground.csv_out import unguarded
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.story.export_all import one_json, one_xlsx, zip_of_csv
from partners.story.export_lists import lists
from partners.story.planned import Becomes
from tests import people, whole_book
from tests.story.files import fill, listed, saved

pytestmark = pytest.mark.django_db
ORDER = ("partners", "contacts", "classes", "gifts", "visits")


@pytest.fixture
def full(desk: Desk) -> Desk:
    fill(desk)
    return desk


@pytest.fixture
def empty(otto: Membership, full: Desk) -> Desk:
    """Another program, with the same two schools."""
    for school in full.program.schools.all():
        people.make_school(otto.program, school.name, cycle_length=school.cycle_length)
    return people.make_desk(otto.program)


def written(desk: Desk) -> dict[str, Any]:
    # When somebody was heard of last is worked out, and a gift's own thanks follow from the calendar.
    return {slug: listed(rows(desk)) for slug, _heads, rows in lists()}


def from_zip(desk: Desk, name: str) -> bytes:
    with zipfile.ZipFile(io.BytesIO(b"".join(zip_of_csv(desk)))) as packed:
        assert packed.testzip() is None
        return packed.read(f"{name}.csv")


@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_a_book_read_into_an_empty_one_is_the_same_book(full: Desk, empty: Desk, form: str) -> None:
    book = b"".join(one_xlsx(full))
    for name in ORDER:
        saved(empty, name, book if form == "xlsx" else from_zip(full, name))
    assert written(empty) == written(full)
    assert differences(empty.program) == []


@pytest.mark.parametrize("name", ORDER)
def test_read_into_its_own_book_it_adds_and_changes_nothing(full: Desk, name: str) -> None:
    before, events = whole_book.rows(full.program), Event.objects.count()
    plan = saved(full, name, from_zip(full, name))
    assert plan.count(Becomes.NEW, Becomes.CHANGED) == 0
    assert (whole_book.rows(full.program), Event.objects.count()) == (before, events)


@pytest.mark.parametrize("name", ["contacts", "gifts", "visits"])
def test_each_list_alone_is_one_change_that_is_taken_back_whole(full: Desk, empty: Desk, name: str) -> None:
    """People, gifts and visits bring the partners that are not in the book."""
    content = from_zip(full, name)
    before = whole_book.rows(empty.program)
    saved(empty, name, content)
    assert differences(empty.program) == []
    take_back(desk=empty, event=empty.program.events.get())
    assert whole_book.rows(empty.program) == before


def test_the_standard_readers_read_every_cell(full: Desk) -> None:
    """The standard library's csv in strict mode (RFC 4180) and openpyxl give the cells that were written."""
    book = openpyxl.load_workbook(io.BytesIO(b"".join(one_xlsx(full))))
    packed = zipfile.ZipFile(io.BytesIO(b"".join(zip_of_csv(full))))
    for slug, rows in written(full).items():
        text = packed.read(f"{slug}.csv").decode("utf-8-sig")
        records = list(csv.reader(io.StringIO(text, newline=""), strict=True))[1:]
        assert [[unguarded(cell) for cell in row] for row in records] == rows
        sheet = list(book[slug.capitalize()].iter_rows(min_row=2, values_only=True))
        assert len(sheet) == len(rows)
        assert unguarded(str(sheet[0][0])) in (rows[0][0], f"{rows[0][0]} 00:00:00")


def test_no_cell_of_any_file_is_a_formula(full: Desk) -> None:
    """OWASP, "CSV Injection": no cell begins with equals, plus, minus, at, tab, carriage return or line feed."""
    with zipfile.ZipFile(io.BytesIO(b"".join(zip_of_csv(full)))) as packed:
        texts = [packed.read(name).decode("utf-8-sig") for name in packed.namelist()]
    cells = {cell for text in texts for row in csv.reader(io.StringIO(text, newline="")) for cell in row}
    book = openpyxl.load_workbook(io.BytesIO(b"".join(one_xlsx(full))))
    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row}
    cells |= {str(cell.value) for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None}
    assert "'@Café مكتبة “Zoë”" in cells
    assert not {cell for cell in cells if cell[:1] in set("=+-@\t\r\n")}
    assert "f" not in kinds


def test_the_json_holds_every_row_of_the_book_and_of_no_other(full: Desk, empty: Desk) -> None:
    told = json.loads(b"".join(one_json(full)))
    assert {one["name"] for one in told["schools"]} == {"Millrace Elementary", "North Ridge Elementary"}
    assert len(told["partners"]) == 3
    assert {one["pk"] for one in full.program.gifts.values("pk")} == {one["id"] for one in told["gifts"]}
    assert "memberships" not in told


def test_who_is_limited_to_a_school_exports_that_school(full: Desk) -> None:
    north = full.program.schools.get(name="North Ridge Elementary")
    own = people.make_desk(full.program, school_ids=frozenset([north.pk]))
    told = json.loads(b"".join(one_json(own)))
    assert [one["name"] for one in told["schools"]] == ["North Ridge Elementary"]
    assert {one["school_id"] for one in [*told["gifts"], *told["classes"], *told["thanks"]]} <= {north.pk, None}
    assert {one["gift_id"] for one in told["gift_lines"]} <= {one["id"] for one in told["gifts"]}
    assert "terracotta" not in b"".join(zip_of_csv(own)).decode("latin-1")
