"""Spanish syllables against words whose division is published, and the formula by hand."""

from __future__ import annotations

import pytest

from outreach.wording.readability_es import level, score, szigriszt_pazos
from outreach.wording.syllables_es import number_words, syllables_es

# Real Academia Española, Ortografía de la lengua española (2010), on diphthongs, triphthongs and hiatus; quoted from
# memory, with hyphens where the words are divided.
DIVIDED = """
mur-cié-la-go a-é-re-o buey ciu-dad o-ír u-ru-guay a-ve-ri-güéis pin-güi-no quien gue-rra ha-bí-a pa-ís le-er
zo-o-lo-gí-a cons-truir je-sui-ta a-hín-co re-hén o-cé-a-no lí-ne-a es-tu-diáis rey re-yes a-ho-ra bú-ho guion
cui-da-do ca-ri-be-ño a-ni-ma-les e-du-ca-ción que-so mi-nis-te-rio fi-lo-so-fí-a po-e-ta te-a-tro re-ír cuen-ta
hie-lo hue-vos en-viar a-yu-da llu-via vein-ti-séis
"""


@pytest.mark.parametrize("divided", DIVIDED.split())
def test_words_have_as_many_syllables_as_they_are_divided_into(divided):
    assert syllables_es(divided.replace("-", "")) == divided.count("-") + 1


@pytest.mark.parametrize(
    ("number", "words"),
    [(0, "cero"), (16, "dieciséis"), (31, "treinta y uno"), (100, "cien"), (101, "ciento uno"),
     (555, "quinientos cincuenta y cinco"),
     (1000, "mil"), (2026, "dos mil veintiséis"),
     (999_999, "novecientos noventa y nueve mil novecientos noventa y nueve")],
)  # fmt: skip
def test_numbers_are_read_aloud(number, words):
    assert number_words(number) == words


def test_a_number_counts_as_it_is_read():
    assert syllables_es("2026") == 5
    assert syllables_es("340") == syllables_es("trescientos") + syllables_es("cuarenta")
    assert syllables_es("—") == 0


@pytest.mark.parametrize(
    ("words", "sentences", "sounds", "by_hand"), [(100, 10, 200, 72.235), (100, 5, 180, 74.695), (9, 1, 18, 73.235)]
)
def test_the_formula_by_hand(words, sentences, sounds, by_hand):
    # 206.835 - 62.3 S/P - P/F (Szigriszt Pazos 1993, from memory); no worked value of the author's was at hand.
    assert szigriszt_pazos(words, sentences, sounds) == pytest.approx(by_hand, abs=0.0005)


def test_a_text_is_counted_like_its_words():
    # El ga-to ne-gro duer-me. Yo le-o: 1+2+2+2, 1+2 syllables, 6 words, 2 sentences.
    assert score("El gato negro duerme. Yo leo.") == pytest.approx(szigriszt_pazos(6, 2, 10))
    assert score("") is None


@pytest.mark.parametrize(
    ("value", "step"), [(39.9, "very_hard"), (40, "hard"), (55, "normal"), (65, "quite_easy"), (80, "very_easy")]
)
def test_the_scale(value, step):
    # INFLESZ (Barrio-Cantalejo et al. 2008), from memory: 40, 55, 65, 80.
    assert level(value) == step


def test_nothing_has_no_score():
    with pytest.raises(ValueError, match="no score"):
        szigriszt_pazos(0, 0, 0)
