"""The words on a frozen sheet, beside what another PDF reader finds on it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from outreach.documents import gratitude_letter, leave_behind
from partners.letters.sheet_text import sheet_text
from tests.outreach.sheets import LETTER, LONG_SHEET, SHEET, Printed


@pytest.mark.parametrize(
    ("draw", "facts"),
    [
        (leave_behind.draw, replace(SHEET, contact="Zoë O’Neill-Řezníček (she)")),
        (leave_behind.draw, LONG_SHEET),
        (gratitude_letter.draw, replace(LETTER, paper="a4")),
    ],
    ids=["accents", "long", "letter"],
)
def test_every_word_that_pdfium_reads_is_read(draw, facts):
    pdf = draw(facts)
    words = Printed(pdf).text.split()
    read = (sheet_text(pdf) or "").split()
    assert len(words) > 80
    assert sorted(set(words) - set(read)) == []


@pytest.mark.parametrize("bytes_", [b"", b"%PDF-1.4 nothing", b"\x00\xff" * 40])
def test_what_cannot_be_read_says_so(bytes_):
    assert sheet_text(bytes_) is None
