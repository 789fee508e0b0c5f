"""Letters that stand for ticks, and what seems a child's name."""

from __future__ import annotations

import pytest

from partners.ground.names import fold
from partners.helpers import models
from partners.helpers.class_words import seems_a_child
from partners.helpers.jobs import Job
from partners.helpers.short_codes import (
    DAYS,
    JOBS,
    PLACES,
    WAYS,
    CodeError,
    Name,
    read_letters,
    read_name,
    read_often,
    read_one,
    read_yes,
)  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "letters", "meant"),
    [
        ("mwf", DAYS, [0, 2, 4]),
        ("H, t", DAYS, [1, 3]),
        ("a", DAYS, [0, 1, 2, 3, 4]),
        ("ch", JOBS, ["cutting", "hanging"]),
        ("sd", PLACES, ["at_school", "show_day"]),
        ("", JOBS, []),
    ],
)
def test_letters_stand_for_ticks(typed: str, letters: dict, meant: list) -> None:
    assert read_letters(typed, letters) == meant


def test_a_letter_that_stands_for_nothing_is_named_with_those_that_do() -> None:
    with pytest.raises(CodeError, match=r"q, z stands for nothing here\. Use m, t, w, h, f\."):
        read_letters("mzq", DAYS)
    with pytest.raises(CodeError, match="One letter only"):
        read_one("ct", WAYS)
    with pytest.raises(CodeError, match="Type y for yes"):
        read_yes("maybe")


def test_every_letter_stands_for_something_the_book_knows() -> None:
    assert sorted(JOBS.values()) == sorted(Job.values)
    assert sorted(WAYS.values()) == sorted(models.BestWay.values)
    assert all(models.Helper._meta.get_field(name) for name in PLACES.values())


def test_how_often_is_a_letter_or_words() -> None:
    assert (read_often("w"), read_often("twice a year")) == ("every week", "twice a year")


@pytest.mark.parametrize(
    ("typed", "name"),
    [("Ana Ruiz", Name("Ana Ruiz", False)), ("? Ma.. Lopez", Name("Ma.. Lopez", True)), ("?", Name("", True))],
)
def test_a_question_mark_says_that_a_name_cannot_be_read(typed: str, name: Name) -> None:
    assert read_name(typed) == name


@pytest.mark.parametrize(
    "room",
    [
        "",
        "3-A",
        "Room 12",
        "Ms. Lopez",
        "Mrs Odell, 4th grade",
        "K-B",
        "Kindergarten",
        "12B",
        "2nd grade",
        "3-Birch",
        "not sure",
    ],
)
def test_a_class_or_room_is_no_child(room: str) -> None:
    assert not seems_a_child(room, {fold("3-Birch")})


@pytest.mark.parametrize("room", ["Emma Torres", "Emma, 3-A", "Emma's mom", "José", "3-Birch Emma", "Li Wei 2B"])
def test_a_name_where_the_class_belongs_seems_a_child(room: str) -> None:
    assert seems_a_child(room, {fold("3-Birch")})
