"""Classes and lost lessons through the screens: one by one, and pasted out of a spreadsheet."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.ground.models import Event
from partners.program.models import Membership, Program
from partners.school.models import LostLesson, School, SchoolClass
from tests import people, whole_book
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db


@pytest.fixture
def school(program: Program) -> School:
    return people.make_school(program, cycle_length=6, cycle_from=people.TUESDAY)


@pytest.fixture
def other(program: Program) -> School:
    return people.make_school(program, "North Ridge Elementary")


def address(name: str, *pk: int) -> str:
    return reverse(f"school:{name}", args=pk)


def look(client: Client, place: str, rows: str) -> Any:
    return client.post(place, {"rows": rows})


def save(client: Client, place: str, rows: str, **typed: Any) -> Any:
    """Look at the rows, then press Save as the page offers it."""
    shown = look(client, place, rows)
    return client.post(
        place, {"rows": rows, "looked_at": shown.context["form"].data["looked_at"], **typed}, follow=True
    )


def listed(program: Program) -> list[tuple[Any, ...]]:
    columns = ("school__name", "label", "grade", "students", "meets_on", "minutes")
    return list(program.classes.order_by("pk").values_list(*columns))


FORTY_EIGHT = "Class\tGrade\tSize\tDay\tMinutes\t\r\n" + "\r\n".join(
    f"{place // 4}-{'ABCD'[place % 4]}\t{place // 4}\t{18 + place % 11}\tDay {place % 6 + 1}\t45\t"
    for place in range(48)
)


def test_forty_eight_classes_are_looked_at_then_saved_and_taken_back(signed_in: Client, school: School) -> None:
    place = address("class-paste", school.pk)
    page = flat(look(signed_in, place, FORTY_EIGHT))
    assert "48 classes, and all are right." in page
    assert school.classes.count() == 0
    before = whole_book.rows(school.program)
    assert "48 classes added." in flat(save(signed_in, place, FORTY_EIGHT))
    assert school.classes.count() == 48
    assert listed(school.program)[5] == (school.name, "1-B", 1, 23, [6], 45)
    signed_in.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert whole_book.rows(school.program) == before


def test_pasting_again_changes_nothing_and_doubles_nothing(signed_in: Client, school: School) -> None:
    place = address("class-paste", school.pk)
    save(signed_in, place, FORTY_EIGHT)
    events = Event.objects.count()
    assert "Nothing was changed." in flat(save(signed_in, place, FORTY_EIGHT))
    assert (school.classes.count(), Event.objects.count()) == (48, events)


def test_a_list_sent_twice_is_saved_once(signed_in: Client, school: School) -> None:
    place = address("class-paste", school.pk)
    for _time in range(2):
        save(signed_in, place, "3-A\t3\t24", once="a token")
    assert (school.classes.count(), Event.objects.count()) == (1, 1)


def test_a_class_of_the_same_label_is_changed_and_an_empty_cell_leaves_what_is_there(
    signed_in: Client, school: School
) -> None:
    SchoolClass.objects.create(program=school.program, school=school, label="3-A", grade=3, students=24, minutes=45)
    page = flat(save(signed_in, address("class-paste", school.pk), "3-a\t\t26\tDay 2"))
    assert "1 class changed." in page
    assert listed(school.program) == [(school.name, "3-A", 3, 26, [2], 45)]


def test_nothing_is_saved_until_all_rows_are_right_and_nothing_typed_is_lost(signed_in: Client, school: School) -> None:
    rows = "3-A\t3\t24\tDay 1\n3-B\tthree\t\tMon"
    page = flat(save(signed_in, address("class-paste", school.pk), rows))
    assert "1 row needs mending" in page
    assert "“three” is no grade." in page
    assert "The number of students is missing." in page
    assert "“Mon” is no day of this school&#x27;s cycle. Write days from 1 to 6" in page
    assert "3-B three Mon" in page
    assert not SchoolClass.objects.exists()


def test_classes_that_a_new_list_does_not_name_are_taken_out_where_they_are_ticked(
    signed_in: Client, school: School, other: School
) -> None:
    for at, label in ((school, "2-C"), (school, "2-D"), (school, "2-E"), (other, "2-C")):
        SchoolClass.objects.create(program=school.program, school=at, label=label, grade=2, students=20)
    gone, stays = school.classes.get(label="2-C"), school.classes.get(label="2-E")
    LostLesson.objects.create(
        program=school.program, school=school, school_class=stays, first=people.TUESDAY, last=people.TUESDAY
    )
    place = address("class-paste", school.pk)
    shown = look(signed_in, place, "3-A\t3\t24")
    assert [row.label for row in shown.context["form"].fields["gone"].queryset] == ["2-C", "2-D"]
    assert "lost lessons name them: 2-E." in flat(shown)
    page = flat(save(signed_in, place, "3-A\t3\t24", gone=[gone.pk, stays.pk]))
    assert "1 class added. 1 class taken out." in page
    assert [row[1] for row in listed(school.program)] == ["2-D", "2-E", "2-C", "3-A"]


def test_what_was_changed_after_the_look_is_looked_at_again(signed_in: Client, school: School) -> None:
    place = address("class-paste", school.pk)
    mark = look(signed_in, place, "3-A\t3\t24").context["form"].data["looked_at"]
    assert "1 class, and it is right." in flat(signed_in.post(place, {"rows": "3-A\t3\t25", "looked_at": mark}))
    assert not SchoolClass.objects.exists()


def test_several_schools_at_once_each_with_its_own_days(signed_in: Client, school: School, other: School) -> None:
    rows = "3-A\t3\t24\t1, 4\t45\tMillrace\r\n3-A\t3\t22\tTue\t50\tNorth Ridge"
    save(signed_in, address("classes-paste"), rows)
    assert listed(school.program) == [
        (school.name, "3-A", 3, 24, [1, 4], 45), (other.name, "3-A", 3, 22, [1], 50),
    ]  # fmt: skip


def test_another_schools_row_and_a_list_of_children_are_stopped(
    signed_in: Client, school: School, other: School
) -> None:
    place = address("class-paste", school.pk)
    page = flat(look(signed_in, place, "3-A\t3\t24\tDay 1\t45\tNorth Ridge"))
    assert "This row is about North Ridge Elementary" in page
    assert "This book keeps no child" in flat(look(signed_in, place, "Student name\tGrade\nAda Quill\t3"))


def test_a_teacher_of_one_school_does_not_reach_the_other(
    client: Client, omar: Membership, school: School, other: School
) -> None:
    Membership.objects.filter(pk=omar.pk).update(school_ids=[school.pk])
    enter(client, omar)
    assert status(client, address("class-paste", other.pk)) == 404
    page = flat(look(client, address("classes-paste"), "3-A\t3\t24\tTue\t45\tNorth Ridge"))
    assert "“North Ridge” is none of your schools: Millrace Elementary." in page


@pytest.mark.parametrize("rows", ["", " ", "x" * 1_000_001])
def test_an_empty_or_endless_paste_is_told_at_the_field(signed_in: Client, school: School, rows: str) -> None:
    answer = look(signed_in, address("class-paste", school.pk), rows)
    assert answer.status_code == 200
    assert answer.context["form"].errors or answer.context["whole"]


def test_saving_a_list_takes_the_same_queries_for_the_page(
    signed_in: Client, school: School, django_assert_max_num_queries: Any
) -> None:
    with django_assert_max_num_queries(15):
        look(signed_in, address("class-paste", school.pk), FORTY_EIGHT)


@pytest.mark.parametrize(("with_cycle", "days"), [(True, range(1, 7)), (False, range(5))])
def test_a_class_is_entered_with_its_days(
    signed_in: Client, school: School, other: School, with_cycle: bool, days: range
) -> None:
    at = school if with_cycle else other
    place = address("class-new", at.pk)
    offered = [value for value, _label in signed_in.get(place).context["form"].fields["meets_on"].choices]
    assert offered == list(days)
    signed_in.post(place, {"label": "3-A", "grade": "-1", "students": "24", "meets_on": ["2", "4"], "minutes": "45"})
    assert listed(at.program) == [(at.name, "3-A", -1, 24, [2, 4], 45)]
    assert "Pre-K" in flat(signed_in.get(at.get_absolute_url()))


def test_lost_lessons_are_added_for_a_grade_and_taken_out(signed_in: Client, school: School) -> None:
    row = SchoolClass.objects.create(program=school.program, school=school, label="3-A", grade=3, students=24)
    before = whole_book.rows(school.program)
    for whom in ("grade-3", f"class-{row.pk}", ""):
        typed = {"title": "State testing", "first": "2027-04-06", "last": "2027-04-09", "whom": whom}
        signed_in.post(address("lost-new", school.pk), typed)
    assert [lost.whom for lost in school.lost_lessons.order_by("pk")] == ["Grade 3", "3-A", "all classes"]
    page = flat(signed_in.get(school.get_absolute_url()))
    assert "State testing&nbsp;· Grade 3" in page
    for lost in school.lost_lessons.all():
        signed_in.post(address("lost-remove", lost.pk))
    assert whole_book.rows(school.program) == before


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"first": "2027-04-09", "last": "2027-04-06"}, "The last day lies before the first."),
        ({"first": "", "last": ""}, "This field is required."),
        ({"first": "2027-04-09", "last": "2028-04-06"}, "Is the day typed right?"),
        ({"first": "2027-04-09", "whom": "class-987654"}, "Select a valid choice"),
    ],
)
def test_lost_lessons_that_cannot_be_are_refused_and_kept(
    signed_in: Client, school: School, typed: dict[str, str], sentence: str
) -> None:
    page = flat(signed_in.post(address("lost-new", school.pk), {"title": "Assembly", **typed}))
    assert sentence in page
    assert 'value="Assembly"' in page
    assert not school.lost_lessons.exists()


def test_a_class_with_lost_lessons_stays_and_says_why(signed_in: Client, school: School) -> None:
    row = SchoolClass.objects.create(program=school.program, school=school, label="3-A", grade=3, students=24)
    school.lost_lessons.create(program=school.program, school_class=row, first="2027-04-06", last="2027-04-06")
    page = flat(signed_in.post(address("class-remove", row.pk), follow=True))
    assert "Lost lessons of class 3-A are entered." in page


@pytest.mark.parametrize("name", ["class-paste", "lost-new", "class-new"])
def test_the_ladder(client: Client, school: School, grace: Membership, otto: Membership, name: str) -> None:
    assert status(client, address(name, school.pk)) == 302
    assert status(enter(client, grace), address(name, school.pk)) == 403
    assert status(enter(client, otto), address(name, school.pk)) == 404
    assert status(client, address(name, UNKNOWN), "post") == 404
    assert status(client, address(name, school.pk), "put") == 405
