"""What a copy holds, and what it leaves out."""

from __future__ import annotations

import io
import json
import zipfile
from datetime import UTC, datetime

from partners.copies.form import LIST, contents_of
from partners.copies.writing import write_book, write_program
from tests import people
from tests.rows import make_book

AT = datetime(2026, 10, 6, 12, tzinfo=UTC)


def packed(write, **given):
    file = io.BytesIO()
    write(file=file, at=AT, **given)
    return zipfile.ZipFile(file)


def lines(copy, name):
    return [json.loads(line) for line in copy.read(f"rows/partners_{name}.jsonl").splitlines()]


def test_a_book_holds_every_table_and_says_how_many_rows(june):
    copy = packed(write_book)
    told = contents_of(copy.read(LIST))
    assert told.kind == "book"
    assert told.table("partners_user").rows == len(lines(copy, "user")) == 1
    assert "partners_device" not in {table.name for table in told.tables}


def test_a_program_brings_its_own_rows_and_members_without_their_passwords(june, otto):
    copy = packed(write_program, program=june.program)
    assert b"Otto" not in copy.read("rows/partners_user.jsonl")
    assert b"argon2" not in copy.read("rows/partners_user.jsonl")
    assert [row[0] for row in lines(copy, "program")] == [june.program.pk]


def test_one_school_brings_no_history_no_people_and_nothing_of_the_other_school(program):
    make_book(program, 100, "Millrace ")
    make_book(people.make_program("Another"), 300, "Elsewhere ")
    ridge = people.make_school(program, "North Ridge")
    program.gifts.create(school=ridge, source="families", form="goods", day=people.TUESDAY)
    copy = packed(write_program, program=program, school=ridge)
    assert len(lines(copy, "gift")) == 1
    assert lines(copy, "event") == lines(copy, "user") == lines(copy, "membership") == []
