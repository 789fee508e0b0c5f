"""Blanks in square brackets: filled in once, named where they are none, left out with their sentence where empty."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from outreach.wording.blanks import blanks_in, filled, mistakes
from outreach.wording.own_words import LEFT_OUT, OwnWords, Voice
from outreach.wording.repeats import Earlier, repeated, said_twice

KNOWN = {"giver": "Doe & Sons Inc.", "person": "Ana [giver] {x} %s <b>", "what came": "60 pots", "what it became": ""}
HOSTILE = (
    "{giver.__class__.__init__.__globals__}", "{0}", "%(giver)s %n", "{{ giver|safe }}{% load x %}",
    "<script>&amp;</script>",
    "${giver}", "<% giver %>", "\\",
)  # fmt: skip


@pytest.mark.parametrize(
    ("text", "printed", "empty"),
    [
        ("Dear [person],", f"Dear {KNOWN['person']},", ()),
        ("[ What  CAME ] came.", "60 pots came.", ()),
        ("Thanks to [giver]. Bye.", "Thanks to Doe & Sons Inc. Bye.", ()),
        ("Look! [what it became] Bye.", "Look! Bye.", ("what it became",)),
        ("Ask Mrs. [nobody] about it. Bye.", "Bye.", ("nobody",)),
        ("One line\n\nand  another [what came]", "One line and another 60 pots", ()),
    ],
)
def test_a_sentence_is_filled_in_or_left_out_whole(text, printed, empty):
    assert (filled(text, KNOWN).text, filled(text, KNOWN).empty) == (printed, empty)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("[givr]", [("givr", "giver", False)]),
        ("[zzz] and [giver]", [("zzz", "", False)]),
        ("[giver and more", [("[giver and more", "", True)]),
        ("giver] [giver]", [("] ", "", True)]),
        ("[]", [("", "", False)]),
    ],
)
def test_a_blank_that_is_none_is_named(text, found):
    assert [(one.found, one.meant, one.is_open) for one in mistakes(text, KNOWN)] == found


@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_is_run_and_every_sign_is_text(text):
    assert filled(text, KNOWN).text == text
    assert filled("[x]", {"x": text}).text == text


@given(st.text(max_size=60), st.dictionaries(st.sampled_from(list(KNOWN)), st.text(max_size=20)))
def test_any_text_is_filled_in_without_a_hole(text, values):
    told = filled(text, values)
    if not mistakes(text, KNOWN):
        assert set(told.empty) <= set(blanks_in(text))
        assert bool(told.empty) == any(not values.get(name) for name in blanks_in(text))
    if not re.search(r"[\[\]]", text):
        assert told.text == " ".join(text.split())


@given(st.text(alphabet="[]{}. aZ", max_size=400))
def test_values_are_put_in_once_whatever_stands_in_them(value):
    assert filled("So: [a]; [b]", {"a": value, "b": "[a]"}).text == (f"So: {value}; [a]" if value else "")


def test_own_words_stand_in_for_the_house_as_long_as_they_say_something():
    table = type("Words", (), {"greeting": "Dear [person],"})
    own = OwnWords({("note", "en", "greeting"): "Hi [nick]!", ("note", "es", "greeting"): LEFT_OUT})
    english, spanish = (Voice("note", language, table, own, {"person": "Ana"}) for language in ("en", "es"))
    assert (english("greeting", nick="An"), english("greeting"), spanish("greeting")) == ("Hi An!", "Dear Ana,", "")
    assert Voice("other", "en", table, own, {"person": "Ana"})("greeting") == "Dear Ana,"


def test_nearly_the_same_sentence_of_an_earlier_letter_is_found():
    before = [
        Earlier(date(2026, 5, 1), "You put good materials into children's hands. Thank you for it."),
        Earlier(date(2026, 9, 1), "GOOD MATERIALS you put into hands. It stands by the door of our school."),
    ]
    body = [
        "You put good materials in children’s hands! Thank you for it.",
        "It stands by the door of our school, still.",
    ]
    assert [(one.sentence[:3], one.day.month) for one in repeated(body, before)] == [("You", 5), ("It ", 9)]
    assert said_twice([*body, body[0]]) == ["You put good materials in children’s hands!", "Thank you for it."]
    assert repeated(["Sixty pots went home with sixty children."], before) == []
