"""Words into lines: never wider than the measure, nothing lost, nothing read as markup."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from outreach.page import Span, bold, printable
from outreach.page.text import break_lines, line_width

WORDS = "Thank you for what you gave our students on March 4, 2027: pots and 104 smiles from the whole school"


def text_of(lines):
    return ["".join(span.text for span in line) for line in lines]


@given(st.text(max_size=300), st.floats(60, 500), st.sampled_from([11.0, 12.5, 14.0]))
def test_no_line_is_wider_than_the_measure(text, measure, size):
    lines = break_lines(text, measure, size)
    assert all(line_width(line, size) <= measure + 0.01 for line in lines)


@given(st.text(max_size=300), st.floats(60, 500))
def test_every_printable_sign_is_drawn_in_order(text, measure):
    drawn = "".join(text_of(break_lines(text, measure, 12)))
    assert drawn.replace(" ", "") == printable(text).replace(" ", "").replace("\u00a0", "")


@given(st.lists(st.tuples(st.text(max_size=40), st.sampled_from(["regular", "bold"])), max_size=6), st.floats(60, 300))
def test_mixed_faces_keep_their_signs_and_the_measure(pieces, measure):
    lines = break_lines(tuple(Span(text, face) for text, face in pieces), measure, 12)
    wanted = "".join(printable(text) for text, _face in pieces)
    assert "".join(text_of(lines)).replace(" ", "") == wanted.replace(" ", "").replace("\u00a0", "")
    assert all(line_width(line, 12) <= measure + 0.01 for line in lines)


def test_a_number_stays_with_its_noun_and_a_month_with_its_day():
    for measure in range(120, 460, 5):
        ends = [line.split()[-1] for line in text_of(break_lines(WORDS, measure, 12))[:-1]]
        assert "104" not in ends
        assert "March" not in ends


def test_a_short_last_word_is_not_left_alone():
    for measure in range(150, 460, 5):
        lines = text_of(break_lines(f"{WORDS} too", measure, 12))
        assert len(lines[-1].split()) > 1


def test_a_word_wider_than_the_line_is_cut_and_not_lost():
    lines = text_of(break_lines("W" * 80, 200, 12))
    assert len(lines) > 1
    assert "".join(lines) == "W" * 80


def test_a_word_over_two_faces_stays_together():
    lines = break_lines((Span("call the "), bold("Wheel"), Span("house today")), 120, 12)
    assert any("Wheelhouse" in line for line in text_of(lines))


def test_markup_is_plain_text():
    assert text_of(break_lines('<b>Fern</b> <img src="x"> &amp;', 400, 12)) == ['<b>Fern</b> <img src="x"> &amp;']
