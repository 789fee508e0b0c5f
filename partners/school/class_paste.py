"""Classes read out of a pasted list: which column is what, each row as a class, and what is wrong with it.

One row is one class. Nothing here knows the site; sentences are translated where they are shown.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from partners.ground.grid import GridRow, read_grid
from partners.ground.names import fold
from partners.ground.plain import PlainError, gettext_noop
from partners.school.class_cells import Week, read_days, read_grade, read_minutes, read_students

AT_MOST = 300
LONGEST_LABEL = 40
COLUMNS = ("label", "grade", "students", "meets_on", "minutes", "school")
HEADS = {
    "label": (
        "class", "classes", "label", "name", "class name", "room", "homeroom", "section", "teacher", "code",
        "classroom", "class label", "art class",
    ),
    "grade": ("grade", "gr", "grade level", "level", "grades"),
    "students": (
        "students", "size", "class size", "number", "count", "head count", "enrollment", "enrolment", "enrolled",
        "children", "kids", "pupils", "number of students", "of students", "how many", "n", "roster",
    ),
    "meets_on": (
        "days", "day", "meets", "meets on", "art day", "art days", "schedule", "cycle", "cycle day", "cycle days",
        "day of cycle", "weekday", "weekdays", "rotation", "has art on", "day s",
    ),
    "minutes": (
        "minutes", "min", "mins", "length", "time", "period", "duration", "lesson minutes", "minutes of a lesson",
        "lesson length", "period length", "class length", "lesson",
    ),
    "school": ("school", "building", "site", "campus", "school name"),
}  # fmt: skip
OF_CHILDREN = (
    "first name", "last name", "student name", "child name", "childs name", "child", "student", "name of student",
    "birthday", "birthdate", "birth date", "date of birth", "dob", "student id", "student number", "parent", "guardian",
)  # fmt: skip

CHILDREN = gettext_noop(
    "This looks like a list of children (a column is called “%(head)s”). This book keeps no child: paste one row for "
    "each class, with its number of students."
)
TOO_MANY_ROWS = gettext_noop("These are %(rows)s rows. Paste at most %(most)s classes at a time.")
NOTHING = gettext_noop("There is no class in it. Paste one row for each class.")
NO_COLUMNS = gettext_noop(
    "Only one column was found. Copy the rows out of the spreadsheet, or put a comma between label, grade and students."
)
NO_LABEL_COLUMN = gettext_noop("No column holds the labels of the classes. Call one of them “Class”.")
LIKE_A_CHILD = gettext_noop(
    "“%(label)s” looks like a person and has no number of students. This book keeps no child; one row is one class."
)
NO_LABEL = gettext_noop("The label of the class is missing.")
LONG_LABEL = gettext_noop("“%(label)s …” is longer than %(most)s letters. Use a shorter label.")
GRADE_MISSING = gettext_noop("The grade is missing.")
STUDENTS_MISSING = gettext_noop("The number of students is missing.")
TWICE = gettext_noop("%(label)s stands in row %(row)s already.")
MORE_COLUMNS = gettext_noop("This row has more columns than label, grade, students, days, minutes and school.")
SCHOOL_MISSING = gettext_noop("The school is missing.")
NO_SUCH_SCHOOL = gettext_noop("“%(typed)s” is none of your schools: %(schools)s.")
ANOTHER_SCHOOL = gettext_noop(
    "This row is about %(school)s, and this page is for %(here)s. Paste it for several schools."
)


@dataclass(frozen=True)
class Known:
    """A school as the list may name it, how its days count, and the labels it has already."""

    pk: int
    name: str
    week: Week
    labels: Sequence[str] = ()


@dataclass
class PastedClass:
    """One row. `values` holds only what was typed; `label` is the stored one where the class is known already."""

    number: int
    school: Known | None = None
    label: str = ""
    is_new: bool = True
    values: dict[str, Any] = field(default_factory=dict)
    wrong: list[PlainError] = field(default_factory=list)
    wrong_in: list[str] = field(default_factory=list)

    def refuse(self, error: PlainError, column: str = "") -> None:
        """`column`: one of COLUMNS, where the mistake stands in one of them."""
        self.wrong.append(error)
        self.wrong_in.append(column)


@dataclass
class Paste:
    """What was read. `wrong` is about the whole of it; `ignored` names columns that say nothing about classes."""

    rows: list[PastedClass] = field(default_factory=list)
    wrong: list[PlainError] = field(default_factory=list)
    ignored: list[str] = field(default_factory=list)

    @property
    def is_right(self) -> bool:
        return bool(self.rows) and not self.wrong and not any(row.wrong for row in self.rows)


def read_classes(text: str, schools: Sequence[Known], here: Known | None = None) -> Paste:
    """`here`: the school that rows are about which name none. With one school only, that is the one."""
    grid = read_grid(text)
    if not grid:
        return Paste(wrong=[PlainError("nothing", NOTHING)])
    paste = Paste()
    places = _places(grid[0], paste)
    rows = grid[1:] if places else grid
    refused = _refused(rows, grid, places)
    if refused:
        paste.wrong.append(refused)
    if paste.wrong:
        return paste
    reader = _Reader(places or dict(zip(COLUMNS, range(len(COLUMNS)), strict=True)), not places, schools, here)
    paste.rows = [reader.read(row) for row in rows]
    return paste


def read_class_rows(rows: Sequence[GridRow], places: Mapping[str, int], schools: Sequence[Known]) -> list[PastedClass]:
    """As `read_classes`, where it was said which column is which."""
    reader = _Reader(places, False, schools, None)
    return [reader.read(row) for row in rows]


def named_school(typed: str, schools: Sequence[Known]) -> Known:
    """The school of that name, or the only one whose name begins so. Raises PlainError."""
    key = fold(typed)
    named = [one for one in schools if fold(one.name) == key]
    named = named or [one for one in schools if fold(one.name).startswith(key) and key]
    if len(named) != 1:
        names = ", ".join(one.name for one in schools)
        raise PlainError("no_such_school", NO_SUCH_SCHOOL, typed=typed, schools=names)
    return named[0]


def _places(head: GridRow, paste: Paste) -> dict[str, int]:
    """Which column is what, where the first row is a head; nothing where it is a class already."""
    found: dict[str, int] = {}
    unknown = []
    for place, cell in enumerate(head.cells):
        words = fold(cell)
        name = next((name for name, heads in HEADS.items() if words in heads and name not in found), "")
        if words in OF_CHILDREN:
            paste.wrong.append(PlainError("children", CHILDREN, head=cell))
        elif name:
            found[name] = place
        elif cell:
            unknown.append(cell)
    if paste.wrong or len(found) < 2:
        paste.wrong = paste.wrong if len(found) + len(paste.wrong) > 1 else []
        return found if paste.wrong else {}
    paste.ignored = unknown
    if "label" not in found:
        paste.wrong.append(PlainError("no_label_column", NO_LABEL_COLUMN))
    return found


def _refused(rows: Sequence[GridRow], grid: Sequence[GridRow], places: Mapping[str, int]) -> PlainError | None:
    if not rows:
        return PlainError("nothing", NOTHING)
    if len(rows) > AT_MOST:
        return PlainError("too_many_rows", TOO_MANY_ROWS, rows=f"{len(rows):,}", most=AT_MOST)
    if not places and all(len(row.cells) == 1 for row in rows):
        return PlainError("no_columns", NO_COLUMNS)
    return None


class _Reader:
    def __init__(self, places: Mapping[str, int], by_order: bool, schools: Sequence[Known], here: Known | None) -> None:
        self.places, self.by_order, self.schools = places, by_order, schools
        self.here = here
        self.seen: dict[tuple[int, str], int] = {}
        self.known = {school.pk: _by_key(school.labels) for school in schools}

    def read(self, row: GridRow) -> PastedClass:
        found = PastedClass(row.number)
        cell = {name: row.cell(self.places.get(name)) for name in COLUMNS}
        if self.by_order and len(row.cells) > len(COLUMNS):
            found.label = cell["label"]
            found.refuse(PlainError("more_columns", MORE_COLUMNS))
            return found
        self._school(found, cell["school"])
        self._label(found, cell["label"])
        self._cells(found, cell)
        if found.is_new:
            self._missing(found, cell)
        return found

    def _school(self, found: PastedClass, typed: str) -> None:
        own = self.here or (self.schools[0] if len(self.schools) == 1 else None)
        if not typed:
            found.school = own
            if own is None:
                found.refuse(PlainError("school_missing", SCHOOL_MISSING), "school")
            return
        try:
            named = named_school(typed, self.schools)
        except PlainError as error:
            found.refuse(error, "school")
            return
        if self.here is not None and named.pk != self.here.pk:
            words = {"school": named.name, "here": self.here.name}
            found.refuse(PlainError("another_school", ANOTHER_SCHOOL, **words), "school")
        else:
            found.school = named

    def _label(self, found: PastedClass, typed: str) -> None:
        found.label = typed
        if not typed:
            found.refuse(PlainError("no_label", NO_LABEL), "label")
        elif len(typed) > LONGEST_LABEL:
            error = PlainError("long_label", LONG_LABEL, label=typed[:LONGEST_LABEL], most=LONGEST_LABEL)
            found.refuse(error, "label")
        elif found.school is not None:
            key = (found.school.pk, label_key(typed))
            if key in self.seen:
                found.refuse(PlainError("twice", TWICE, label=typed, row=self.seen[key]), "label")
            self.seen.setdefault(key, found.number)
            stored = self.known[found.school.pk].get(key[1])
            if stored is not None:
                found.label, found.is_new = stored, False

    def _cells(self, found: PastedClass, cell: Mapping[str, str]) -> None:
        week = found.school.week if found.school else None
        readers: dict[str, Callable[[str], Any] | None] = {
            "grade": read_grade,
            "students": read_students,
            "meets_on": (lambda typed: read_days(typed, week)) if week else None,
            "minutes": read_minutes,
        }
        for name, read in readers.items():
            if cell[name] and read is not None:
                try:
                    found.values[name] = read(cell[name])
                except PlainError as error:
                    found.refuse(error, name)

    def _missing(self, found: PastedClass, cell: Mapping[str, str]) -> None:
        if not cell["students"] and like_a_person(cell["label"]):
            found.refuse(PlainError("like_a_child", LIKE_A_CHILD, label=cell["label"]), "label")
            return
        if not cell["grade"]:
            found.refuse(PlainError("grade_missing", GRADE_MISSING), "grade")
        if not cell["students"]:
            found.refuse(PlainError("students_missing", STUDENTS_MISSING), "students")


def label_key(label: str) -> str:
    """By which a class is found again: `3-A`, `3-a` and `3 A` are one, `3-A` and `3A` are not."""
    return fold(label) or label


def _by_key(labels: Sequence[str]) -> dict[str, str]:
    return {label_key(label): label for label in reversed(labels)}


def like_a_person(label: str) -> bool:
    """Two or three names and nothing else: `Ada Quill`, not `3-A`, `Ms. Quill` or `Room Blue`."""
    words = re.fullmatch(r"([^\W\d_][\w'’-]+),? (?:[^\W\d_]\.? )?([^\W\d_][\w'’-]+)", label)
    if not words or any(sign.isdigit() for sign in label):
        return False
    titles = {"ms", "mr", "mrs", "miss", "mx", "dr", "room", "grade", "class", "section", "team", "group", "kinder"}
    return fold(words[1]) not in titles and all(word[0].isupper() for word in words.groups())
