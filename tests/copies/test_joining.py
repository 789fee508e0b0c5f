"""A program that moves: new numbers, the same record, its history still good for undo."""

from __future__ import annotations

from contextlib import contextmanager
from functools import partial

import pytest
from django.db import connections

from partners.copies.form import Unreadable
from partners.copies.joining import join
from partners.copies.keeping import make_copy
from partners.copies.reading import beside, what_differs
from partners.copies.standing_in import standing_in
from partners.copies.writing import write_program
from partners.ground.models import Event
from partners.program.desk import row_names
from partners.program.models import Program, User
from partners.wish_list.actions import enough
from tests import people
from tests.copies.test_drill import AT
from tests.rows import make_book
from tests.whole_book import rows, undo_newest


@contextmanager
def copied(folder, program, **given):
    own = connections["default"]
    to = make_copy(to=folder / "p.book", at=AT, write=partial(write_program, program=program, **given)).path
    with beside(to, folder / "made.sqlite3") as (made, _told), standing_in(own):
        yield made, own


def counts(program: Program) -> dict[str, int]:
    return {name: model._base_manager.filter(program=program).count() for name, model in row_names().items()}


def test_a_program_joins_a_book_whose_numbers_are_taken(folder, june, otto):
    make_book(june.program, 100, "Seeds ", FormerPartner={"was": 40})
    enough(desk=people.make_desk(june.program, user=june.user), need=june.program.needs.get())
    before = rows(june.program)
    with copied(folder, june.program) as (made, own):
        joined = join(made, own)
    new = joined.program
    assert new.pk not in (june.program.pk, otto.program.pk)
    assert counts(new) == counts(june.program) | {"invitations": 0}
    assert "june2" in dict(joined.people)
    assert User.objects.get(username="june2").check_password(dict(joined.people)["june2"])
    partner = new.partners.get()
    assert new.gifts.get().partner == partner
    assert partner.pk - new.former_partners.get().was == 60
    before_it, former = june.program.former_partners.get(), new.former_partners.get()
    assert former.was - before_it.was == former.partner_id - before_it.partner_id
    back = undo_newest(people.make_desk(new))
    assert back.about() == new.needs.get()
    assert new.needs.get().state == "open"
    assert rows(june.program) == before


def test_the_same_people_are_taken_for_themselves_where_that_is_said(folder, june):
    with copied(folder, june.program) as (made, own):
        joined = join(made, own, same_people=True)
    assert joined.people == [("june", None)]
    assert {member.program for member in june.user.memberships.all()} == {june.program, joined.program}


@pytest.fixture
def two_schools(program):
    """Each school has a gift of the same shop; the shop was last heard of at the other school."""
    millrace, ridge = people.make_school(program), people.make_school(program, "North Ridge")
    partner = people.make_partner(program, last_heard_on="2026-10-05")
    for school, day in ((ridge, "2026-09-01"), (millrace, "2026-10-05")):
        gift = program.gifts.create(school=school, partner=partner, source="partner", form="goods", day=day)
        program.thanks.create(
            partner=partner, gift=gift, school=school, reason="gift", base=day, due=day, late_from=day
        )
    return ridge


def test_one_school_becomes_a_book_that_its_new_teacher_keeps(folder, program, two_schools):
    with copied(folder, program, school=two_schools) as (made, own):
        with standing_in(made):
            assert what_differs() == []
        joined = join(made, own, keeper="Ada Quill")
    new = joined.program
    assert [gift.day.isoformat() for gift in new.gifts.all()] == ["2026-09-01"]
    assert [school.name for school in new.schools.all()] == ["North Ridge"]
    assert new.partners.get().last_heard_on.isoformat() == "2026-09-01"
    assert new.memberships.get().user.username == joined.people[0][0] == "ada"


@pytest.mark.parametrize("number", [-1, 10**12])
def test_a_made_up_history_reaches_no_other_programs_rows(folder, june, otto, number):
    theirs = [{"model": "partner", "pk": number, "before": {"name": "Mine", "version": 1}, "after": {"version": 2}}]
    Event.objects.create(program=june.program, words="Made up", changes=theirs)
    with copied(folder, june.program) as (made, own), pytest.raises(Unreadable, match="damaged"):
        join(made, own)
