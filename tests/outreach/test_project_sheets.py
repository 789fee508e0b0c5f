"""The plan of a shared project on one page, the letter that invites to it, and thanks that tell what it became."""

from __future__ import annotations

import doctest
import io
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pypdf
import pytest
from django.test import Client
from django.urls import reverse

from outreach.documents import colleague_invitation, joint_plan
from outreach.documents.joint_plan import Part
from outreach.gathering.gratitude import gather_gift
from outreach.gathering.project import gather_invitation, gather_plan
from outreach.page import Letterhead
from outreach.wording import project as wording
from partners.gifts.actions import Line, receive
from partners.program.desk import Desk
from partners.school import project_actions as actions
from partners.school.approval_actions import add_approval
from partners.school.project_models import Project
from partners.wish_list.actions import add_need
from tests import people, whole_book
from tests.outreach.sheets import pages_of

DAY = date(2026, 10, 6)
SENTENCE = "Forty planters stand on the library steps."
PLAN = joint_plan.Facts(
    language="en", paper="letter", letterhead=Letterhead(school="Millrace Elementary"), day=DAY,
    teacher="June Castellanos", title="Tree rings and leaf prints",
    about="Third graders read the years of a tree", shared=True,
    colleague="Theo Brandt", subject="science", classes="3-A, 3-B", children=49,
    begins_on=date(2026, 10, 12), ends_on=date(2026, 12, 4),
    ours=(Part("brings", "clay", DAY, done=True), Part("teaches", "printing leaves")),
    theirs=(Part("brings", "three trunk slices", date(2026, 10, 9)),),
)  # fmt: skip


def read(pdf: bytes) -> str:
    return " ".join(pages_of(pdf))


def pages(pdf: bytes) -> int:
    return len(pypdf.PdfReader(io.BytesIO(pdf)).pages)


def test_the_plan_says_who_brings_and_teaches_what_on_one_page() -> None:
    pdf = joint_plan.draw(PLAN)
    text = read(pdf)
    for words in ("A plan of June Castellanos and Theo Brandt", "Theo Brandt, science", "Clay brings, done",
                  "Three trunk slices brings, by Friday, October 9, 2026", "3-A, 3-B (49 students)"):  # fmt: skip
        assert words in text
    assert "What we need" not in text
    assert pages(pdf) == 1
    assert joint_plan.draw(PLAN) == pdf
    assert joint_plan.gaps(PLAN) == ()


def test_a_long_plan_still_fits_on_one_page() -> None:
    parts = tuple(Part("teaches", f"the {n}th step of what a patient colleague explains", DAY) for n in range(6))
    assert pages(joint_plan.draw(replace(PLAN, ours=parts, theirs=parts, about="A sentence of some length. " * 9))) == 1


def test_what_the_plan_lacks_is_listed_before_it_is_printed() -> None:
    bare = replace(PLAN, about="", ours=(), theirs=(), classes="", children=None, begins_on=None, ends_on=None)
    assert [gap.code for gap in joint_plan.gaps(bare)] == ["no-about", "no-ours", "no-theirs", "no-classes", "no-days"]
    assert {"brings", "teaches"} <= set(read(joint_plan.draw(bare)).split())


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "I would bring clay, and teach printing leaves. I hope that you would bring three trunk slices."),
        ("es", "De mi parte: traer clay, y enseñar printing leaves. De su parte, si le parece bien: traer three trunk"),
    ],
)
def test_the_invitation_says_what_each_would_do_and_that_a_no_is_fine(language: str, said: str) -> None:
    common = ("paper", "letterhead", "day", "title", "teacher", "about", "colleague", "subject", "classes", "children")
    facts = colleague_invitation.Facts(
        language=language,
        **{name: getattr(PLAN, name) for name in common},
        ours=tuple((part.does, part.what) for part in PLAN.ours),
        theirs=tuple((part.does, part.what) for part in PLAN.theirs),
    )
    text = read(colleague_invitation.draw(facts))
    assert said in text
    assert ("a yes, a no or another plan" in text) == (language == "en")
    assert pages(colleague_invitation.draw(facts)) == 1


@pytest.mark.parametrize("module", [wording, joint_plan])
def test_examples_in_the_modules_hold(module: Any) -> None:
    assert doctest.testmod(module).failed == 0


@pytest.fixture
def project(desk: Desk) -> Project:
    theo = people.make_partner(desk.program, "Theo Brandt", kind="colleague")
    school = people.make_school(desk.program)
    days = {"begins_on": DAY - timedelta(days=30), "ends_on": DAY + timedelta(days=30)}
    return actions.add_project(desk=desk, title="Porch planters", school=school, colleague=theo, **days)


@pytest.mark.django_db
def test_the_plan_is_gathered_with_its_needs_and_the_principals_yes(desk: Desk, project: Project) -> None:
    add_need(desk=desk, what="terracotta pots", quantity=40, project=project, needed_by=DAY)
    actions.add_part(desk=desk, project=project, what="three trunk slices", by="colleague")
    add_approval(desk=desk, school=project.school, what_for="projects", by="R. Okafor", on=DAY)
    facts = gather_plan(desk, project)
    text = read(joint_plan.draw(facts))
    assert "40 terracotta pots by October 6, 2026" in text
    assert "Approved by R. Okafor, October 6, 2026" in text
    assert [part.what for part in facts.theirs] == ["three trunk slices"]


@pytest.mark.django_db
def test_handing_the_invitation_over_notes_the_day_and_undo_takes_it_back(
    signed_in: Client, desk: Desk, project: Project
) -> None:
    before = whole_book.rows(desk.program)
    place = reverse("outreach:document-hand-over", args=["colleague-invitation", project.pk])
    signed_in.post(place, {"state": "handed_over"})
    letter = desk.letters.get()
    assert (letter.project, letter.partner, letter.title) == (
        project, project.colleague, "Invitation to a colleague: Theo Brandt",
    )  # fmt: skip
    assert Project.objects.get().invited_on is not None
    whole_book.undo_newest(desk)
    assert whole_book.rows(desk.program) == before
    assert gather_invitation(desk, project, {}).colleague == "Theo Brandt"


def told(desk: Desk, giver: Any, **line: Any) -> str:
    lines = [Line(description="forty pots", **line)]
    gift = receive(desk=desk, partner=giver, day=DAY, lines=lines, source="partner", form="goods")
    return " ".join(gather_gift(desk, gift, {}).body)


@pytest.mark.django_db
def test_thanks_tell_what_it_became_to_who_gave_for_a_need_of_it_and_to_the_colleague(
    desk: Desk, project: Project
) -> None:
    need = add_need(desk=desk, what="terracotta pots", project=project)
    actions.say_became(desk=desk, project=project, what_it_became=SENTENCE)
    nursery = people.make_partner(desk.program, "Fern Nursery")
    assert SENTENCE in told(desk, nursery, need=need)
    assert SENTENCE in told(desk, project.colleague)
    assert SENTENCE not in told(desk, people.make_partner(desk.program, "Maple Nursery"))
