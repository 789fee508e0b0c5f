"""Tags of our sheets by another's check: pdfua, 16 of the machine-checkable rules of ISO 14289-1 (PDF/UA-1)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pdfua
import pytest

from outreach.documents import family_thanks, gratitude_letter, leave_behind
from outreach.page import Heading, Sheet
from outreach.page.book import Book
from outreach.page.paper import LETTER as PAPER
from outreach.page.sheet import draw_sheet
from tests.outreach.sheets import LETTER, LONG_SHEET, SCHOOL, SHEET, forty, logo

FAMILIES = family_thanks.Facts("en", "letter", SCHOOL, SHEET.day, "June Castellanos")
# We do not call our files PDF/UA: most of its rules nobody here has checked.
NOT_CLAIMED = "UA-28-004"


def faults(pdf: bytes, folder: Path) -> set[str]:
    file = folder / "sheet.pdf"
    file.write_bytes(pdf)
    report = pdfua.validate(str(file))
    return {finding.rule_id for finding in report.findings} | {
        one.rule_id for one in report.outcomes if one.skipped_reason
    }


@pytest.mark.parametrize(
    ("module", "facts"),
    [
        (leave_behind, [LONG_SHEET, SHEET, SHEET, replace(SHEET, draft=True)]),
        (gratitude_letter, [LETTER, forty(), replace(LETTER, letterhead=replace(SCHOOL, logo=logo()), draft=True)]),
        (family_thanks, [FAMILIES]),
    ],
)
def test_another_check_finds_nothing_in_our_sheets(module, facts, tmp_path):
    assert faults(module.draw_many(facts), tmp_path) == {NOT_CLAIMED}


def test_the_other_check_does_find_what_is_wrong(tmp_path):
    """The same file without its title and without its language."""
    with (tmp_path / "bare.pdf").open("wb") as file:
        book = Book(PAPER, language="")
        draw_sheet(Sheet("", (Heading("Words"),)), book)
        book.save(file)
    assert len(faults((tmp_path / "bare.pdf").read_bytes(), tmp_path)) > 1
