"""Every address that takes a form: what it does is one change at most, and taking it back leaves no trace."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import time_machine
from django.db import transaction
from django.test import Client
from django.urls import reverse

from partners.agenda.actions import take_back
from partners.agenda.last_heard import last_heard
from partners.agenda.redate import redate
from partners.directory.actions import edit_partner
from partners.directory.keys import people_key
from partners.ground.changes import change
from partners.ground.models import Event
from partners.ground.undo import CannotUndo
from partners.program.models import Membership, Program, Role
from tests import people, whole_book
from tests.rows import make_book
from tests.whole_site.addresses import ADDRESSES, methods, paths
from tests.whole_site.attempt import Attempt, nothing
from tests.whole_site.attempts import ATTEMPTS, FOR_GOOD, NO_CHANGE, OWN
from tests.whole_site.pages import Page, within

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module", autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2027-01-12 15:00 -0500", tick=False):
        yield


@pytest.fixture(scope="module")
def kept(django_db_setup: None, django_db_blocker: Any) -> Iterator[int]:
    """A row of every kind, as it could have been typed, made once for every form; the number of June's membership."""
    plain = {"phone": "", "email": ""}
    with django_db_blocker.unblock(), transaction.atomic():
        point = transaction.savepoint()
        june = people.make_member(people.make_program(), "June")
        make_book(
            june.program, OWN, "Ours ",
            School={"phone": "", "cycle_length": 0},
            Partner={**plain, "web": "", "business_kind": "garden"},
            Contact={**plain, "left_on": None},
            Promise={"collect": True, "quantity": 40},
            Approval={"renewed": False},
            Membership={"user": people.make_user("Omar"), "role": Role.TEACHER},
        )  # fmt: skip
        make_sound(june.program)
        yield june.pk
        transaction.savepoint_rollback(point)


@pytest.fixture
def june(kept: int, db: None) -> Membership:
    return Membership.objects.get(pk=kept)


@pytest.fixture
def book(june: Membership) -> Program:
    return june.program


def make_sound(program: Program) -> None:
    """The days and keys that verbs would have worked out, so that an undo finds nothing to put right."""
    desk = people.make_desk(program)
    with change(desk, "sound") as book:
        redate(book, desk)
    edit_partner(desk=desk, partner=program.partners.get())
    partner = program.partners.get()
    program.partners.update(last_heard_on=last_heard(program)[partner.pk], people_key=people_key([]))
    Event.objects.all().delete()


def prepared(program: Program, name: str) -> Attempt:
    attempt = ATTEMPTS[name]
    if attempt.before is not nothing:
        attempt.before(program)
        if not Event.objects.exists():
            make_sound(program)
    return attempt


def address(name: str, where: dict[str, Any]) -> str:
    if where:
        return reverse(name, kwargs={"pk": OWN, **where})
    return paths(name, OWN)[0]


def form_sent(client: Client, attempt: Attempt, name: str, path: str) -> dict[str, Any]:
    """What the page's own form sends to this address, with what is typed into it."""
    if attempt.page is None:
        return attempt.typed
    at = (
        address(attempt.page, attempt.where if attempt.page == "outreach:document-prepare" else {})
        if attempt.page
        else path
    )
    page = Page.read(client.get(at).content.decode())
    found = [form for form in page.forms if form.method == "post" and within(at, form.action or at) == path]
    assert found, f"{at} shows no form for {name}"
    return {**found[0].sent, **attempt.typed}


def complaints(answer: Any) -> Any:
    form = (answer.context or {}).get("form") if answer.context else None
    return getattr(form, "errors", None) or answer.status_code


def test_the_table_is_complete() -> None:
    ours = set(ADDRESSES) - NO_CHANGE
    assert {name for name in ours if "POST" in methods(name)} == set(ATTEMPTS)


@pytest.mark.parametrize("name", sorted(ATTEMPTS))
def test_one_form_is_one_change_and_undo_leaves_no_trace(signed_in: Client, book: Program, name: str) -> None:
    """Also after a double press: the second finds that it was saved, or that it is settled, and no error."""
    attempt = prepared(book, name)
    path = address(name, attempt.where)
    if name == "story:undo":
        path = reverse(name, args=[Event.objects.latest("pk").pk])
    sent = form_sent(signed_in, attempt, name, path)
    before, events = whole_book.rows(book), Event.objects.count()
    answer = signed_in.post(path, sent)
    assert answer.status_code == 302, complaints(answer)
    assert Event.objects.count() == events + 1, [str(event) for event in Event.objects.all()]
    after = whole_book.rows(book)
    assert after != before
    if name != "story:undo":
        press_again(signed_in, path, sent)
        assert whole_book.rows(book) == after
        assert Event.objects.count() == events + 1
    if name in FOR_GOOD:
        with pytest.raises(CannotUndo):
            take_back(desk=people.make_desk(book), event=Event.objects.latest("pk"))
        return
    take_back(desk=people.make_desk(book), event=Event.objects.latest("pk"))
    assert whole_book.rows(book) == before


def press_again(client: Client, path: str, sent: dict[str, Any]) -> None:
    answer = client.post(path, sent)
    assert answer.status_code in (302, 404, 409), complaints(answer)


@pytest.mark.parametrize("name", sorted(NO_CHANGE - {"school:set-up"}))
def test_signing_in_and_out_writes_nothing(signed_in: Client, book: Program, name: str) -> None:
    before = whole_book.rows(book)
    signed_in.post(paths(name, book.pk)[0], {})
    assert whole_book.rows(book) == before
    assert not Event.objects.exists()
