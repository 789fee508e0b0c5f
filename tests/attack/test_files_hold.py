"""Whatever is in a file that is sent, and whatever words go into one that leaves: it is read, or refused in words."""

from __future__ import annotations

import csv
import email
import email.policy
import io
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, date, datetime
from random import Random
from typing import Any

import icalendar
import pypdf
import pytest
from hypothesis import strategies as st
from PIL import Image

from outreach.documents import leave_behind
from outreach.feeds import calendar, cards, mail, secret_address
from outreach.page import overhear
from outreach.sheet_page import shown
from outreach.wording import blanks
from partners.directory.addresses import address_key, printed_lines, read_address
from partners.directory.phones import phone_key, read_phone
from partners.directory.webs import web_key
from partners.ground import csv_out, money, pictures
from partners.ground.grid import GridRow
from partners.ground.plain import PlainError
from partners.ground.table_in import read_table
from partners.program.desk import Desk
from partners.school.class_paste import read_classes
from partners.story.columns import guessed
from partners.story.kept_rows import unpack
from partners.story.kinds import KINDS
from partners.story.plan_file import plan_file
from tests.attack.guards_of_files import book_that
from tests.attack.inputs import MARK, SIGNS, Hand, assert_no_echo, hands, often, try_many
from tests.ground import sent_files
from tests.outreach.sheets import SHEET

AT = datetime(2026, 10, 6, tzinfo=UTC)
STARTS = (
    b"\x89PNG\r\n\x1a\n",
    b"\xff\xd8\xff",
    b"%PDF-1.7\n",
    b"RIFF",
    b"PK\x03\x04",
    b"\xef\xbb\xbf",
    b"\xff\xfe",
    b"",
)


def spoiled(content: bytes, seed: int) -> bytes:
    """The file with a few of its bytes changed, taken out, doubled or cut off."""
    chance, bent = Random(seed), bytearray(content)
    for _time in range(chance.randint(1, 6)):
        at, size = chance.randrange(len(bent) or 1), chance.randint(1, 8)
        kind = chance.randrange(5)
        if kind == 0:
            bent[at : at + size] = chance.randbytes(size)
        elif kind == 1:
            del bent[at : at + size]
        elif kind == 2:
            bent[at:at] = bent[at : at + size * 9]
        elif kind == 3:
            bent[at : at + size] = b"\xff" * size
        elif kind == 4 and chance.random() < 0.2:
            del bent[at:]
    return bytes(bent)


@pytest.fixture(scope="module")
def sent() -> list[bytes]:
    small = Image.effect_noise((24, 16), 60)
    made = [sent_files.saved(small, kind) for kind in ("PNG", "JPEG", "WEBP")]
    return [*made, sent_files.saved(small.convert("P"), "PNG"), sent_files.photograph(), sent_files.letter(), b""]


# Pillow tells of broken notes beside a picture, which are thrown away.
@pytest.mark.filterwarnings("ignore::UserWarning:PIL")
@often
def test_any_file_is_kept_as_picture_or_paper_or_refused(sent: list[bytes], times: int) -> None:
    def attempt(seed: int, which: int, start: bytes) -> None:
        with suppress(PlainError):
            assert pictures.made_anew(start + spoiled(sent[which], seed)).kind in ("picture", "pdf")

    which = st.sampled_from([*range(len(sent)), 0, 1, 2, 3, 6])
    starts = st.sampled_from([b""] * 9 + list(STARTS))
    try_many(120, times, attempt, seed=st.integers(0, 2**40), which=which, start=starts)


@often
def test_any_table_is_read_or_refused(times: int) -> None:
    table = b'Name,Phone\r\n"Elm, Deli","(201) 555-0123"\r\n'
    files = [table, table.decode().encode("utf-16"), b"", book_that()]

    def attempt(seed: int, which: int, start: bytes, hand: Hand) -> None:
        content = spoiled(files[which], seed) if which else hand.typed().encode() + b"," + hand.typed().encode()
        with suppress(PlainError):
            assert read_table(start + content).rows

    starts = st.sampled_from([b""] * 9 + list(STARTS))
    given = {"seed": st.integers(0, 2**40), "which": st.sampled_from([0, 0, 1, 2, 3]), "start": starts, "hand": hands}
    try_many(160, times, attempt, **given)


