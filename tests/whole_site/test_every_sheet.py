"""Every document there is, of the worst book, on both papers: complete, continued properly, tagged, with its fonts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from datetime import UTC, datetime, time
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pytest
import time_machine
from django.db import transaction
from django.test import Client
from django.urls import reverse

from outreach.page import A4, LETTER
from outreach.preparing import to_print
from outreach.registry import ENTRIES
from partners.program.desk import Desk
from tests import people
from tests.outreach.sheets import Printed
from tests.outreach.tagged import Tagged, spoken, spoken_on
from tests.whole_site.pages import Page
from tests.whole_site.worst_book import OWN, worst_book

pytestmark = pytest.mark.django_db
# Noon, so that it is the same day wherever the program is.
NOON = datetime.combine(people.TUESDAY, time(16), UTC)
BACKEND = "django.contrib.auth.backends.ModelBackend"
SLUGS = [one.slug for one in ENTRIES]
SIZES = {one.name: {one.width, one.height} for one in (LETTER, A4)}
# Points; what stands nearer to the edge, a printer loses. The word DRAFT across the page may reach so far.
EDGE = 9.0
# Its strip to cut off stands at the foot of the first page and is read there, before what goes on behind.
CUT_OFF = {"leave-behind"}
# A letter is no list: it names the first few and how many more there are.
CUT_SHORT = {"introduction-letter", "year-end-note"}
# A #10 envelope, 9 1/2 by 4 1/8 inches, in points: it is printed on itself, whatever the paper.
ENVELOPE = {684, 297}
# Addresses that no window and no label could hold are cut on paper alone.
ADDRESSES_ALONE = {"envelope", "labels"}
COUNT = re.compile(r"(?:page|página) (\d+) (?:of|de) (\d+)")


@dataclass
class Drawn:
    """One document on one paper; `words` of each page and what stands `outside` of it, as another reader finds them."""

    facts: Any
    language: str
    tagged: Tagged
    printed: Printed
    words: list[str]
    outside: list[tuple[int, float]]


@dataclass
class Walk:
    drawn: dict[tuple[str, str], Drawn]
    pages: dict[str, str]


@pytest.fixture(scope="module")
def walk(django_db_setup: None, django_db_blocker: Any) -> Walk:
    """The worst book, its sheets drawn on Letter in English and on A4 in Spanish, and gone again."""
    with django_db_blocker.unblock(), transaction.atomic(), time_machine.travel(NOON, tick=False):
        point = transaction.savepoint()
        june = people.make_member(people.make_program(), "June")
        worst_book(june.program)
        client = Client()
        client.force_login(june.user, backend=BACKEND)
        desk = people.make_desk(june.program, user=june.user)
        drawn = {(slug, paper): draw(desk, slug, paper) for slug in SLUGS for paper in SIZES}
        pages = {slug: read(client, slug) for slug in SLUGS}
        transaction.savepoint_rollback(point)
    return Walk(drawn, pages)


def draw(desk: Desk, slug: str, paper: str) -> Drawn:
    desk.program.paper, desk.program.language = paper, "en" if paper == "letter" else "es"
    prepared = to_print(desk, slug, OWN, {})
    pdf = prepared.module.draw(prepared.facts)
    return Drawn(prepared.facts, prepared.facts.language, Tagged(pdf), Printed(pdf), *seen(pdf))


def seen(pdf: bytes) -> tuple[list[str], list[tuple[int, float]]]:
    """The words of each page, and where something is written at or over the edge, where a printer would lose it."""
    words, found = [], []
    for number, page in enumerate(pypdfium2.PdfDocument(pdf)):
        (wide, high), text = page.get_size(), page.get_textpage()
        words.append(" ".join(text.get_text_bounded().split()))
        for at in range(text.count_rects()):
            left, low, right, top = text.get_rect(at)
            nearest = min(left, low, wide - right, high - top)
            if nearest < EDGE:
                found.append((number, nearest))
    return words, found


def read(client: Client, slug: str) -> str:
    return str(client.get(reverse("outreach:document-page", args=[slug, OWN])).content.decode())


def texts(facts: Any) -> Iterator[str]:
    """Every text in the facts."""
    if isinstance(facts, str):
        yield facts
    elif is_dataclass(facts):
        for one in fields(facts):
            yield from texts(getattr(facts, one.name))
    elif isinstance(facts, (tuple, list)):
        for one in facts:
            yield from texts(one)


def miscounted(one: Drawn) -> list[str]:
    """Pages that do not say which of how many they are; a sheet begins where a bookmark leads."""
    reader, whole = one.printed.reader, len(one.words)
    marks = [mark for mark in reader.outline if not isinstance(mark, list)]
    starts = sorted({reader.get_destination_page_number(mark) or 0 for mark in marks})
    wrong = []
    for start, end in zip(starts, [*starts[1:], whole], strict=True):
        for number in range(start, end):
            own, bound = (number - start + 1, end - start), (number + 1, whole)
            said = [(int(at), int(of)) for at, of in COUNT.findall(one.words[number])]
            if end - start > 1 and own not in said and bound not in said:
                wrong.append(one.words[number][-60:])
    return wrong


CODE = re.compile(r"Q\d\dq")


@pytest.mark.parametrize("slug", SLUGS)
def test_every_sheet_of_the_worst_book_on_both_papers(walk: Walk, slug: str) -> None:
    for paper, size in SIZES.items():
        one = walk.drawn[slug, paper]
        reader = one.printed.reader
        assert one.tagged.faults == []
        assert all(one.printed.fonts().values())
        assert reader.metadata is not None
        assert reader.metadata.title
        assert str(reader.root_object["/Lang"])[:2] == one.language[:2]
        own = ENVELOPE if slug == "envelope" else set(map(round, size))
        assert {round(float(side)) for page in reader.pages for side in page.mediabox[2:]} == own
        codes = {code for text in texts(one.facts) for code in CODE.findall(text)}
        assert slug in CUT_SHORT or codes - set(CODE.findall(one.tagged.document.text)) == set()
        assert miscounted(one) == []
        assert one.outside == []


@pytest.mark.parametrize("slug", SLUGS)
def test_every_sheet_reads_the_same_as_its_page(walk: Walk, slug: str) -> None:
    one = walk.drawn[slug, "letter"]
    # The dots between what stands in one line are not there where a line ends.
    drawn, told = (said.replace("·", "") for said in (spoken(one.tagged.document), spoken_on(walk.pages[slug])))
    if slug in CUT_OFF and len(one.words) > 1:
        drawn, told = "".join(sorted(drawn)), "".join(sorted(told))
    rest = iter(told)
    missing = next((at for at, sign in enumerate(drawn) if sign not in rest), None)
    assert missing is None, drawn[missing - 30 : missing + 30]
    # An address that the envelope's window cannot hold is cut on paper alone.
    assert slug in ADDRESSES_ALONE or hasattr(one.facts, "address") or len(drawn) == len(told)
    page = Page.read(walk.pages[slug])
    assert page.headings == 1
    assert all(table.caption.strip() and table.headers for table in page.tables)
