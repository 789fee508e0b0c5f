"""Schools, their calendar, approvals, rules, classes and projects through the screens."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.program.models import Membership, Program
from partners.school.approval_models import Approval
from partners.school.models import School
from tests.ladder import flat
from tests.people import make_school

pytestmark = pytest.mark.django_db


@pytest.fixture
def school(program: Program) -> School:
    return make_school(program)


def post(client: Client, name: str, pk: int, **values: Any) -> Any:
    return client.post(reverse(f"school:{name}", args=[pk]), values)


def test_closed_days_are_entered_one_or_many(signed_in: Client, school: School) -> None:
    post(signed_in, "day-new", school.pk, kind="closed", title="Staff day", first="2027-03-01", last="")
    post(signed_in, "day-new", school.pk, kind="closed", title="Recess", first="2027-04-05", last="2027-04-09")
    assert [(d.first, d.last) for d in school.school_days.all()] == [
        (date(2027, 3, 1), date(2027, 3, 1)),
        (date(2027, 4, 5), date(2027, 4, 9)),
    ]


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"first": "2027-04-09", "last": "2027-04-05"}, "The last day lies before the first."),
        ({"first": "2027-04-09", "last": "2030-04-05"}, "Is the year typed right?"),
        ({"first": "", "last": ""}, "This field is required."),
        ({"first": "2027-09-01", "last": "", "kind": "year"}, "A school year needs its last day."),
    ],
)
def test_days_that_cannot_be_are_refused_and_kept_on_the_form(
    signed_in: Client, school: School, given: dict[str, str], sentence: str
) -> None:
    answer = post(signed_in, "day-new", school.pk, **{"kind": "closed", "title": "Snow", **given})
    assert sentence in answer.content.decode()
    assert 'value="Snow"' in answer.content.decode()
    assert not school.school_days.exists()


def test_federal_holidays_are_offered_and_can_be_unticked(signed_in: Client, school: School) -> None:
    place = reverse("school:holidays", args=[school.pk])
    offered = [value for value, _label in signed_in.get(place).context["form"].fields["days"].choices]
    signed_in.post(place, {"days": offered[:2]})
    assert [day.first.isoformat() for day in school.school_days.all()] == offered[:2]
    again = [value for value, _label in signed_in.get(place).context["form"].fields["days"].choices]
    assert again == offered[2:]


def test_an_approval_that_is_renewed_is_asked_for_no_longer(signed_in: Client, school: School) -> None:
    old = Approval.objects.create(
        program=school.program, school=school, by="R. Okafor", on="2026-01-01", until="2026-12-01"
    )
    place = reverse("school:approval-new", args=[school.pk]) + f"?follows={old.pk}"
    assert 'value="R. Okafor"' in signed_in.get(place).content.decode()
    signed_in.post(place, {"what_for": "asking", "by": "R. Okafor", "on": "2026-12-01", "until": "2027-12-01"})
    old.refresh_from_db()
    assert old.renewed
    assert school.approvals.count() == 2


@pytest.mark.parametrize("follows", ["x", "999999", "-1", "٣"])
def test_an_address_that_names_no_approval_is_harmless(signed_in: Client, school: School, follows: str) -> None:
    place = reverse("school:approval-new", args=[school.pk])
    assert signed_in.get(place, {"follows": follows}).status_code == 200


def test_an_approval_that_ends_before_it_begins_is_refused(signed_in: Client, school: School) -> None:
    answer = post(signed_in, "approval-new", school.pk, what_for="asking", by="R", on="2026-12-01", until="2026-11-01")
    assert "It ends before it begins." in answer.content.decode()


def test_a_rule_names_who_decides_from_which_value(signed_in: Client, school: School) -> None:
    post(signed_in, "rule-new", school.pk, from_cents="500.00", who="the board")
    assert [(r.from_cents, r.who) for r in school.acceptance_rules.all()] == [(50000, "the board")]
    page = flat(signed_in.get(school.get_absolute_url()))
    assert re.search(r"a gift from \$500\.00.{0,99}the board", page)


@pytest.mark.parametrize("amount", ["-5", "12,5", "much", "1e9", "99999999999"])
def test_an_amount_that_is_none_is_refused_and_kept(signed_in: Client, school: School, amount: str) -> None:
    page = post(signed_in, "rule-new", school.pk, from_cents=amount, who="the board").content.decode()
    assert f'value="{amount}"' in page
    assert 'aria-invalid="true"' in page
    assert not school.acceptance_rules.exists()


def test_the_same_class_is_not_entered_twice(signed_in: Client, school: School) -> None:
    post(signed_in, "class-new", school.pk, label="3-A", grade="3", students="24")
    page = post(signed_in, "class-new", school.pk, label="3-A", grade="3", students="25").content.decode()
    assert school.classes.count() == 1
    assert "A class of that label is in the book already." in page


def test_the_same_school_is_not_entered_twice(signed_in: Client, school: School) -> None:
    page = signed_in.post(reverse("school:school-new"), {"name": school.name}).content.decode()
    assert "A school of that name is in the book already." in page


def test_a_cycle_needs_its_first_day(signed_in: Client, school: School) -> None:
    form = signed_in.get(reverse("school:school-edit", args=[school.pk])).context["form"]
    values = {name: form[name].value() for name in form.fields if form[name].value() not in (None, False, "")}
    place = reverse("school:school-edit", args=[school.pk])
    page = signed_in.post(place, values | {"cycle_length": 6}).content.decode()
    assert "Say on which day cycle day 1 falls." in page


def test_markup_in_names_is_shown_as_typed(signed_in: Client, program: Program) -> None:
    school = make_school(program, "<b>Hill</b> & Dale")
    page = signed_in.get(school.get_absolute_url()).content.decode()
    assert "&lt;b&gt;Hill&lt;/b&gt; &amp; Dale" in page
    assert "<b>Hill</b>" not in page


def test_guests_do_not_reach_the_schools(client: Client, grace: Membership, school: School) -> None:
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(school.get_absolute_url()).status_code == 403
    assert client.get(reverse("school:day-new", args=[school.pk])).status_code == 403
