"""Every address of the site: who may open it, with which method, and that nobody reaches into another program."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from partners.ground.models import Event
from partners.program.models import Membership, Opened
from tests import whole_book
from tests.rows import make_book
from tests.whole_site.addresses import (
    ADDRESSES,
    BY_SECRET,
    FOR_EVERYBODY,
    OPEN_TO_ALL,
    WITH_PK,
    closed_to_guests,
    mark,
    methods,
    paths,
)
from tests.whole_site.attempts import ATTEMPTS

BACKEND = "django.contrib.auth.backends.ModelBackend"
FOREIGN = 7_000_001
GUARDED = sorted(set(ADDRESSES) - OPEN_TO_ALL)
# Django's own views of signing in and out say themselves what they take.
OURS = sorted(set(ADDRESSES) - {"program:sign-in", "program:sign-out"})


@pytest.fixture
def foreign(otto: Membership) -> None:
    """A row of every kind in Otto's program, and a change."""
    make_book(otto.program, FOREIGN, "Otto's ")
    Event.objects.create(pk=FOREIGN, program=otto.program, by=otto.user, words="Otto's")


@pytest.mark.parametrize("name", GUARDED)
def test_every_view_says_who_may_open_it(name: str) -> None:
    assert mark(name)


@pytest.mark.django_db
@pytest.mark.usefixtures("short")
def test_another_programs_row_is_not_there(signed_in: Client, foreign: None, otto: Membership) -> None:
    before = whole_book.rows(otto.program)
    found = {}
    for name in sorted(set(WITH_PK) - OPEN_TO_ALL):
        for method in methods(name):
            ask = signed_in.get if method == "GET" else signed_in.post
            typed = ATTEMPTS[name].typed if method == "POST" else {}
            answers = {ask(path, typed).status_code for path in paths(name, FOREIGN)}
            if answers != {404}:
                found[name, method] = answers
    assert found == {}
    assert whole_book.rows(otto.program) == before


@pytest.mark.django_db
def test_a_program_one_does_not_belong_to_cannot_be_chosen(signed_in: Client, otto: Membership) -> None:
    assert signed_in.post(reverse("program:program-choose", args=[otto.program.pk])).status_code == 404
    assert "program" not in signed_in.session


@pytest.mark.django_db
@pytest.mark.usefixtures("short")
def test_a_row_that_never_was_is_not_there(signed_in: Client) -> None:
    """Neither one with a number that a database holds, nor one with a longer number."""
    found = {}
    for name in sorted(set(WITH_PK) - OPEN_TO_ALL):
        for method in methods(name):
            ask = signed_in.get if method == "GET" else signed_in.post
            answers = {ask(path).status_code for path in [paths(name, 10**12)[0], *paths(name, 10**30)]}
            if answers != {404}:
                found[name, method] = answers
    assert found == {}


@pytest.mark.django_db
def test_nobody_reads_or_writes_without_signing_in(client: Client, june: Membership) -> None:
    sign_in, found = reverse("program:sign-in"), {}
    for name in sorted(
        set(ADDRESSES) - {"program:sign-in", "program:sign-out", "school:set-up"} - BY_SECRET - FOR_EVERYBODY
    ):
        for ask in (client.get, client.post):
            answer = ask(paths(name, 1)[0])
            if answer.status_code == 405:
                continue
            if answer.status_code != 302 or not answer["Location"].startswith(sign_in):
                found[name] = answer.status_code
    assert found == {}


@pytest.mark.django_db
@pytest.mark.usefixtures("short")
def test_guests_write_nothing_and_see_nothing_that_is_for_keepers(client: Client, grace: Membership) -> None:
    make_book(grace.program, FOREIGN, "Ours ")
    Membership.objects.filter(pk=grace.pk).update(opened=Opened.values)
    client.force_login(grace.user, backend=BACKEND)
    before, found = whole_book.rows(grace.program), {}
    for name in GUARDED:
        for method in methods(name):
            closed = closed_to_guests(name)
            # That what is open to guests is read and leaves the book as it was: test_what_is_shown.py.
            if closed or method == "POST":
                ask = client.get if method == "GET" else client.post
                answers = {ask(path).status_code for path in paths(name, FOREIGN)[: None if closed else 1]}
                if closed and answers != {403}:
                    found[name, method] = answers
    assert found == {}
    assert whole_book.rows(grace.program) == before


@pytest.mark.django_db
@pytest.mark.usefixtures("short")
def test_a_guest_reads_only_what_is_opened(client: Client, grace: Membership) -> None:
    Membership.objects.filter(pk=grace.pk).update(opened=[])
    client.force_login(grace.user, backend=BACKEND)
    answers = {client.get(paths(name, 1)[0]).status_code for name in GUARDED if "GET" in methods(name)}
    assert answers == {403}


@pytest.mark.django_db
@pytest.mark.usefixtures("short")
def test_a_teacher_neither_keeps_members_nor_settings(client: Client, omar: Membership) -> None:
    client.force_login(omar.user, backend=BACKEND)
    kept = [name for name in GUARDED if mark(name) == "keepers"]
    assert {"program:settings", "program:member-list", "school:school-edit"} <= set(kept)
    for name in kept:
        for method in methods(name):
            ask = client.get if method == "GET" else client.post
            assert ask(paths(name, 1)[0]).status_code == 403, name


@pytest.mark.django_db
def test_who_belongs_to_no_program_is_told_so(client: Client, june: Membership) -> None:
    june.delete()
    client.force_login(june.user, backend=BACKEND)
    told = reverse("program:no-program")
    for name in GUARDED:
        assert client.get(paths(name, 1)[0])["Location"] == told, name
    assert "kept-entries" in client.get(told).content.decode()


@pytest.mark.django_db
def test_each_address_refuses_the_methods_it_does_not_take(signed_in: Client) -> None:
    for name in OURS:
        takes = methods(name)
        assert takes, name
        for ask, method in ((signed_in.get, "GET"), (signed_in.post, "POST"), (signed_in.put, "PUT")):
            if method not in takes and (name, method) != ("program:password", "PUT"):
                assert ask(paths(name, 1)[0]).status_code == 405, f"{method} {name}"


@pytest.mark.django_db
def test_each_form_is_refused_without_its_token(signed_in: Client, june: Membership) -> None:
    browser = Client(enforce_csrf_checks=True)
    browser.force_login(june.user, backend=BACKEND)
    before = whole_book.rows(june.program)
    taking = [name for name in OURS if "POST" in methods(name)]
    assert len(taking) > 40
    for name in [*taking, "program:sign-in", "program:sign-out"]:
        answer = browser.post(paths(name, june.program.pk)[0])
        assert answer.status_code == 403, name
        assert "Nothing was saved" in answer.content.decode(), name
    assert whole_book.rows(june.program) == before
