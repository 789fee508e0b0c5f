"""What every document has in common."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import FrozenInstanceError, replace
from io import BytesIO
from pathlib import Path

import pytest
from pypdf.generic import Destination

from outreach import documents
from outreach.documents import gratitude_letter, leave_behind
from outreach.registry import DOCUMENTS, ENTRIES, entry
from partners.letters.actions import ABOUT
from tests.outreach.sheets import GENERIC, LETTER, LONG_LETTER, LONG_SHEET, SHEET, Printed, forty, thanking

BOTH = pytest.mark.parametrize(("module", "facts"), [(leave_behind, SHEET), (gratitude_letter, LETTER)])
MANY = [thanking(partner=f"Shop {number}", contact=f"Ana {number}") for number in range(60)]


def test_the_list_holds_every_document_there_is():
    files = {path.stem for path in Path(documents.__file__).parent.glob("*.py")} - {"__init__"}
    assert {module.__name__.rsplit(".", 1)[1] for module in DOCUMENTS} == files
    assert all(entry(module.SLUG).module is module for module in DOCUMENTS)


def test_what_is_kept_in_the_register_has_a_column_there():
    assert {one.column for one in ENTRIES if one.words} <= set(ABOUT)


@pytest.mark.parametrize("module", DOCUMENTS)
def test_every_document_has_the_same_shape(module):
    assert str(module.TITLE)
    assert module.ABOUT
    assert module.Facts.__dataclass_params__.frozen
    assert all(callable(getattr(module, name)) for name in ("draw", "draw_many", "write_many", "gaps"))


@BOTH
def test_facts_cannot_be_changed(module, facts):
    with pytest.raises(FrozenInstanceError):
        facts.teacher = "Somebody else"


@BOTH
def test_the_same_facts_give_the_same_bytes(module, facts):
    assert module.draw(facts) == module.draw(replace(facts))
    assert module.draw(facts) != module.draw(replace(facts, teacher="Somebody Else"))


def test_drawing_at_the_same_time_changes_nothing():
    alone = [gratitude_letter.draw(facts) for facts in MANY[:8]]
    with ThreadPoolExecutor(4) as pool:
        assert list(pool.map(gratitude_letter.draw, MANY[:8])) == alone


@pytest.mark.parametrize("facts", [SHEET, GENERIC, LONG_SHEET])
def test_all_fonts_of_a_sheet_are_embedded(facts):
    fonts = Printed(leave_behind.draw(facts)).fonts()
    assert fonts
    assert all(fonts.values())
    assert all("Lato" in name for name in fonts)


@pytest.mark.parametrize("facts", [LETTER, LONG_LETTER, forty()])
def test_all_fonts_of_a_letter_are_embedded(facts):
    fonts = Printed(gratitude_letter.draw(facts)).fonts()
    assert fonts
    assert all(fonts.values())


def test_the_file_says_its_title_author_subject_and_language():
    printed = Printed(gratitude_letter.draw(LETTER))
    about = printed.reader.metadata
    assert about is not None
    assert about.title == "Thank-you letter to Riverbend Garden Center"
    assert about.author == "June Castellanos, Millrace Elementary"
    assert about.subject == "120 terracotta pots (4 inch) and 6 bags of potting soil"
    assert str(printed.reader.root_object["/Lang"]) == "en"


def test_a_spanish_sheet_says_so_and_keeps_signs_in_its_title():
    printed = Printed(leave_behind.draw(replace(SHEET, language="es", partner="Bäckerei 🥐")))
    assert str(printed.reader.root_object["/Lang"]) == "es"
    assert printed.reader.metadata is not None
    assert printed.reader.metadata.title == "Una petición para Bäckerei 🥐"


def test_many_letters_have_one_bookmark_each_in_order():
    printed = Printed(gratitude_letter.draw_many(MANY))
    marks = [mark for mark in printed.reader.outline if isinstance(mark, Destination)]
    assert [mark.title for mark in marks] == [f"Thank-you letter to Shop {number}" for number in range(60)]
    assert [printed.reader.get_destination_page_number(mark) for mark in marks] == list(range(60))


def test_letters_in_a_batch_read_like_letters_alone():
    together = Printed(gratitude_letter.draw_many(MANY)).pages
    assert [together[number] for number in (0, 1, 30, 59)] == [
        Printed(gratitude_letter.draw(MANY[number])).text for number in (0, 1, 30, 59)
    ]


def test_letters_in_a_batch_look_like_letters_alone():
    together = Printed(gratitude_letter.draw_many(MANY[:5]))
    alone = Printed(gratitude_letter.draw(MANY[4]))
    assert together.picture(4, 60).tobytes() == alone.picture(0, 60).tobytes()


def test_a_batch_is_written_to_a_file_and_counts_its_pages():
    file = BytesIO()
    assert gratitude_letter.write_many([*MANY[:3], forty()], file) == 5
    assert file.getvalue() == gratitude_letter.draw_many([*MANY[:3], forty()])


@pytest.mark.parametrize("module", DOCUMENTS)
def test_a_batch_of_nothing_is_refused(module):
    with pytest.raises(ValueError, match="no"):
        module.draw_many([])


@BOTH
def test_unknown_paper_is_refused(module, facts):
    with pytest.raises(ValueError, match="letter, a4"):
        module.draw(replace(facts, paper="legal"))


@BOTH
def test_only_black_white_and_one_light_grey_are_used(module, facts):
    for page in Printed(module.draw(replace(facts, draft=True))).reader.pages:
        content = page.get_contents()
        assert content is not None
        words = content.get_data().split()
        assert not {b"rg", b"RG", b"k", b"K", b"sc", b"scn"} & set(words)
        greys = {float(words[place - 1]) for place, word in enumerate(words) if word in (b"g", b"G")}
        assert greys <= {0.0, 0.62}
