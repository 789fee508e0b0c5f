"""Every address that takes a form: what it does is one change at most, and taking it back leaves no trace."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.actions import take_back
from partners.agenda.last_heard import last_heard
from partners.agenda.redate import redate
from partners.directory.actions import edit_partner
from partners.directory.keys import people_key
from partners.ground.changes import change
from partners.ground.models import Event
from partners.letters.models import LetterState
from partners.program.models import Membership, Program, Role
from tests import people, whole_book
from tests.rows import make_book
from tests.whole_site.addresses import ADDRESSES, methods, paths
from tests.whole_site.pages import Page, within

pytestmark = pytest.mark.django_db
OWN = 5_000_001
# They change who is signed in, or where one looks; nothing in any program's book.
NO_CHANGE = {
    "program:sign-in", "program:sign-out", "program:password", "program:program-choose", "school:set-up",
}  # fmt: skip
LATER = "2027-02-02"


@dataclass(frozen=True)
class Attempt:
    """What is typed beyond what the form itself would send, what has to be so before, and where the form stands.

    `where` is what the address holds besides the row's number; `page` the name of the page with the form: its own
    where it is empty, none where the form sends its parts in another way.
    """

    typed: dict[str, Any] = field(default_factory=dict)
    before: Callable[[Program], object] = lambda program: None
    where: dict[str, Any] = field(default_factory=dict)
    page: str | None = ""


def set_to(kind: str, **values: Any) -> Callable[[Program], object]:
    return lambda program: getattr(program, kind).update(**values)


def nobody_met_there(program: Program) -> None:
    program.visits.update(contact=None)


def nothing_about_it(program: Program) -> None:
    for kind in ("asks", "promises", "offers", "gift_lines", "letters", "outing_stops"):
        getattr(program, kind).update(need=None)


def lent(program: Program) -> None:
    program.gifts.update(form="loan", return_on=people.TUESDAY, accept_due=None)


def money(program: Program) -> None:
    program.gifts.update(
        form="money", amount_cents=2000, money_kind="check", hand_in_due=people.TUESDAY, receipt_number=""
    )


def something_changed(program: Program) -> None:
    from partners.wish_list.actions import enough

    enough(desk=people.make_desk(program), need=program.needs.get())


PARTNER = {"partner_pk": OWN, "partner": ""}
ONE_LINE = {"line-0-description": "pots", "line-0-quantity": "5"}
ATTEMPTS: dict[str, Attempt] = {
    "agenda:settle": Attempt({"act": "done"}, where={"slug": "gifts.thanks"}, page="agenda:review"),
    "agenda:settle-many": Attempt(
        {"do": "done", "line": [f"gifts-thanks-{OWN}", f"promises-theirs-{OWN}"]}, page="agenda:review"
    ),
    "asking:outing-new": Attempt({"day": LATER, "place": [OWN], "once": "a token"}, page=None),
    "directory:contact-edit": Attempt({"name": "Dana Whitlock", "phone": ""}),
    "directory:contact-left": Attempt(before=set_to("contacts", left_on=None), page="directory:partner-detail"),
    "directory:contact-new": Attempt({"name": "Pat Oduya"}),
    "directory:contact-remove": Attempt(before=nobody_met_there, page="directory:contact-edit"),
    "directory:partner-edit": Attempt({"name": "Riverbend Garden Center", "lead_weeks": "3"}),
    "directory:partner-never-ask": Attempt(page="directory:partner-rest"),
    "directory:partner-new": Attempt({"name": "Copper Kettle Diner"}),
    "directory:partner-rest": Attempt({"until": "2030-01-01"}),
    "directory:rest-end": Attempt(before=set_to("partners", rest_until="2028-01-01"), page="directory:partner-detail"),
    "gifts:gift-accepted": Attempt(page="gifts:gift-detail"),
    "gifts:gift-edit": Attempt({"purpose": "glazes for the fifth grade"}),
    "gifts:gift-handed-in": Attempt({"receipt_number": "12"}, before=money, page="gifts:gift-detail"),
    "gifts:gift-new": Attempt({"source": "families", "form": "goods", **ONE_LINE}),
    "gifts:gift-returned": Attempt(before=lent, page="gifts:gift-detail"),
    "gifts:gift-thanked": Attempt(page="gifts:gift-detail"),
    "letters:letter-throw-away": Attempt(
        before=set_to("letters", state=LetterState.DRAFT, sheet=None), page="letters:letter-detail"
    ),
    "outreach:document-hand-over": Attempt(
        {"state": "handed_over"}, where={"slug": "leave-behind"}, page="outreach:document-prepare"
    ),
    "outreach:document-prepare": Attempt({"becomes": "planters for the front steps"}, where={"slug": "leave-behind"}),
    "program:member-edit": Attempt({"role": "guest", "opened": ["today"]}),
    "program:member-new": Attempt({"name": "Ada Quill", "role": "teacher"}),
    "program:member-remove": Attempt(page="program:member-list"),
    "program:settings": Attempt({"thank_within": "6"}),
    "promises:offer-end": Attempt(before=set_to("offers", every="week"), page="promises:promise-detail"),
    "promises:offer-new": Attempt({**PARTNER, "what": "tubes", "first_on": LATER, "every": "week"}),
    "promises:promise-hand-over": Attempt(
        {"quantity": "3"}, before=set_to("promises", side="us"), page="promises:promise-detail"
    ),
    "promises:promise-move": Attempt({"due": LATER}, page="promises:promise-detail"),
    "promises:promise-new": Attempt({**PARTNER, "side": "them", "what": "wool", "due": LATER, "made_on": "2027-01-11"}),
    "promises:promise-settle": Attempt(where={"act": "never-came"}, page="promises:promise-detail"),
    "school:approval-new": Attempt({"by": "Ms. Odell", "what_for": "asking", "on": "2027-01-04", "until": ""}),
    "school:class-edit": Attempt({"label": "3-Birch", "grade": "3", "students": "24"}),
    "school:class-new": Attempt({"label": "3-Elm", "grade": "3", "students": "22"}),
    "school:class-remove": Attempt(page="school:class-edit"),
    "school:day-new": Attempt({"kind": "closed", "title": "Snow", "first": "2027-01-19", "last": ""}),
    "school:day-remove": Attempt(page="school:school-detail"),
    "school:holidays": Attempt(),
    "school:project-edit": Attempt({"what_it_became": "Forty planters stand on Main Street."}),
    "school:project-new": Attempt({"title": "Paper mobiles"}),
    "school:rule-new": Attempt({"from_cents": "500", "who": "the board"}),
    "school:rule-remove": Attempt(page="school:school-detail"),
    "school:school-edit": Attempt({"name": "Millrace Elementary", "weekdays": ["0", "1", "3"]}),
    "school:school-new": Attempt({"name": "North Ridge Elementary"}),
    "story:undo": Attempt(before=something_changed, page="story:history"),
    "visits:visit-new": Attempt({**PARTNER, "happened": "yes", "what": "clay", "need": "", "day": "2027-01-12"}),
    "wish_list:cannot-use-edit": Attempt({"what": "glass jars", "why": "they break"}),
    "wish_list:cannot-use-remove": Attempt(page="wish_list:cannot-use-edit"),
    "wish_list:need-edit": Attempt({"what": "yarn", "needed_by": LATER}),
    "wish_list:need-enough": Attempt(page="wish_list:need-list"),
    "wish_list:need-new": Attempt({"what": "wool", "quantity": "12"}),
    "wish_list:need-open-again": Attempt(before=set_to("needs", state="enough"), page="wish_list:need-list"),
    "wish_list:need-remove": Attempt(before=nothing_about_it, page="wish_list:need-edit"),
}


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2027-01-12 15:00 -0500", tick=False):
        yield


@pytest.fixture
def book(june: Membership) -> Program:
    """A row of every kind, as it could have been typed."""
    plain = {"phone": "", "email": ""}
    omar = people.make_user("Omar")
    make_book(
        june.program, OWN, "Ours ",
        School={"phone": "", "cycle_length": 0},
        Partner={**plain, "web": "", "business_kind": "garden"},
        Contact={**plain, "left_on": None},
        Promise={"collect": True, "quantity": 40},
        Approval={"renewed": False},
        Membership={"user": omar, "role": Role.TEACHER},
    )  # fmt: skip
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
    make_sound(program)
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


def test_the_table_is_complete(signed_in: Client) -> None:
    ours = set(ADDRESSES) - NO_CHANGE
    assert {name for name in ours if "POST" in methods(signed_in, name)} == set(ATTEMPTS)


@pytest.mark.parametrize("name", sorted(ATTEMPTS))
def test_one_form_is_one_change_and_undo_leaves_no_trace(signed_in: Client, book: Program, name: str) -> None:
    attempt = prepared(book, name)
    path = address(name, attempt.where)
    if name == "story:undo":
        path = reverse(name, args=[Event.objects.latest("pk").pk])
    sent = form_sent(signed_in, attempt, name, path)
    before, events = whole_book.rows(book), Event.objects.count()
    answer = signed_in.post(path, sent)
    assert answer.status_code == 302, complaints(answer)
    assert Event.objects.count() == events + 1, [str(event) for event in Event.objects.all()]
    assert whole_book.rows(book) != before
    take_back(desk=people.make_desk(book), event=Event.objects.latest("pk"))
    assert whole_book.rows(book) == before


@pytest.mark.parametrize("name", sorted(name for name in ATTEMPTS if name != "story:undo"))
def test_a_form_sent_twice_is_one_change(signed_in: Client, book: Program, name: str) -> None:
    """A double press: the second finds that it was saved, or that it is settled, and no error."""
    attempt = prepared(book, name)
    path = address(name, attempt.where)
    sent = form_sent(signed_in, attempt, name, path)
    events = Event.objects.count()
    signed_in.post(path, sent)
    after = whole_book.rows(book)
    answer = signed_in.post(path, sent)
    assert answer.status_code in (302, 404, 409), complaints(answer)
    assert whole_book.rows(book) == after
    assert Event.objects.count() == events + 1


@pytest.mark.parametrize("name", sorted(NO_CHANGE - {"school:set-up"}))
def test_signing_in_and_out_writes_nothing(signed_in: Client, book: Program, name: str) -> None:
    before = whole_book.rows(book)
    signed_in.post(paths(name, book.pk)[0], {})
    assert whole_book.rows(book) == before
    assert not Event.objects.exists()
