"""Lists of classes pasted out of a spreadsheet."""

from __future__ import annotations

import csv
import io
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from partners.ground.grid import read_grid
from partners.ground.plain import PlainError
from partners.school.class_cells import Week, read_days, read_grade, read_minutes, read_students
from partners.school.class_paste import AT_MOST, Known, like_a_person, read_classes

MILLRACE = Known(1, "Millrace Elementary", Week(cycle_length=6))
RIDGE = Known(2, "North Ridge Elementary", Week())
BOTH = [MILLRACE, RIDGE]


def codes(text: str, schools=BOTH, here=None) -> list[str]:
    paste = read_classes(text, schools, here)
    return [error.code for error in [*paste.wrong, *(error for row in paste.rows for error in row.wrong)]]


def values(text: str, schools=(MILLRACE,)) -> list[dict]:
    paste = read_classes(text, schools)
    assert paste.is_right, codes(text, schools)
    return [{"label": row.label, **row.values} for row in paste.rows]


ONE = {"label": "3-A", "grade": 3, "students": 24, "meets_on": [1, 4], "minutes": 45}


@pytest.mark.parametrize(
    "text",
    [
        "3-A\t3\t24\t1, 4\t45",
        "3-A\t3\t24\t1, 4\t45\t\t\t\r\n",
        "Class\tGrade\tStudents\tDays\tMinutes\r\n3-A\t3rd\t24\tDay 1 & 4\t45 min\r\n\r\n",
        '3-A,3,24,"1,4",45',
        "3-A;3;24;1,4;45",
        "3-A   3   24   1,4   45",
        "\ufeff3-A\t3\t24\tA/D\t0:45",
        "3-A\t3\u00a0\t\u00a024\tDays\u00a01\u00a0and\u00a04\t9:10–9:55",
        '"3-A"\tGrade 3\t24.0\t"1\n4"\t45',
        "Minutes\tDays\tSize\tGrade\tTeacher\tWing\n45\td1 d4\t24\t3\t3-A\tnorth",
    ],
)
def test_one_class_comes_out_of_every_kind_of_paste(text: str) -> None:
    assert values(text) == [ONE]


@pytest.mark.parametrize(
    ("typed", "grade"),
    [
        ("Pre-K", -1), ("PreK", -1), ("PK", -1), ("-1", -1), ("TK", -1), ("Pre-K 4", -1), ("K", 0), ("Kindergarten", 0),
        ("0", 0), ("1st", 1), ("2ND", 2), ("third grade", 3), ("Grade 5", 5), ("3.0", 3), ("12", 12), ("08", 8),
    ],
)  # fmt: skip
def test_grades_as_they_are_written(typed: str, grade: int) -> None:
    assert read_grade(typed) == grade


@pytest.mark.parametrize("typed", ["13", "-2", "3/4", "K-1", "x", "3.5", "99999999999999999999"])
def test_no_grade(typed: str) -> None:
    with pytest.raises(PlainError, match="is no grade"):
        read_grade(typed)


@pytest.mark.parametrize(
    ("typed", "days"),
    [
        ("Mon", [0]), ("M W", [0, 2]), ("MWF", [0, 2, 4]), ("TTh", [1, 3]), ("T/R", [1, 3]), ("Tue & Thu", [1, 3]),
        ("Fridays", [4]), ("daily", [0, 1, 2, 3, 4]), ("W, M", [0, 2]), ("TuTh", [1, 3]),
    ],
)  # fmt: skip
def test_weekdays_as_they_are_written(typed: str, days: list[int]) -> None:
    assert read_days(typed, Week()) == days


@pytest.mark.parametrize(
    ("typed", "days"),
    [("Day 3", [3]), ("1,4", [1, 4]), ("D", [4]), ("A day", [1]), ("A, D", [1, 4]), ("D2 D5", [2, 5]), ("3.0", [3]),
     ("daily", [1, 2, 3, 4, 5, 6])],
)  # fmt: skip
def test_days_of_a_cycle_as_they_are_written(typed: str, days: list[int]) -> None:
    assert read_days(typed, Week(cycle_length=6)) == days


@pytest.mark.parametrize(
    ("typed", "week", "code"),
    [
        ("1,4", Week(), "no_weekday"),
        ("Sat", Week(), "no_school_then"),
        ("S", Week((0, 5)), "saturday_or_sunday"),
        ("Mon", Week(cycle_length=6), "no_cycle_day"),
        ("7", Week(cycle_length=6), "no_cycle_day"),
        ("14", Week(cycle_length=6), "no_cycle_day"),
        ("1-3", Week(cycle_length=6), "a_range"),
        ("4-Jan", Week(cycle_length=6), "made_a_date"),
        ("Jan-04", Week(cycle_length=6), "made_a_date"),
    ],
)
def test_days_that_cannot_be_say_why(typed: str, week: Week, code: str) -> None:
    with pytest.raises(PlainError) as error:
        read_days(typed, week)
    assert error.value.code == code


@pytest.mark.parametrize(("typed", "minutes"), [("45", 45), ("45 minutes", 45), ("1:00", 60), ("12:40-1:25", 45)])
def test_minutes_as_they_are_written(typed: str, minutes: int) -> None:
    assert read_minutes(typed) == minutes


@pytest.mark.parametrize("typed", ["0", "601", "-5", "long", "9:10-9:10", "9:00"])
def test_no_minutes(typed: str) -> None:
    with pytest.raises(PlainError, match="no length of a lesson"):
        read_minutes(typed)


