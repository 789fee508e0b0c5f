"""Own words for parts of sheets: every part is said by its sample, with blanks that are known and explained."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from outreach.documents import gratitude_letter
from outreach.gathering.own_words import with_own
from outreach.trying import blanks_of, cautions, refusals, said
from outreach.worded import WORDED, worded
from outreach.wording.blanks import blanks_in, filled
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


@settings(max_examples=12, deadline=None)
@given(
    st.text(max_size=80), st.sampled_from(["", "{giver.__class__}", "{{ giver }}", "%(giver)s", "<b>&amp;", "[giver]"])
)
def test_whatever_is_typed_is_refused_or_printed_as_it_stands(typed, hostile):
    sheet, words = worded("gratitude-letter"), " ".join(f"{typed} {hostile} moss".split())
    part = sheet.part("closing.goods")
    if refusals(sheet, "en", part, words):
        return
    facts = with_own(sheet.sample("en", part), OwnWords({(sheet.name, "en", part.path): words}))
    printed = facts.body[-1]
    assert printed.startswith(filled(words, {**facts.thanks.say.values}).text)
    assert gratitude_letter.draw(facts).startswith(b"%PDF")


def test_thanks_to_partners_ask_for_nothing_in_whatever_words():
    sheet = worded("yearly-summary")
    assert refusals(sheet, "en", sheet.part("readers.partners"), "Please give again next year!")
    assert not refusals(sheet, "en", sheet.part("readers.board"), "For the board of education")
    asking = worded("leave-behind")
    assert [str(one) for one in cautions(asking, "en", asking.part("asking"), "We need just this")] == [
        "Leave out the word “just”: it makes the request small."
    ]
