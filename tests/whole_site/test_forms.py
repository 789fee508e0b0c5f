"""Every form at a desk: it neither offers nor accepts a row of another program."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

import pytest
from django import forms
from django.db import transaction
from django.template.loader import render_to_string

import outreach
import partners
from outreach.worded import WORDED
from partners.directory.models import Partner
from partners.directory.partner_field import PICKED, PartnerField
from partners.funding.grant_models import Grant, GrantChange
from partners.ground.forms import DeskForm, RowForm
from partners.program.desk import Desk
from partners.program.models import Membership, Program
from partners.school.class_ticks import ClassTicks
from partners.school.models import School
from tests import people
from tests.rows import make_book
from tests.whole_site.pages import Page

pytestmark = pytest.mark.django_db
OWN, FOREIGN, UNKNOWN = 5_000_001, 7_000_001, 9_000_001
# What a form wants to be made with, besides its desk.
MADE_WITH: dict[str, Callable[[Desk], dict[str, Any]]] = {
    "HolidaysForm": lambda desk: {"first": date(2026, 10, 1), "last": date(2027, 9, 30), "taken": set()},
    "TakeOverForm": lambda desk: {"grant": Grant(program=desk.program, pk=UNKNOWN)},
    "GoneForm": lambda desk: {"batch": desk.batches.get()},
    "AskForm": lambda desk: {"line_cents": []},
    "ChangeForm": lambda desk: {"instance": GrantChange(grant_id=OWN)},
    "LetterPictureForm": lambda desk: {"use": "letterhead", "chosen": False},
    "MergeForm": lambda desk: {"kept": Partner(pk=OWN), "other": Partner(pk=OWN + 1)},
    "LapseForm": lambda desk: {"school": School(pk=OWN)},
    "OwnWordsForm": lambda desk: {"sheet": WORDED[0], "spoken": "en", "part": WORDED[0].parts[0]},
}
# Choices of rows that are no model's field: the numbers stand in the choices.
NUMBERED = {("InviteForm", "school_ids"), ("MemberForm", "school_ids")}


def every_form() -> list[type[Any]]:
    for package in (partners, outreach):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            if "migrations" not in module.name and "config" not in module.name:
                importlib.import_module(module.name)
    return sorted({*below(DeskForm), *below(RowForm)}, key=lambda kind: (kind.__module__, kind.__name__))


def below(kind: type[Any]) -> Iterator[type[Any]]:
    for one in kind.__subclasses__():
        yield from below(one)
        # A formset makes a class of its own from a form, and an abstract base has no model.
        if (
            one.__module__.startswith(("partners.", "outreach."))
            and (issubclass(one, DeskForm) or one._meta.model is not None)
            and one is not ClassTicks
        ):
            yield one


FORMS = every_form()


def made(kind: type[Any], desk: Desk, data: Any = None) -> Any:
    more = MADE_WITH.get(kind.__name__)
    return kind(data, desk=desk, **more(desk) if more else {})


def row_fields(form: Any) -> list[str]:
    """The names of the fields that choose rows."""
    return [
        name
        for name, field in form.fields.items()
        if isinstance(field, forms.ModelChoiceField | PartnerField) or (type(form).__name__, name) in NUMBERED
    ]


def errors_of(kind: type[Any], desk: Desk, name: str, pk: int) -> Any:
    field = made(kind, desk).fields[name]
    many = isinstance(field, forms.MultipleChoiceField | forms.ModelMultipleChoiceField)
    sent = f"{name}{PICKED}" if isinstance(field, PartnerField) else name
    form = made(kind, desk, {sent: [pk] if many else pk})
    # Only the field itself is asked: what else is missing is another matter.
    value = field.widget.value_from_datadict(form.data, {}, name)
    try:
        form.fields[name].clean(value)
    except forms.ValidationError as error:
        return error.messages
    return []


@pytest.fixture(scope="module")
def books(django_db_setup: None, django_db_blocker: Any) -> Iterator[Membership]:
    """June's and Otto's, made once for every form."""
    chosen = {"Contact": {"left_on": None}, "OutingStop": {"visit": None}, "Approval": {"what_for": "trades"}}
    with django_db_blocker.unblock(), transaction.atomic():
        point = transaction.savepoint()
        june = people.make_member(people.make_program(), "June")
        make_book(june.program, OWN, "Ours ", **chosen)
        make_book(people.make_program("Stone Quay Art"), FOREIGN, "Ottosecret ", **chosen)
        # Some forms ask for which school only where there is something to choose.
        people.make_school(june.program, "North Ridge Elementary")
        yield june
        transaction.savepoint_rollback(point)


@pytest.fixture
def both(books: Membership, db: None) -> Desk:
    return people.make_desk(Program.fresh(books.program_id), user=books.user)


def told(form: Any) -> Page:
    """The form as it comes back, with the summary before it and its lines after it."""
    fields = [field.as_field_group() for field in form.visible_fields()]
    lines = [str(line) for line in getattr(form, "below", ())]
    return Page.read("".join([render_to_string("_error_summary.html", {"form": form}), *fields, *lines]))


def test_the_forms_are_found() -> None:
    names = {kind.__name__ for kind in FORMS}
    assert {"VisitForm", "ArrivalForm", "PromiseForm", "NeedForm", "ProjectForm", "MemberForm", "LetterWords"} <= names


@pytest.mark.parametrize("kind", FORMS, ids=lambda kind: kind.__name__)
def test_a_form_takes_its_own_rows_and_no_others(both: Desk, kind: type[Any]) -> None:
    form = made(kind, both)
    for name in row_fields(form):
        assert errors_of(kind, both, name, FOREIGN), f"{name} takes a row of another program"
        assert errors_of(kind, both, name, OWN) == [], f"{name} refuses its own row"
        choices = getattr(form.fields[name], "choices", ())
        assert "Ottosecret" not in str([str(choice) for choice in choices])
    for typed in ("", "?"):
        refused = made(kind, both, dict.fromkeys(form.fields, typed))
        page = told(refused)
        below = [field for line in getattr(refused, "below", ()) for field in line.visible_fields()]
        wrong = [field for field in [*refused.visible_fields(), *below] if field.errors]
        assert len(page.wrong) >= len(wrong), "what is refused is marked"
        assert {f"#{field.auto_id}" for field in wrong} <= set(page.links), "the summary leads to it"
        assert not page.lost(), "where the summary leads to is there"
        assert not page.unsaid(), "why it is refused is said at the field"


def test_rows_are_chosen_in_many_forms(both: Desk) -> None:
    """Without this the test above could pass because no field was found."""
    found = {(kind.__name__, name) for kind in FORMS for name in row_fields(made(kind, both))}
    assert {
        ("VisitForm", "partner"), ("VisitForm", "need"), ("VisitForm", "contact"), ("VisitForm", "stop"),
        ("ArrivalForm", "partner"), ("ArrivalForm", "promise"), ("ProjectForm", "school"), ("NeedForm", "project"),
        ("PromiseForm", "partner"), ("PromiseForm", "need"), ("OfferForm", "partner"), ("AgreeForm", "partner"),
        ("AgreeForm", "visit"), ("GiveEditForm", "row"), ("ApproveForm", "approval"), *NUMBERED,
    } <= found  # fmt: skip


def test_no_form_offers_partners_as_a_list(both: Desk) -> None:
    """A place is chosen by typing: forty thousand names in a list help nobody."""
    listed = {
        (kind.__name__, name)
        for kind in FORMS
        for name, field in made(kind, both).fields.items()
        if isinstance(field, forms.ModelChoiceField)
        and field.queryset is not None
        and field.queryset.model is Partner
        and isinstance(field.widget, forms.Select)
    }
    assert listed == set()


def test_every_other_field_that_takes_numbers_is_known(both: Desk) -> None:
    """A choice of rows that is written some other way would not be walked; it is listed here once it is looked at."""
    found = {
        (kind.__name__, name)
        for kind in FORMS
        for name, field in made(kind, both).fields.items()
        if isinstance(field, forms.TypedMultipleChoiceField | forms.TypedChoiceField)
        and any(str(value) == str(OWN) for value, _label in flat(field.choices))
    }
    assert found == NUMBERED


def flat(choices: Any) -> Iterator[tuple[Any, Any]]:
    for value, label in choices:
        if isinstance(label, list | tuple):
            yield from flat(label)
        else:
            yield value, label
