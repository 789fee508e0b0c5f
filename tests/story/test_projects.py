"""Projects through the screens: who shares the work, its classes and parts, and what it became."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.agenda.lines import due_lines
from partners.gifts.actions import Line, receive
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership, Opened, Program
from partners.school import project_actions as actions
from partners.school.actions import add_class
from partners.school.models import SchoolClass
from partners.school.project_models import PartBy, Project, ProjectPart
from partners.story.find import find
from partners.wish_list.actions import add_need
from tests import people, whole_book
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db
SENTENCE = "Forty planters stand on the library steps."


@pytest.fixture
def classes(desk: Desk) -> list[SchoolClass]:
    school = people.make_school(desk.program)
    return [add_class(desk=desk, school=school, label=f"{n}-A", grade=n, students=20 + n) for n in (3, 4)]


@pytest.fixture
def project(desk: Desk, classes: list[SchoolClass]) -> Project:
    theo = people.make_partner(desk.program, "Theo Brandt", kind="colleague")
    days = {"begins_on": date(2026, 9, 1), "ends_on": desk.day - timedelta(days=2)}
    return actions.add_project(desk=desk, title="Porch planters", colleague=theo, school=classes[0].school, **days)


@pytest.fixture
def part(desk: Desk, project: Project) -> ProjectPart:
    return actions.add_part(desk=desk, project=project, what="three trunk slices", by=PartBy.COLLEAGUE, due=desk.day)


def at(name: str, pk: int) -> str:
    return reverse(f"school:project-{name}", args=[pk])


def lines(desk: Desk) -> dict[str, Any]:
    found = due_lines(desk, until=desk.day, limit=50)
    return {line.source: line for line in found if line.source.startswith("school.")}


@pytest.mark.parametrize(
    "verb",
    [
        lambda desk, part: actions.add_project(desk=desk, title="A map"),
        lambda desk, part: actions.say_became(
            desk=desk, project=part.project, what_it_became=SENTENCE, became_count=40
        ),
        lambda desk, part: actions.nothing_to_tell(desk=desk, project=part.project),
        lambda desk, part: actions.invited(desk=desk, project=part.project, day=desk.day),
        lambda desk, part: actions.choose_classes(desk=desk, project=part.project, classes=list(desk.classes)),
        lambda desk, part: actions.add_part(desk=desk, project=part.project, what="clay"),
        lambda desk, part: actions.edit_part(desk=desk, part=part, what="two slices"),
        lambda desk, part: actions.part_done(desk=desk, part=part, day=desk.day),
        lambda desk, part: actions.move_part(desk=desk, part=part, due=date(2027, 1, 5)),
        lambda desk, part: actions.remove_part(desk=desk, part=part),
        lambda desk, part: actions.move_end(desk=desk, project=part.project, due=date(2027, 1, 5)),
    ],
)
def test_each_verb_is_one_change_and_its_undo_leaves_no_trace(
    desk: Desk, part: ProjectPart, verb: Callable[[Desk, ProjectPart], object]
) -> None:
    before, events = whole_book.rows(desk.program), Event.objects.count()
    verb(desk, part)
    assert Event.objects.count() == events + 1
    assert differences(desk.program) == []
    whole_book.undo_newest(desk)
    assert whole_book.rows(desk.program) == before


def test_students_are_those_of_the_classes_unless_they_are_typed(
    signed_in: Client, desk: Desk, project: Project, classes: list[SchoolClass]
) -> None:
    assert project.children() is None
    signed_in.post(at("classes", project.pk), {f"class-{one.pk}": "on" for one in classes})
    assert project.children() == 47
    actions.edit_project(desk=desk, project=project, students=40)
    assert project.children() == 40
    assert "3-A, 4-A" in flat(signed_in.get(project.get_absolute_url()))


def test_a_grade_is_ticked_at_once_and_saved_with_the_next_press(
    signed_in: Client, project: Project, classes: list[SchoolClass]
) -> None:
    page = signed_in.post(at("classes", project.pk), {"tick": "grade-4"})
    form = page.context["form"]
    assert [one.grade for one in form.known if form[f"class-{one.pk}"].value()] == [4]
    assert not project.classes.exists()


def test_a_colleague_is_typed_by_name_and_added_where_unknown(signed_in: Client, project: Project) -> None:
    known = {"title": "A map", "colleague": "theo brandt", "subject": "science"}
    signed_in.post(reverse("school:project-new"), known)
    signed_in.post(reverse("school:project-new"), {**known, "title": "A mural", "colleague": "Ada Quill"})
    by = dict(Project.objects.values_list("title", "colleague__name"))
    assert by == {"Porch planters": "Theo Brandt", "A map": "Theo Brandt", "A mural": "Ada Quill"}
    assert project.program.partners.get(name="Ada Quill").kind == "colleague"


def test_days_out_of_order_are_refused_and_nothing_typed_is_lost(signed_in: Client, project: Project) -> None:
    typed = {"title": "A map of it", "begins_on": "2026-12-01", "ends_on": "2026-11-01"}
    page = flat(signed_in.post(reverse("school:project-new"), typed))
    assert "It ends before it begins." in page
    assert 'value="A map of it"' in page
    assert Project.objects.count() == 1


def test_what_it_became_is_asked_at_the_end_and_once(signed_in: Client, desk: Desk, project: Project) -> None:
    assert lines(desk)["school.became"].main.url == at("became", project.pk)
    signed_in.post(at("became", project.pk), {"what_it_became": SENTENCE, "became_count": "40"})
    project.refresh_from_db()
    assert (project.what_it_became, project.became_count, project.became_on) == (SENTENCE, 40, project.became_on)
    assert "school.became" not in lines(desk)
    assert SENTENCE in flat(signed_in.get(project.get_absolute_url()))


def test_nothing_to_tell_closes_the_question_and_a_sentence_opens_it_no_more(
    signed_in: Client, desk: Desk, project: Project
) -> None:
    settle = reverse("agenda:settle", args=["school.became", project.pk])
    signed_in.post(settle, {"act": "done"})
    assert "school.became" not in lines(desk)
    actions.say_became(desk=desk, project=Project.objects.get(), what_it_became=SENTENCE)
    assert not Project.objects.get().nothing_to_tell


def test_nobody_is_invited_to_what_is_over(signed_in: Client, desk: Desk, project: Project) -> None:
    actions.say_became(desk=desk, project=project, what_it_became=SENTENCE)
    assert "Invite the colleague" not in flat(signed_in.get(at("detail", project.pk)))
    actions.edit_project(desk=desk, project=project, what_it_became="", ends_on=None)
    assert "Invite the colleague" in flat(signed_in.get(at("detail", project.pk)))


@pytest.mark.parametrize("name", ["became", "edit"])
def test_a_childs_name_in_the_sentence_is_asked_back_before_it_is_saved(
    signed_in: Client, project: Project, name: str
) -> None:
    typed = {"title": "Porch planters", "what_it_became": "Forty pots, the largest painted by Emma Torres."}
    page = flat(signed_in.post(at(name, project.pk), typed))
    assert "“Emma Torres”: is that a child&#x27;s name?" in page
    assert "That is no child&#x27;s name: “" not in page
    assert not Project.objects.get().what_it_became
    assert signed_in.post(at(name, project.pk), {**typed, "no_child": "on"}).status_code == 302
    assert "Emma" in Project.objects.get().what_it_became


def test_each_sides_parts_are_due_and_the_colleague_is_asked(
    signed_in: Client, desk: Desk, project: Project, part: ProjectPart
) -> None:
    actions.add_part(desk=desk, project=project, what="clay", does="teaches", due=desk.day)
    found = lines(desk)
    assert (found["school.part"].verb, found["school.part"].what) == ("Teach", "clay")
    theirs = found["school.colleague"]
    assert (theirs.verb, theirs.who, theirs.what) == (
        "Ask", "Theo Brandt", "whether this is there: three trunk slices",
    )  # fmt: skip
    signed_in.post(reverse("agenda:settle", args=["school.colleague", part.pk]), {"act": "done"})
    assert "school.colleague" not in lines(desk)


def test_the_colleagues_page_tells_the_project_and_what_is_next(
    signed_in: Client, desk: Desk, project: Project, part: ProjectPart
) -> None:
    page = flat(signed_in.get(project.colleague.get_absolute_url()))
    assert "Project Porch planters" in page
    assert "three trunk slices" in page
    assert "whether this is there: three trunk slices" in page


def test_the_page_shows_what_it_needs_and_what_came(signed_in: Client, desk: Desk, project: Project) -> None:
    need = add_need(desk=desk, what="terracotta pots", quantity=40, project=project)
    nursery = people.make_partner(desk.program, "Fern Nursery")
    receive(desk=desk, partner=nursery, day=desk.day, lines=[Line(description="forty pots", need=need)],
            source="partner", form="goods")  # fmt: skip
    page = flat(signed_in.get(project.get_absolute_url()))
    assert "terracotta pots" in page
    assert "forty pots" in page
    assert "Fern Nursery" in page


def test_search_finds_a_project(desk: Desk, project: Project) -> None:
    assert [(group.title, group.found[0].label) for group in find(desk, "PLANTERS")] == [("Projects", "Porch planters")]


def test_a_guest_reads_the_project_and_nothing_that_is_closed(
    client: Client, grace: Membership, desk: Desk, project: Project, part: ProjectPart
) -> None:
    add_need(desk=desk, what="terracotta pots", project=project)
    enter(client, grace)
    assert status(client, project.get_absolute_url()) == 403
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.PROJECTS])
    page = flat(client.get(project.get_absolute_url()))
    assert "three trunk slices" in page
    assert "terracotta pots" not in page
    assert "<form" not in page.split("<main")[1].split("</main")[0]
    assert status(client, at("edit", project.pk)) == 403


def test_who_has_other_schools_finds_neither_project_nor_part(
    client: Client, omar: Membership, desk: Desk, project: Project, part: ProjectPart
) -> None:
    other = people.make_school(omar.program, "North Ridge Elementary")
    Membership.objects.filter(pk=omar.pk).update(school_ids=[other.pk])
    enter(client, omar)
    assert status(client, project.get_absolute_url()) == 404
    assert status(client, at("part-edit", part.pk)) == 404
    assert lines(replace(desk, school_ids=frozenset({other.pk}))) == {}


def test_the_ladder(client: Client, signed_in: Client, otto: Membership, project: Project, part: ProjectPart) -> None:
    pages = ("detail", "edit", "classes", "part-new", "became", "part-edit")
    assert {status(signed_in, at(name, UNKNOWN)) for name in pages} == {404}
    assert {status(signed_in, at(name, part.pk)) for name in ("part-done", "part-remove", "nothing")} == {405}
    enter(client, otto)
    assert {status(client, at(name, part.pk if "part-e" in name else project.pk)) for name in pages} == {404}


def test_a_class_that_takes_part_is_not_taken_out(
    signed_in: Client, desk: Desk, project: Project, classes: list[SchoolClass], program: Program
) -> None:
    actions.choose_classes(desk=desk, project=project, classes=classes)
    page = flat(signed_in.post(reverse("school:class-remove", args=[classes[0].pk]), follow=True))
    assert "3-A takes part in a project." in page
    assert program.classes.count() == 2
