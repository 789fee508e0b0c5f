"""What is due is asked by SQL that is written once: it has to answer as Django's own, for every source and desk."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import product
from typing import Any

import pytest
from django.db import connections

from partners.agenda.lines import SOURCES
from partners.ground.due import DueSource
from partners.ground.kept_queries import kept_rows_of
from partners.program.desk import Desk
from partners.program.models import Program
from tests import people
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
BEFORE = DAY - timedelta(days=9)


@pytest.fixture
def desk(program: Program) -> Desk:
    return Desk(program=program, day=DAY)


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.slug)
def test_a_kept_question_is_answered_as_one_asked_anew(desk: Desk, source: DueSource) -> None:
    make_line(desk, source, BEFORE)
    make_line(desk, source, DAY)
    every = source.found(desk, until=DAY, limit=9)
    assert len(every) >= 2
    for until, after in product((BEFORE, DAY - timedelta(days=1), DAY), (None, *((row[1], row[0]) for row in every))):
        given = {"until": until} | ({"due": after[0], "pk": after[1]} if after else {})
        assert source.found(desk, until=until, limit=9, after=after) == list(source.asked(desk, 9, given))


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.slug)
def test_a_question_is_kept_for_any_day_only_where_the_day_and_the_words_of_the_program_do_not_matter(
    desk: Desk, source: DueSource, django_assert_num_queries: Any
) -> None:
    bare = replace(desk, program=Program.objects.only("pk").get(pk=desk.program.pk), day=None)
    if source.by:
        with pytest.raises((AttributeError, TypeError, ValueError)):
            source.rows(bare)
    else:
        with django_assert_num_queries(0):
            assert str(source.rows(bare).query)


@pytest.mark.parametrize("source", [source for source in SOURCES if source.by], ids=lambda source: source.slug)
@pytest.mark.parametrize(
    "other", [{"day": DAY + timedelta(days=400)}, {"day": DAY - timedelta(days=400)}, {"months": 1}]
)
def test_what_depends_on_more_is_kept_apart(desk: Desk, source: DueSource, other: dict[str, Any]) -> None:
    make_line(desk, source, DAY)
    found = [source.found(desk, until=DAY, limit=9)]
    desk.program.quiet_after_months = other.get("months", desk.program.quiet_after_months)
    later = replace(desk, day=other.get("day", DAY))
    found.append(source.found(later, until=DAY, limit=9))
    assert found[1] == list(source.asked(later, 9, {"until": DAY}))


def test_any_number_of_rows_is_asked_for_by_number(desk: Desk) -> None:
    program = desk.program
    known = [people.make_partner(program, name=f"Place {n}").pk for n in range(3)]
    shape = ("tests.partners", program.pk)
    for numbers in ([], known[:1], known, [*range(10**6, 10**6 + 150), *known]):
        found = kept_rows_of(shape, numbers, lambda pks: program.partners.filter(pk__in=pks).values_list("pk"))
        assert sorted(pk for (pk,) in found) == [pk for pk in numbers if pk in known]


def test_each_person_and_program_is_answered_from_their_own_rows(desk: Desk) -> None:
    source = next(one for one in SOURCES if one.slug == "promises.theirs")
    make_line(desk, source, DAY)
    school = people.make_school(desk.program, name="Second School")
    narrowed = replace(desk, school_ids=frozenset({school.pk}))
    theirs = Desk(program=people.make_program(name="Another"), day=DAY)
    numbers = [len(source.found(one, until=DAY, limit=9)) for one in (desk, narrowed, theirs, desk)]
    assert numbers == [1, len(source.asked(narrowed, 9, {"until": DAY})), 0, 1]


def test_the_sql_is_written_once(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    source = SOURCES[0]
    source.found(desk, until=DAY, limit=9)
    monkeypatch.setattr(DueSource, "asked", None)
    assert source.found(desk, until=BEFORE, limit=9) == []


def test_what_can_find_nothing_is_asked_anew(desk: Desk) -> None:
    source = replace(SOURCES[0], rows=lambda desk: SOURCES[0].rows(desk).none(), slug="tests.nothing")
    assert source.found(desk, until=DAY, limit=9) == []
    assert not [shape for shape in connections["default"].kept_queries if shape[0] == source.slug]
