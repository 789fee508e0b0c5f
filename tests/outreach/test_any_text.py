"""Whatever is typed, a document is drawn: nothing breaks it, nothing is read as markup or as a file."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from outreach.documents import gratitude_letter, leave_behind
from outreach.page import Address, Letterhead, printable
from outreach.wording.counts import Item
from tests.outreach.sheets import LETTER, SHEET, THANKS, Printed

NASTY = (
    "<b>",
    "</para>",
    '<img src="file:///etc/passwd"/>',
    "&amp;",
    "&#0;",
    "(\\",
    ") Tj ET",
    "{partner}",
    "%s %(x)s",
    "\x00",
    "\ud800",
    "W" * 200,
    "🥐",
    "שלום",
    "e\u0301\u0301\u0301",
    "\u202e",
    "\u00a0",
    "a\nb",
)
STRINGS = ("teacher", "role", "phone", "email", "partner", "contact", "grades", "becomes", "tax_line", "approved_by")
texts = st.one_of(st.text(max_size=60), st.sampled_from(NASTY), st.builds("".join, st.lists(st.sampled_from(NASTY))))
counts = st.one_of(st.none(), st.integers(0, 10_000))
items = st.builds(Item, texts, counts, texts, texts)
heads = st.builds(Letterhead, texts, st.lists(texts, max_size=3).map(tuple), texts)
addresses = st.builds(Address, texts, texts, st.lists(texts, max_size=2).map(tuple), texts, texts, texts)
calm = settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@calm
@given(st.data(), st.sampled_from(["en", "es"]), st.sampled_from(["letter", "a4"]))
def test_a_sheet_of_any_text_is_drawn(data, language, paper):
    changes = {name: data.draw(texts) for name in STRINGS}
    asks = data.draw(st.lists(items, max_size=4).map(tuple))
    facts = replace(SHEET, **changes, asks=asks, smaller=data.draw(items), students=data.draw(counts))
    facts = replace(facts, letterhead=data.draw(heads), language=language, paper=paper)
    assert len(Printed(leave_behind.draw(facts)).pages) >= 1
    assert isinstance(leave_behind.gaps(facts), tuple)


@calm
@given(st.data(), st.sampled_from(["en", "es"]), st.sampled_from(["money", "goods", "loan", "exchange", "service"]))
def test_a_letter_of_any_text_is_drawn(data, language, form):
    thanks = replace(
        THANKS,
        language=language,
        form=form,
        amount_cents=data.draw(st.integers(0, 10**9)) if form == "money" else None,
        partner=data.draw(texts),
        contact=data.draw(texts),
        items=data.draw(st.lists(items, max_size=8).map(tuple)),
        back=data.draw(texts),
        back_estimate_cents=data.draw(st.one_of(st.none(), st.integers(0, 10**6))),
        becomes=data.draw(texts),
        students=data.draw(counts),
        own_words=data.draw(texts),
    )
    paragraphs = data.draw(st.lists(st.text(max_size=2_000), max_size=4).map(tuple))
    facts = replace(LETTER, thanks=thanks, paragraphs=paragraphs, address=data.draw(addresses))
    facts = replace(facts, letterhead=data.draw(heads), enclosures=(data.draw(texts),), teacher=data.draw(texts))
    assert len(Printed(gratitude_letter.draw(facts)).pages) >= 1
    assert isinstance(gratitude_letter.gaps(facts), tuple)


@pytest.mark.parametrize("text", NASTY)
def test_what_can_be_printed_of_a_nasty_text_is_printed(text):
    printed = Printed(leave_behind.draw(replace(SHEET, offer_back=f"Fern {text} moss")))
    # Of signs over signs pdfium says one; pypdf says each that is there.
    said = "".join(page.extract_text() for page in printed.reader.pages)
    assert "".join(printable(text).split()) in "".join(said.split())
