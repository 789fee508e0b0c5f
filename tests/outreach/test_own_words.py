"""Own words for parts of sheets: every part is said by its sample, with blanks that are known and explained."""

from __future__ import annotations

import pytest

from outreach.gathering.own_words import with_own
from outreach.trying import blanks_of, said
from outreach.worded import WORDED
from outreach.wording.blanks import blanks_in
from outreach.wording.own_words import OwnWords, house_words

every = pytest.mark.parametrize("sheet", WORDED, ids=[sheet.name for sheet in WORDED])


@every
def test_the_house_uses_only_blanks_of_the_short_list(sheet):
    for language in ("en", "es"):
        for part in sheet.parts:
            known = blanks_of(sheet, language, part)
            assert all(known.values())
            assert set(blanks_in(house_words(sheet.tables[language], part.path))) <= set(known)


@every
def test_every_part_is_said_in_own_words_with_every_blank_filled(sheet):
    for place, part in enumerate(sheet.parts):
        language = ("en", "es")[place % 2]
        words = "".join(f"Fern [{name}] moss. " for name in blanks_of(sheet, language, part))
        own = OwnWords({(sheet.name, language, part.path): words})
        told = said(sheet, with_own(sheet.sample(language, part), own), part, language)
        assert told.text.startswith("Fern "), part.path
        assert "[" not in told.text


@every
def test_what_a_sheet_always_says_is_no_part_of_it(sheet):
    assert not set(sheet.always) & {part.path for part in sheet.parts}
    for path in sheet.always:
        assert house_words(sheet.tables["en"], path) != house_words(sheet.tables["es"], path)
