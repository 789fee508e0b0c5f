"""What no page, list, export or PDF may show: another program's words to anybody, notes and figures to guests."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pytest
import time_machine
from django.db.models import CharField, TextField
from django.test import Client
from reportlab.pdfgen.canvas import Canvas

from partners.directory.keys import people_key
from partners.ground.models import Event
from partners.program.desk import school_path
from partners.program.models import Membership, Opened, Program, Role
from tests import people, whole_book
from tests.outreach.sheets import pages_of
from tests.rows import BESIDE, ROWS, SENSIBLE, make_book
from tests.whole_site.addresses import ADDRESSES, OPEN_TO_ALL, closed_to_guests, methods, paths
from tests.whole_site.watched import ALL, Watched

pytestmark = pytest.mark.django_db
# Where Django makes the words of an address.
MAKES_WORDS = "django.core.handlers.wsgi.QueryDict"
BACKEND = "django.contrib.auth.backends.ModelBackend"
OWN, FOREIGN = 5_000_001, 7_000_001
SECRET = "Ottosecret "
NOTE = "Notforguests "
FIGURE_CENTS = 98_765_432
# Notes, and what somebody said: why they said no, what came of asking again.
PRIVATE = ("note", "notes", "reason", "outcome", "refusal_reason")
ELSEWHERE, OTHER_SCHOOL = 6_500_001, "Northridgesecret "
# What an address can say besides: rows by their number, and words to search for.
ROWS_SAID = (
    "partner", "partner_pk", "promise", "follows", "stop", "need", "school", "gift", "visit", "contact", "ask",
    "outing", "project", "place",
)  # fmt: skip
WORDS_SAID = {"q": "ottosec", "name": "ottosec", "what": "ottosec", "search": "ottosec", "partner": "ottosec"}


@pytest.fixture(autouse=True)
def a_day_when_all_is_due() -> Iterator[None]:
    with time_machine.travel("2027-06-01 12:00 -0400", tick=False):
        yield


def words_of(answer: Any) -> str:
    """Everything the answer says, small letters: its headers, and the text of a page, a list or a PDF."""
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    headers = " ".join(f"{name}: {value}" for name, value in answer.items())
    if answer["Content-Type"] == "application/pdf":
        file = pypdfium2.PdfDocument(body)
        told = [*pages_of(body), str(file.get_metadata_dict()), *(mark.get_title() for mark in file.get_toc())]
        return f"{headers} {' '.join(told)}".lower()
    if body.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(body)) as packed:
            body = b" ".join(packed.read(name) for name in packed.namelist())
    if str(answer["Content-Type"]).startswith("image/"):
        return headers.lower()
    return f"{headers} {body.decode()}".lower()


def reading() -> list[str]:
    return [name for name in sorted(ADDRESSES) if name not in OPEN_TO_ALL and "GET" in methods(name)]


def sheet(text: str) -> bytes:
    """A PDF that says the text."""
    file = io.BytesIO()
    page = Canvas(file)
    page.drawString(72, 720, text)
    page.save()
    return file.getvalue()


def own_book(program: Program, **given: Any) -> dict[str, Any]:
    book = make_book(program, OWN, "Ours ", Sheet={"pdf": sheet("Ours")}, KeptFile={"content": sheet("Ours")}, **given)
    partner = book["Partner"]
    partner.name_key, partner.people_key = "ours", people_key(["Ours"])
    partner.save()
    return book


@pytest.fixture
def foreign(otto: Membership) -> Membership:
    """Otto's book, which says a secret in every column of words, and the change that wrote it."""
    pdf = sheet(SECRET)
    words = {"words": {"opening": SECRET}}
    make_book(otto.program, FOREIGN, SECRET, Letter=words, Sheet={"pdf": pdf}, KeptFile={"content": pdf})
    said = {"program": otto.program, "by": otto.user, "words": SECRET, "facts": {"lines": []}}
    hidden = {"model": "partner", "pk": FOREIGN, "before": None, "after": {"notes": SECRET}}
    Event.objects.create(**said, about_model="partner", about_pk=FOREIGN, changes=[hidden])
    return otto


