"""Spanish for the usual titles and offices that a teacher typed in English; what is not known stands as typed.

Words that fit a woman and a man; not yet read by anybody whose first language it is.
"""

from __future__ import annotations

from partners.ground.names import fold

_SPANISH = {
    "art teacher": "Docente de arte",
    "elementary art teacher": "Docente de arte de primaria",
    "visual art teacher": "Docente de artes visuales",
    "visual arts teacher": "Docente de artes visuales",
    "art educator": "Docente de arte",
    "art specialist": "Especialista en arte",
    "teacher": "Docente",
    "the district": "el distrito",
    "the district office": "la oficina del distrito",
    "the district business office": "la oficina administrativa del distrito",
    "the business office": "la oficina administrativa",
    "the school": "la escuela",
    "the school office": "la oficina de la escuela",
    "the main office": "la oficina de la escuela",
    "the office": "la oficina de la escuela",
    "the school board": "la junta escolar",
}
_BY_KEY = {fold(english): spanish for english, spanish in _SPANISH.items()}
# By these a title or an office is taken for English.
_ENGLISH = frozenset(
    [
        "art",
        "arts",
        "board",
        "business",
        "coach",
        "department",
        "district",
        "educator",
        "instructor",
        "office",
        "school",
        "specialist",
        "teacher",
        "the",
    ]
)


def in_spanish(typed: str) -> str:
    """
    >>> in_spanish("Art Teacher"), in_spanish("the office of Ms. Vance")
    ('Docente de arte', 'the office of Ms. Vance')
    """
    return _BY_KEY.get(fold(" ".join(typed.split())), typed)


def is_english(words: str) -> bool:
    """
    >>> is_english("Lead art teacher"), is_english("Maestra de arte"), is_english("la oficina del distrito")
    (True, False, False)
    """
    return not _ENGLISH.isdisjoint(fold(words).replace(",", " ").split())