@pytest.mark.parametrize("typed", ["-3", "24?", "1e3", "24.5", "401"])
def test_no_number_of_students(typed: str) -> None:
    with pytest.raises(PlainError):
        read_students(typed)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", ["nothing"]),
        ("\n\t\t\n \n", ["nothing"]),
        ("Class\tGrade\tStudents", ["nothing"]),
        ("3-A\n3-B", ["no_columns"]),
        ("Grade\tStudents\n3\t24", ["no_label_column"]),
        ("3-A\t\t24", ["school_missing", "grade_missing"]),
        ("First name\tLast name\tGrade\nAda\tQuill\t3", ["children", "children"]),
        ("Class\tGrade\tStudents\tSchool\n3-A\t3\t24\tMill", []),
        ("Class\tGrade\tStudents\tSchool\n3-A\t3\t24\tHilltop", ["no_such_school"]),
        ("Class\tGrade\tStudents\tSchool\n3-A\t3\t24\tMillrace\n3-a\t3\t24\tMillrace", ["twice"]),
        ("Class\tGrade\tStudents\tSchool\n3-A\t3\t24\tMillrace\n3-A\t3\t24\tNorth Ridge", []),
    ],
)
def test_what_is_wrong_is_said_for_the_whole_or_for_the_row(text: str, found: list[str]) -> None:
    assert codes(text) == found


def test_a_row_of_another_school_is_no_row_of_this_page() -> None:
    text = "Class\tGrade\tStudents\tSchool\n3-A\t3\t24\tNorth Ridge Elementary"
    assert codes(text, here=MILLRACE) == ["another_school"]


@pytest.mark.parametrize("label", ["Ada Quill", "Quill, Ada", "Ada B. Quill", "José Núñez"])
def test_a_row_that_looks_like_a_child_is_stopped(label: str) -> None:
    cell = f'"{label}"' if "," in label else label
    assert codes(f"Name\tGrade\n{cell}\t3", here=MILLRACE) == ["like_a_child"]
    assert codes(f"Name\tGrade\tStudents\n{cell}\t3\t24", here=MILLRACE) == []


@pytest.mark.parametrize("label", ["3-A", "Ms. Quill", "Room Blue", "Quill", "K Morning"])
def test_labels_of_classes_do_not_look_like_a_child(label: str) -> None:
    assert not like_a_person(label)


def test_a_known_class_is_found_again_and_only_what_was_typed_changes() -> None:
    known = Known(1, "Millrace Elementary", Week(cycle_length=6), ["3-A"])
    (row,) = read_classes("Class\tGrade\tMinutes\n3-a\t\t50", [known]).rows
    assert (row.label, row.is_new, row.values, row.wrong) == ("3-A", False, {"minutes": 50}, [])


def test_forty_eight_classes_of_two_schools_at_once() -> None:
    lines = [f"{place}-X\t{place % 6}\t{20 + place % 9}\t{'Day 2' if place % 2 else 'Tue'}\t45" for place in range(48)]
    text = "\r\n".join(f"{line}\t{('North Ridge', 'Millrace')[place % 2]}" for place, line in enumerate(lines))
    paste = read_classes(text, BOTH)
    assert paste.is_right
    assert {row.school.name for row in paste.rows} == {MILLRACE.name, RIDGE.name}
    assert len(paste.rows) == 48


def test_five_hundred_columns_and_ten_thousand_rows_are_answered_at_once() -> None:
    began = time.process_time()
    wide = read_classes("\t".join(["3-A", "3", "24", *["x"] * 497]), [RIDGE])
    assert [error.code for error in wide.rows[0].wrong] == ["more_columns"]
    assert codes("\n".join(f"{n}\t3\t24" for n in range(10_000))) == ["too_many_rows"]
    assert time.process_time() - began < 2


def test_a_quote_that_is_never_closed_swallows_no_rows() -> None:
    assert len(read_classes('"Quill\t3\t24\n3-B\t3\t22', [RIDGE]).rows) == 2


def test_rows_are_numbered_as_in_the_spreadsheet() -> None:
    paste = read_classes("Class\tGrade\tStudents\n\n3-A\t3\t24\n\n3-B\tx\t22", [RIDGE])
    assert [row.number for row in paste.rows] == [3, 5]


CELL = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00\ufeff"), max_size=8)


@settings(max_examples=40)
@given(st.lists(st.lists(CELL, min_size=2, max_size=5), max_size=6))
def test_what_a_spreadsheet_writes_is_read_back(rows: list[list[str]]) -> None:
    """Against Python's own writer of RFC 4180, cells compared without their outer and double blanks."""
    file = io.StringIO()
    csv.writer(file, delimiter="\t", quoting=csv.QUOTE_ALL, lineterminator="\r\n").writerows(rows)
    bare = [[" ".join(cell.translate(dict.fromkeys(HIDDEN)).split()) for cell in row] for row in rows]
    while_full = [row[: max((n + 1 for n, cell in enumerate(row) if cell), default=0)] for row in bare]
    assert [list(row.cells) for row in read_grid(file.getvalue())] == [row for row in while_full if row]


HIDDEN = list(map(ord, "\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff"))


@settings(max_examples=40)
@given(st.text(max_size=300))
def test_any_text_is_read_without_an_accident(text: str) -> None:
    paste = read_classes(text, BOTH)
    assert paste.wrong or paste.rows
    assert len(paste.rows) <= AT_MOST