def visited(client: Client, pk: int, search: dict[str, str], *, together: bool) -> Iterator[tuple[str, Any]]:
    """Every page that is read, plain and with everything that the page asks its address for.

    A page that reads its whole address, as lists do, may be told all rows at once and all words at once.
    """
    rows = dict.fromkeys(ROWS_SAID, str(FOREIGN))
    said = [{key: value} for key, value in {**rows, **search}.items()]
    for name in reading():
        first, *others = paths(name, pk)
        Watched.asked.clear()
        yield first, client.get(first)
        asked = set(Watched.asked)
        for path in others:
            yield path, client.get(path)
        for query in [rows, search] if together and ALL in asked else said:
            if asked & {ALL, *query}:
                yield f"{first}?{query}", client.get(first, query)


@pytest.mark.parametrize("together", [True, pytest.param(False, marks=pytest.mark.nightly)], ids=["together", "alone"])
def test_no_page_shows_a_word_of_another_program(
    signed_in: Client, june: Membership, foreign: Membership, monkeypatch: pytest.MonkeyPatch, together: bool
) -> None:
    monkeypatch.setattr(MAKES_WORDS, Watched)
    own_book(june.program)
    leaks, opened = [], set()
    for path, answer in visited(signed_in, OWN, WORDS_SAID, together=together):
        assert answer.status_code in (200, 302, 404), f"{path}: {answer.status_code}"
        opened |= {path} if answer.status_code == 200 else set()
        if SECRET.strip().lower() in words_of(answer):
            leaks.append(path)
    assert leaks == []
    assert len(opened) > 200


