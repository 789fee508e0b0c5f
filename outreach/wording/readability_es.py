"""How hard a Spanish text is to read: the perspicuity formula of Szigriszt Pazos with the INFLESZ scale.

F. Szigriszt Pazos, "Sistemas predictivos de legibilidad del mensaje escrito: fórmula de perspicuidad" (1993);
I. M. Barrio-Cantalejo et al., "Validación de la Escala INFLESZ" (2008). Formula and scale are quoted from memory. It
gives no school grade: 65 and more is "quite easy", what primary school reads.
"""

from __future__ import annotations

from outreach.wording.readability import sentences, words_of
from outreach.wording.syllables_es import syllables_es

QUITE_EASY = 65.0
_LEVELS = ((40.0, "very_hard"), (55.0, "hard"), (QUITE_EASY, "normal"), (80.0, "quite_easy"))


def szigriszt_pazos(words: int, sentences: int, syllables: int) -> float:
    """206.835 - 62.3 syllables/words - words/sentences: the higher, the easier. ValueError without words."""
    if words <= 0 or sentences <= 0:
        raise ValueError("a text without words has no score")
    return 206.835 - 62.3 * syllables / words - words / sentences


def score(text: str) -> float | None:
    """The score of a Spanish text as written; None where it has no words."""
    said = sentences(text)
    words = [word for sentence in said for word in words_of(sentence)]
    if not words:
        return None
    return szigriszt_pazos(len(words), len(said), sum(map(syllables_es, words)))


def level(value: float) -> str:
    """The step of the INFLESZ scale."""
    return next((name for above, name in _LEVELS if value < above), "very_easy")