@often
@pytest.mark.django_db
def test_any_rows_are_planned_or_refused_cell_by_cell(desk: Desk, times: int) -> None:
    def attempt(hand: Hand) -> None:
        kind = hand.one_of(list(KINDS))
        columns = KINDS[kind].columns
        head = GridRow(1, tuple(hand.typed([one.label for one in columns]) for _place in range(6)))
        rows = [
            head,
            *(
                GridRow(number, tuple(hand.typed(("2026-10-06", "12", "yes")) for _place in range(6)))
                for number in (2, 3)
            ),
        ]
        chosen = {**guessed(head, columns), **{place: one.name for place, one in enumerate(columns[:5])}}
        plan = plan_file(desk=desk, kind=kind, rows=rows, chosen=chosen, head=bool(hand.some([1], 1)))
        assert isinstance(plan.is_right, bool)

    try_many(60, times, attempt, hand=hands)


@often
def test_any_cell_is_read_or_refused(times: int) -> None:
    readers: list[Any] = [
        money.parse_cents, read_phone, phone_key, web_key, unpack, secret_address.read,
        lambda text: address_key(read_address(text)), lambda text: printed_lines(read_address(text)),
        lambda text: read_classes(text, []),
    ]  # fmt: skip
    readers += [column.read for kind in KINDS.values() for column in kind.columns]

    def attempt(hand: Hand) -> None:
        with suppress(PlainError):
            hand.one_of(readers)(hand.typed())

    try_many(600, times, attempt, hand=hands)


@often
def test_any_words_stay_words_in_mails_cards_calendars_and_tables(times: int) -> None:
    """Read back by the standard library's readers and by icalendar: no header, no line and no formula of their own."""

    def attempt(hand: Hand) -> None:
        said = [hand.typed() for _time in range(4)]
        draft = mail.draft(sender="june@example.org", name=said[0], receivers=["dana@example.org"], subject=said[1],
                           body=said[2], written_at=AT)  # fmt: skip
        read = email.message_from_bytes(draft, policy=email.policy.default)
        assert read.get_all("Bcc") == ["dana@example.org"]
        assert not read.defects
        assert len(list(read.keys())) == len(set(read.keys()))
        card = cards.Card(
            "1", said[0], True, said[1], said[2], email=said[3], street=said[0], city=said[1], web=said[3]
        )
        lines = b"".join(cards.card_file([card])).decode().replace("\r\n ", "").split("\r\n")
        assert [line for line in lines if line.partition(":")[0] not in CARD] == [""]
        day = calendar.CalendarDay("1", 1, AT, said[0], date(2026, 10, 6), place=said[1], told=(said[2], said[3]))
        [event] = icalendar.Calendar.from_ical(calendar.calendar_file(day, name=said[3])).walk("VEVENT")
        assert set(event) <= EVENT
        [row] = list(csv.reader(io.StringIO("".join(csv_out.csv_lines([said])), newline=""), strict=True))
        assert not [cell for cell in row if cell[:1] in ("=", "+", "-", "@", "\t", "\r", "\n")]

    try_many(200, times, attempt, hand=hands)


CARD = {
    "BEGIN", "VERSION", "KIND", "UID", "FN", "N", "ORG", "TITLE", "EMAIL;TYPE=work", "ADR;TYPE=work", "URL", "END",
}  # fmt: skip
EVENT = {
    "UID", "DTSTAMP", "SEQUENCE", "SUMMARY", "DTSTART", "DTEND", "LOCATION", "DESCRIPTION", "TRANSP",
}  # fmt: skip


@often
def test_any_words_stay_words_on_a_sheet_and_its_page(times: int) -> None:
    def attempt(hand: Hand) -> None:
        sheet = {name: hand.typed() for name in ("teacher", "partner", "becomes", "offer_back")}
        drawn: list[bytes] = []
        told = overhear(lambda: drawn.append(leave_behind.draw(replace(SHEET, **sheet))))
        assert_no_echo("".join(str(shown(one).body) for one in told))
        root = pypdf.PdfReader(io.BytesIO(drawn[0])).root_object
        assert not {"/OpenAction", "/AA", "/AcroForm"} & set(root)

    try_many(10, times, attempt, hand=hands)


@often
def test_any_words_with_blanks_are_filled_in_once(times: int) -> None:
    """Nothing in the words, nor in what is filled in, is run; what is filled in is not read for blanks again."""
    known = ("person", "what came", "school")

    def attempt(hand: Hand, free: str) -> None:
        text = " ".join(
            hand.one_of((f"[{hand.one_of(known)}]", "[", "]", "[[", hand.typed(), free, ".")) for _time in range(6)
        )
        values = {name: hand.typed() for name in known}
        said = blanks.filled(text, values)
        assert set(said.empty) <= set(blanks.blanks_in(text))
        assert isinstance(blanks.mistakes(text, known), list)
        whole = blanks.filled(
            f"Thanks [what came] {MARK}", {"what came": "x [person] {{ 7|add:7 }} " + values["person"]}
        )
        assert "[person] {{ 7|add:7 }}" in whole.text

    try_many(240, times, attempt, hand=hands, free=st.text(SIGNS, max_size=20))