@pytest.mark.parametrize(
    ("name", "asks"),
    [("visits:visit-new", {"partner", "stop"}), ("story:search", {"q"}), ("directory:partner-list", {ALL})],
)
def test_what_a_page_asks_its_address_for_is_noted(
    signed_in: Client, name: str, asks: set[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without this the test above could pass because nothing is ever tried."""
    monkeypatch.setattr(MAKES_WORDS, Watched)
    Watched.asked.clear()
    assert signed_in.get(paths(name, OWN)[0]).status_code == 200
    assert asks <= Watched.asked


def test_its_own_keeper_reads_the_same_words_on_most_pages(client: Client, foreign: Membership) -> None:
    """Without this the test above could pass because nothing is ever shown."""
    client.force_login(foreign.user, backend=BACKEND)
    names = {
        "agenda:review", "agenda:today", "directory:partner-list", "directory:partner-detail", "gifts:gift-detail",
        "directory:partner-export", "outreach:document", "wish_list:need-list", "promises:promise-detail",
        "letters:letter-list", "story:history", "school:school-detail",
    }  # fmt: skip
    assert {name for name in names if SECRET.strip().lower() in words_of(client.get(paths(name, FOREIGN)[0]))} == names


@pytest.fixture
def noted(program: Program) -> None:
    """A book with a note wherever there can be one, and a giver's own figure."""
    notes: dict[str, dict[str, Any]] = {
        model.__name__: {
            column.name: NOTE for column in model._meta.concrete_fields if column.name in PRIVATE and not column.choices
        }
        for model in ROWS
    }
    notes["Gift"] |= {"given_value_cents": FIGURE_CENTS}
    # An answer and a follow-up are told once they are there.
    notes["Ask"] |= {"answer": "no", "answered_on": people.TUESDAY, "look_on": None}
    notes["FollowUp"] |= {"done_on": people.TUESDAY}
    own_book(program, **{name: said for name, said in notes.items() if said})


@pytest.fixture
def handed_over(noted: None, program: Program) -> None:
    """The same delivery without a gift behind it: then the story of the partner tells it."""
    program.gift_lines.update(delivery=None)


# Where a story is told, or what became of a promise.
TOLD = ["directory:partner-detail", "gifts:gift-detail", "promises:promise-detail", "agenda:review"]


def told_privately(answer: Any) -> bool:
    told = words_of(answer)
    return NOTE.strip().lower() in told or any(figure in told for figure in ("987,654", "987654", "98765432"))


@pytest.mark.parametrize(
    ("book", "names"),
    [("noted", []), ("handed_over", TOLD), pytest.param("handed_over", [], marks=pytest.mark.nightly)],
    ids=["noted", "handed over", "handed over, every page"],
)
def test_guests_never_read_a_note_or_a_givers_own_figure(
    client: Client, grace: Membership, book: str, names: list[str], request: pytest.FixtureRequest
) -> None:
    request.getfixturevalue(book)
    Membership.objects.filter(pk=grace.pk).update(opened=Opened.values)
    client.force_login(grace.user, backend=BACKEND)
    before, leaks, opened = whole_book.rows(grace.program), [], set()
    # What says no to guests, everywhere with the same page, is in test_views.py.
    for name in names or [name for name in reading() if not closed_to_guests(name)]:
        for path in paths(name, OWN):
            answer = client.get(path)
            assert answer.status_code in (200, 403), f"{path}: {answer.status_code}"
            opened |= {name} if answer.status_code == 200 else set()
            if told_privately(answer):
                leaks.append(path)
    assert leaks == []
    assert set(TOLD) <= opened
    assert whole_book.rows(grace.program) == before


def test_teachers_read_notes_and_figures(client: Client, noted: None, omar: Membership) -> None:
    client.force_login(omar.user, backend=BACKEND)
    names = ("directory:partner-detail", "gifts:gift-detail", "promises:promise-detail")
    assert all(told_privately(client.get(paths(name, OWN)[0])) for name in names)


def belongs_to_a_school(model: Any) -> bool:
    return bool(school_path(model)) or model.__name__ in ("School", "Attachment", "Sheet", "KeptFile")


@pytest.fixture
def two_schools(program: Program) -> Membership:
    """A teacher of one school; whatever belongs to the other says so in every column of words."""
    mine = own_book(program)["School"]
    shared: dict[str, dict[str, Any]] = {
        model.__name__: {
            column.name: f"{column.name} of all"[: column.max_length or 40]
            for column in model._meta.concrete_fields
            if isinstance(column, CharField | TextField)
            and not column.choices
            and column.editable
            and column.name not in SENSIBLE.get(model.__name__, ())
        }
        for model in ROWS
        if not belongs_to_a_school(model)
    }
    shared["Partner"] |= {"email": "", "phone": ""}
    shared["Contact"] |= {"email": "", "phone": ""}
    shared["Invitation"]["secret_hash"] = "of the other school"
    shared["Wording"]["number"] = 2
    pdf = sheet(OTHER_SCHOOL)
    book = make_book(program, ELSEWHERE, OTHER_SCHOOL, Sheet={"pdf": pdf}, KeptFile={"content": pdf}, **shared)
    program.promises.filter(pk=ELSEWHERE + BESIDE).update(school=book["School"])
    hidden = {"model": "gift", "pk": ELSEWHERE, "before": None, "after": {"note": OTHER_SCHOOL}}
    said = {"program": program, "words": OTHER_SCHOOL, "facts": {"lines": []}, "changes": [hidden]}
    for model, row in book.items():
        if belongs_to_a_school(type(row)) and model not in ("Sheet", "KeptFile"):
            Event.objects.create(**said, about_model=row._meta.model_name, about_pk=row.pk)
    return people.make_member(program, "Lena", Role.TEACHER, school_ids=[mine.pk])


@pytest.mark.usefixtures("short")
def test_a_teacher_of_one_school_reads_nothing_of_another(client: Client, two_schools: Membership) -> None:
    """Rows of no school, and what is a part of none, belong to all; they say nothing of the other school here."""
    client.force_login(two_schools.user, backend=BACKEND)
    leaks, opened = [], set()
    for name in reading():
        for path in [*paths(name, OWN)[:1], *paths(name, ELSEWHERE)]:
            answer = client.get(path, {"q": OTHER_SCHOOL[:12].lower()} if name == "story:search" else {})
            assert answer.status_code in (200, 302, 403, 404), f"{path}: {answer.status_code}"
            opened |= {name} if answer.status_code == 200 else set()
            told = words_of(answer) if answer.status_code == 200 else ""
            at = told.find(OTHER_SCHOOL.strip().lower())
            if at >= 0:
                leaks.append(f"{path}: {' '.join(told[max(0, at - 60) : at + 40].split())}")
    assert not leaks, "\n".join(leaks)
    assert len(opened) > 90


def test_a_secret_in_a_pdf_would_be_found(client: Client, foreign: Membership) -> None:
    client.force_login(foreign.user, backend=BACKEND)
    for path in [*paths("outreach:document", FOREIGN), *paths("letters:letter-pdf", FOREIGN)]:
        answer = client.get(path)
        assert answer["Content-Type"] == "application/pdf"
        assert SECRET.strip().lower() in words_of(answer)


def test_the_cast_is_of_two_programs(june: Membership, otto: Membership) -> None:
    assert june.program_id != otto.program_id
    assert people.TUESDAY.weekday() == 1
