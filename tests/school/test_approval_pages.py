"""Procedures and approvals through the screens: added, put right, taken out, lapsed; who may not."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.program.models import Membership, Program
from partners.school.approval_actions import add_approval, add_procedure, lapse_approvals
from partners.school.approval_models import Approval, Procedure
from partners.school.models import School, SchoolDays
from partners.visits.models import Ask
from tests import people
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
WITH_SCHOOL = ["school:procedure-new", "school:approval-new", "school:approvals-lapse"]


@pytest.fixture(autouse=True)
def tuesday() -> Any:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def school(program: Program) -> School:
    return people.make_school(program, principal="Dr. Ruth Okafor")


def at(name: str, pk: int, query: str = "") -> str:
    return reverse(name, args=[pk]) + query


def yes(school: School, **values: Any) -> Approval:
    given = {"what_for": "displays", "by": "Dr. Ruth Okafor", "on": DAY, **values}
    return add_approval(desk=people.make_desk(school.program), school=school, **given)


def principal_is(client: Client, school: School, name: str) -> Any:
    form = client.get(at("school:school-edit", school.pk)).context["form"]
    shown = {one: form[one].value() for one in form.fields}
    typed = {one: value for one, value in shown.items() if value is not None and value is not False}
    return client.post(at("school:school-edit", school.pk), {**typed, "principal": name})


def test_what_needs_whose_yes_is_one_table_on_the_schools_page(signed_in: Client, school: School) -> None:
    said = {"what_for": "displays", "who": "the principal", "form": "form D", "days_ahead": "15", "how": "With a plan."}
    signed_in.post(at("school:procedure-new", school.pk), said)
    page = flat(signed_in.get(school.get_absolute_url()))
    assert all(words in page for words in ("15 school days", "form D", "With a plan.", "None yet."))
    yes(school, until=date(2027, 6, 18), paper_held="blue folder")
    page = flat(signed_in.get(school.get_absolute_url()))
    assert "Dr. Ruth Okafor, October 6, 2026</a> until June 18, 2027" in page
    assert "None yet." not in page


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"who": ""}, "This field is required."),
        ({"days_ahead": "-3"}, "greater than or equal to 0"),
        ({"days_ahead": "4000"}, "That is more than a school year."),
        ({"what_for": "gifts"}, "Select a valid choice."),
        ({"what_for": "trades"}, "How that goes at this school is written down already."),
    ],
)
def test_what_cannot_be_is_refused_and_kept_on_the_form(
    signed_in: Client, school: School, typed: dict[str, str], sentence: str
) -> None:
    add_procedure(desk=people.make_desk(school.program), school=school, what_for="trades", who="the principal")
    said = {"what_for": "displays", "who": "the board", "how": "On Mondays", **typed}
    page = flat(signed_in.post(at("school:procedure-new", school.pk), said))
    assert sentence in page
    assert "On Mondays" in page
    assert school.procedures.count() == 1


def test_the_form_of_a_yes_knows_the_end_of_the_school_year_and_who_is_asked(signed_in: Client, school: School) -> None:
    for first, last in ((date(2025, 9, 2), date(2026, 6, 19)), (date(2026, 9, 1), date(2027, 6, 18))):
        SchoolDays.objects.create(program=school.program, school=school, kind="year", first=first, last=last)
    first = signed_in.get(at("school:approval-new", school.pk, "?what_for=displays")).context["form"].initial
    assert (first["by"], first["until"]) == ("Dr. Ruth Okafor", date(2027, 6, 18))
    desk = people.make_desk(school.program)
    add_procedure(desk=desk, school=school, what_for="buying", who="the business office", each_time=True)
    first = signed_in.get(at("school:approval-new", school.pk, "?what_for=buying")).context["form"].initial
    assert (first["by"], first["until"]) == ("the business office", None)


def test_a_yes_is_put_right_and_taken_out_unless_something_stands_on_it(signed_in: Client, school: School) -> None:
    row, other = yes(school), yes(school, what_for="asking")
    partner = people.make_partner(school.program)
    Ask.objects.create(program=school.program, partner=partner, what="pots", asked_on=DAY, approval=other)
    typed = {"what_for": "displays", "by": "R. Okafor", "on": "2026-10-01", "until": "2026-12-01", "seen": "1"}
    signed_in.post(at("school:approval-edit", row.pk), typed)
    row.refresh_from_db()
    assert (row.by, row.until, row.ask_on) == ("R. Okafor", date(2026, 12, 1), date(2026, 12, 1))
    signed_in.post(at("school:approval-remove", row.pk))
    page = flat(signed_in.post(at("school:approval-remove", other.pk), follow=True))
    assert "so it stays" in page
    assert list(school.approvals.all()) == [other]


def test_a_new_principal_is_asked_what_went_with_the_former(signed_in: Client, school: School) -> None:
    row, boards = yes(school), yes(school, what_for="trades", by="the school board")
    answer = principal_is(signed_in, school, "Ms. Ida Brandvold")
    lapse = signed_in.get(answer.url)
    assert lapse.context["form"]["approvals"].value() == [row.pk]
    assert "Ms. Ida Brandvold follows Dr. Ruth Okafor" in flat(lapse)
    assert "Tick those that no longer hold" in flat(signed_in.post(answer.url, {"sent": "yes"}))
    signed_in.post(answer.url, {"approvals": [row.pk]})
    assert [one.pk for one in Approval.objects.filter(lapsed_on=None)] == [boards.pk]
    page = flat(signed_in.get(reverse("agenda:review")))
    assert "Ask the new principal" in page
    assert "Ms. Ida Brandvold" in page
    assert differences(school.program) == []


def test_a_principals_name_put_right_asks_nothing(signed_in: Client, school: School) -> None:
    yes(school)
    answer = principal_is(signed_in, school, "Ruth Okafor")
    assert answer.url == school.get_absolute_url()


def test_only_teachers_of_the_program_reach_them(
    client: Client, omar: Membership, grace: Membership, otto: Membership, school: School
) -> None:
    procedure = add_procedure(desk=people.make_desk(school.program), school=school, what_for="trades", who="the board")
    pages = [at(name, school.pk) for name in WITH_SCHOOL]
    pages += [at("school:procedure-edit", procedure.pk), at("school:approval-edit", yes(school).pk)]
    signs = {who: [status(enter(client, who), page) for page in pages] for who in (omar, grace, otto)}
    assert signs == {omar: [200] * 5, grace: [403] * 5, otto: [404] * 5}
    unknown = [at(name, UNKNOWN) for name in ("school:procedure-edit", "school:approval-edit", *WITH_SCHOOL)]
    assert {status(enter(client, omar), page) for page in unknown} == {404}
    assert {status(client, at(name, 1)) for name in ("school:procedure-remove", "school:approval-remove")} == {405}
    assert Procedure.objects.count() == 1


def test_what_ended_before_somebody_left_is_asked_of_whoever_follows(signed_in: Client, school: School) -> None:
    row = yes(school, on=date(2026, 6, 1), until=date(2026, 9, 18))
    lapse = signed_in.get(at("school:approvals-lapse", school.pk, "?former=Dr.+Ruth+Okafor"))
    assert lapse.context["form"]["approvals"].value() == [row.pk]


def test_one_yes_to_all_that_lapsed_with_who_left(signed_in: Client, school: School) -> None:
    things = ("displays", "letters_home", "grants", "projects")
    shows, letters, grants, anew = (yes(school, what_for=what_for) for what_for in things)
    desk = people.make_desk(school.program)
    add_procedure(desk=desk, school=school, what_for="projects", who="the principal", each_time=True)
    lapse_approvals(desk=desk, school=school, approvals=[shows, letters, grants, anew], day=DAY)
    place = at("school:approval-new", school.pk, f"?follows={shows.pk}")
    assert set(signed_in.get(place).context["form"].fields["also"].queryset) == {letters, grants}
    typed = {"what_for": "displays", "by": "Ms. Odell", "on": "2026-10-06", "also": [letters.pk]}
    assert "2 approvals recorded." in flat(signed_in.post(place, typed, follow=True))
    held = school.approvals.filter(lapsed_on=None).values_list("what_for", "by")
    assert set(held) == {("displays", "Ms. Odell"), ("letters_home", "Ms. Odell")}
    assert list(school.approvals.filter(lapsed_on=DAY, renewed=False)) == [anew, grants]
    assert differences(school.program) == []


def test_a_yes_that_was_recorded_leads_back_to_where_it_was_missed(signed_in, school):
    place, letter = at("school:approval-new", school.pk), f"/sheets/family-letter/{school.pk}/"
    page = signed_in.get(place, headers={"referer": f"http://testserver{letter}"})
    assert page.context["came_from"] == f"http://testserver{letter}"
    given = {"what_for": "letters_home", "by": "Dr. Okafor", "on": "2026-11-10", "once": "1"}
    assert signed_in.post(place, {**given, "next": letter}).url == letter
    assert signed_in.get(place, headers={"referer": "https://elsewhere.example/"}).context["came_from"] == ""
