"""Sheets as a screen reader meets them: everything drawn is read once, in order, as what it is, in its language."""

from __future__ import annotations

from dataclasses import dataclass, replace
from io import BytesIO

import pytest
from pypdf import PdfWriter
from pypdf.generic import ContentStream, NameObject

from outreach.documents import family_letter, family_thanks, gratitude_letter, leave_behind
from outreach.page import LETTER, Bullets, Column, Heading, Laid, Paragraph, Sheet, Table, Ticks, cells
from outreach.page.book import Book
from outreach.page.forms import EMPTY_BOX, Choice
from outreach.page.sheet import draw_sheet
from tests.outreach.sheets import GENERIC, LONG_LETTER, LONG_SHEET, SCHOOL, SHEET, forty, logo
from tests.outreach.sheets import LETTER as THANKS_LETTER
from tests.outreach.tagged import Tagged

MANY = tuple(Paragraph(f"{number}. Each child paints a pot and takes it home. " * 3) for number in range(60))


def read(*sheets: Sheet) -> Tagged:
    book, file = Book(LETTER, title="A sheet", language="en"), BytesIO()
    for sheet in sheets:
        draw_sheet(sheet, book)
    book.save(file)
    return Tagged(file.getvalue())


def roles(tagged: Tagged) -> list[str]:
    return [part.role for part in tagged.document.parts[0].parts]


@pytest.mark.parametrize(
    ("module", "facts"),
    [
        (leave_behind, [SHEET, SHEET, GENERIC, LONG_SHEET, replace(SHEET, draft=True)]),
        (gratitude_letter, [THANKS_LETTER, LONG_LETTER, forty(), replace(forty(), draft=True)]),
        (gratitude_letter, [replace(THANKS_LETTER, letterhead=replace(SCHOOL, logo=logo()), signature=logo(80))] * 3),
    ],
)
def test_everything_drawn_is_reached_once(module, facts):
    tagged = Tagged(module.draw_many(facts))
    assert tagged.faults == []
    assert len(tagged.document.parts) == len(facts)


def test_a_letter_is_read_in_the_order_in_which_a_person_reads_it():
    tagged = Tagged(gratitude_letter.draw(THANKS_LETTER))
    said = [part.text for part in tagged.document.parts[0].parts]
    assert said[:5] == [
        "Millrace Elementary",
        "12 Mill Street · Alder Falls, OR 97000 · (201) 555-0110",
        "March 5, 2027",
        "Dana Whitlock Riverbend Garden Center 210 RIVER RD STE 4 ALDER FALLS OR 97000-1234",
        "Dear Dana Whitlock and everyone at Riverbend Garden Center,",
    ]
    assert said.index("June Castellanos") < said.index("Art teacher, Millrace Elementary") < len(said) - 2


def test_what_is_read_is_what_stands_on_the_pages():
    tagged = Tagged(gratitude_letter.draw(forty()))
    stands = " ".join(page.extract_text() for page in tagged.reader.pages)
    only_counted = {"page", "1", "2", "of", "To", "Riverbend", "Garden", "Center,", "March", "5,", "2027"}
    assert set(stands.split()) - set(tagged.document.text.split()) <= only_counted


def test_a_paragraph_over_two_pages_is_one_part():
    tagged = read(Sheet("A sheet", MANY, running="A sheet"))
    assert len(tagged.reader.pages) > 1
    assert tagged.faults == []
    assert roles(tagged) == ["P"] * 60


def test_a_table_over_two_pages_is_one_table_with_its_heading_read_once():
    rows = tuple(cells(f"class {number}", "pots " * 9) for number in range(70))
    tagged = read(Sheet("A sheet", (Heading("Pots"), Table((Column("Class"), Column("What")), rows)), running="Pots"))
    table = tagged.document.parts[0].parts[1]
    assert tagged.faults == []
    assert len(tagged.reader.pages) > 1
    assert [len(row.parts) for row in table.parts] == [2] * 71
    assert [cell.text for row in table.parts for cell in row.parts if cell.role == "TH"] == ["Class", "What"]


