"""Nobody reaches further than they may: by odd methods, by numbers of another program in a form, past their school."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import time_machine
from django.db import models, transaction
from django.test import Client

from partners.program.models import Membership, Program, Role
from partners.school.models import School
from tests import people, whole_book
from tests.ladder import enter
from tests.rows import ROWS, make_book
from tests.whole_site.addresses import ADDRESSES, OPEN_TO_ALL, methods, paths
from tests.whole_site.attempts import ATTEMPTS
from tests.whole_site.test_every_change import address, form_sent
from tests.whole_site.test_forms import FORMS
from tests.whole_site.test_what_is_shown import sheet, words_of

pytestmark = pytest.mark.django_db
OWN, FOREIGN = 5_000_001, 7_000_001
# What no form may ask for: whose row it is, who wrote it, and how often it was changed.
NEVER_ASKED = {
    "program",
    "created_by",
    "created_at",
    "updated_by",
    "updated_at",
    "version",
    "pk",
    "id",
    "user",
    "secret_hash",
}
# Pages that show rows of every kind.
MANY_ROWS = [
    "agenda:review", "agenda:today", "directory:partner-detail", "story:export-json", "story:history", 
    "school:school-list", "gifts:gift-list", "exchanges:trade-list", "letters:letter-list", "year:year",
]  # fmt: skip
NAMES_ROWS = [name for name, attempt in sorted(ATTEMPTS.items()) if str(OWN) in str(attempt.typed)]


@pytest.fixture(autouse=True)
def a_day() -> Iterator[None]:
    with time_machine.travel("2027-01-12 15:00 -0500", tick=False):
        yield


def book_of(program: Program) -> None:
    plain: dict[str, Any] = {"phone": "", "email": ""}
    chosen = {"School": {"phone": "", "cycle_length": 0}, "Partner": {**plain, "web": ""}}
    make_book(program, OWN, "Ours ", **chosen, Contact={**plain, "left_on": None})


def test_no_page_takes_an_odd_method(signed_in: Client, june: Membership) -> None:
    book_of(june.program)
    before, found = whole_book.rows(june.program), {}
    for name in sorted(set(ADDRESSES) - OPEN_TO_ALL):
        path = paths(name, OWN)[0]
        if signed_in.patch(path).status_code != 405:
            found[name] = "patch"
        answer = signed_in.head(path)
        if answer.status_code != 405 and (answer.content or "GET" not in methods(name)):
            found[name] = "head"
    assert found == {}
    assert whole_book.rows(june.program) == before


def test_no_form_asks_whose_a_row_is() -> None:
    asked = {(kind.__name__, name) for kind in FORMS for name in kind.base_fields if name in NEVER_ASKED}
    assert asked == set()


def of_another(sent: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """What is sent, with one number of a row after the other changed to one of the other program."""
    for field, value in sent.items():
        if str(OWN) in f"{field}{value}":
            values = [
                str(one).replace(str(OWN), str(FOREIGN)) for one in (value if isinstance(value, list) else [value])
            ]
            rest = {name: one for name, one in sent.items() if name != field}
            yield {**rest, field.replace(str(OWN), str(FOREIGN)): values}


@pytest.mark.parametrize(
    "names", [NAMES_ROWS, pytest.param(sorted(ATTEMPTS), marks=pytest.mark.nightly)], ids=["few", "many"]
)
def test_no_form_takes_a_row_of_another_program(
    signed_in: Client, june: Membership, otto: Membership, names: list[str]
) -> None:
    """Nor what it does not ask for: the other program's number, somebody else as its writer."""
    book_of(june.program)
    make_book(otto.program, FOREIGN, "Ottosecret ")
    theirs, tried = whole_book.rows(otto.program), 0
    more = {"program": otto.program_id, "program_id": otto.program_id, "created_by": otto.user_id, "id": FOREIGN}
    for name in names:
        attempt = ATTEMPTS[name]
        with transaction.atomic():
            attempt.before(june.program)
            path = address(name, attempt.where).replace(f"/{OWN}/undo", "/0/undo")
            sent = form_sent(signed_in, attempt, name, path) if name != "story:undo" else {}
            for foreign in of_another(sent):
                with transaction.atomic():
                    answer = signed_in.post(path, {**foreign, **more})
                    assert answer.status_code in (200, 302, 404, 409), name
                    assert "ottosecret" not in words_of(answer), name
                    assert whole_book.rows(otto.program) == theirs, name
                    tried += 1
                    transaction.set_rollback(True)
            transaction.set_rollback(True)
    assert tried >= len(NAMES_ROWS)


def told_of_one_school(program: Program) -> None:
    """Every word that belongs to the one school of the book says so. A trade's promises are at its school."""
    program.promises.update(school=OWN)
    program.kept_files.update(content=sheet("Northsecret"))
    program.sheets.update(pdf=sheet("Northsecret"))
    for model in ROWS:
        if model is School or any(field.name == "school" for field in model._meta.concrete_fields):
            words = [
                field.name
                for field in model._meta.concrete_fields
                if isinstance(field, models.CharField | models.TextField)
                and not isinstance(field, models.EmailField)
                and not field.choices
                and (field.max_length or 99) >= 40
                and not field.unique
            ]
            belongs = {"pk": OWN} if model is School else {"school": OWN}
            rows = model._base_manager.filter(program=program, **belongs)
            rows.update(**dict.fromkeys(words, "Northsecret"))


@pytest.mark.parametrize("names", [MANY_ROWS, pytest.param([], marks=pytest.mark.nightly)], ids=["few", "many"])
def test_who_teaches_at_one_school_reads_nothing_of_another(client: Client, june: Membership, names: list[str]) -> None:
    book_of(june.program)
    told_of_one_school(june.program)
    mine = people.make_school(june.program, "Mine")
    lena = people.make_member(june.program, "Lena", Role.TEACHER, school_ids=[mine.pk])
    leaks, told = [], []
    for name in names or readable():
        for member in (june, lena):
            answer = enter(client, member).get(paths(name, OWN)[0])
            said = "northsecret" in words_of(answer)
            told += [name] if said and member is june else []
            leaks += [name] if said and member is lena else []
    assert leaks == []
    assert set(told) >= {"agenda:review", "directory:partner-detail", "story:export-json"}
    assert client.get(f"/schools/{OWN}/").status_code == 404


def readable() -> list[str]:
    return [name for name in sorted(set(ADDRESSES) - OPEN_TO_ALL) if "GET" in methods(name)]