def test_the_same_words_twice_are_two_parts():
    tagged = read(Sheet("A sheet", (Paragraph("Thank you."), Paragraph("Between."), Paragraph("Thank you."))))
    assert tagged.faults == []
    assert [part.text for part in tagged.document.parts[0].parts] == ["Thank you.", "Between.", "Thank you."]


def test_a_draft_says_so_first_and_once():
    tagged = read(Sheet("A sheet", MANY, watermark="DRAFT"))
    assert tagged.document.parts[0].parts[0].text == "DRAFT"
    assert tagged.document.text.count("DRAFT") == 1


def test_a_heading_of_a_part_is_the_first_level_where_the_sheet_has_none():
    part = Paragraph("For your records", heads=True)
    assert roles(read(Sheet("A sheet", (part, Paragraph("Words"))))) == ["H1", "P"]
    assert roles(read(Sheet("A sheet", (Heading("Title"), part)))) == ["H1", "H2"]


def test_boxes_and_dots_are_marks_of_a_list():
    tagged = read(Sheet("A sheet", (Bullets(("one", "two")), Ticks((Choice("Yes"), Choice("No", line=60))))))
    lists = tagged.document.parts[0].parts
    assert [[item.parts[0].text for item in each.parts] for each in lists] == [["•", "•"], [EMPTY_BOX, EMPTY_BOX]]
    assert [[item.parts[1].text for item in each.parts] for each in lists] == [["one", "two"], ["Yes", "No"]]


def test_a_code_says_what_it_holds():
    figures = [part for part in Tagged(leave_behind.draw(SHEET)).document.all() if part.role == "Figure"]
    assert len(figures) == 1
    assert "June Castellanos, Millrace Elementary, (201) 555-0123" in figures[0].alt


def test_each_sheet_in_another_language_says_which():
    facts = family_thanks.Facts("en", "letter", SCHOOL, SHEET.day, "June Castellanos")
    tagged = Tagged(family_thanks.draw(facts))
    assert [sheet.language for sheet in tagged.document.parts] == ["", "es"]
    assert tagged.faults == []


@pytest.mark.parametrize(("named", "code"), [("Somali", "so"), ("Vietnamese", "vi"), ("of the hills", "und")])
def test_a_translated_side_says_its_language_where_it_is_known(named, code):
    facts = family_letter.Facts("en", "letter", SCHOOL, SHEET.day, "June Castellanos", other_language=named)
    tagged = Tagged(family_letter.draw(replace(facts, other_text="Waalidiinta")))
    assert [sheet.language for sheet in tagged.document.parts] == ["", "es", code]
    assert tagged.faults == []


@dataclass(frozen=True)
class Plain:
    """A block that says nothing of what it is."""

    before: float = 0.5

    def lay(self, measure, look):
        def paint(pen, x, y):
            pen.frame(x, y, 60, 20)
            pen.text(x, y + 15, "Words in a frame", 12)

        return Laid(20, paint)


def test_a_block_that_says_nothing_of_its_part_is_a_paragraph():
    tagged = read(Sheet("A sheet", (Plain(),)))
    assert tagged.faults == []
    assert [(part.role, part.text) for part in tagged.document.parts[0].parts] == [("P", "Words in a frame")]


def test_faults_are_found_where_there_are_some():
    """The reader of tags itself: a page whose words stand in no part."""
    sound = gratitude_letter.draw(THANKS_LETTER)
    assert Tagged(sound).faults == []
    writer = PdfWriter(clone_from=BytesIO(sound))
    page = writer.pages[0]
    content = ContentStream(page["/Contents"], writer)
    content.operations = [one for one in content.operations if one[1] not in (b"BDC", b"BMC", b"EMC")]
    page[NameObject("/Contents")] = writer._add_object(content)
    file = BytesIO()
    writer.write(file)
    assert any("untagged" in fault for fault in Tagged(file.getvalue()).faults)
