"""How alike two names are, and what of a business's name tells it from others."""

from __future__ import annotations

from rapidfuzz.distance import JaroWinkler

from partners.ground.names import name_key

# Forms of business and words that people leave out or add as they please; common practice, no published list.
_FORM_WORDS = """
llc llp lllp lp pllc plc pc pa inc incorporated corp corporation co company ltd limited dba
"""
_FORMS = frozenset(_FORM_WORDS.split())
_BEFORE = frozenset({"the", "el", "la", "los", "las"})
_SHORT_FORMS = """
1st=first 2nd=second 3rd=third 4th=fourth 5th=fifth ave=avenue assn=association bros=brothers centre=center ctr=center
dept=department mkt=market natl=national theatre=theater
"""
_SPELLINGS = dict(form.split("=") for form in _SHORT_FORMS.split())


def likeness(a: str, b: str) -> float:
    """Jaro-Winkler likeness of two names, 0 (nothing alike) to 1 (the same), case and accents off.

    Winkler (1990): 0.1 for each of up to four letters in common at the start, given above a Jaro likeness of 0.7.
    A name without a letter is like nothing: 0.
    """
    return key_likeness(name_key(a), name_key(b))


def key_likeness(a: str, b: str) -> float:
    """As `likeness`, of two keys made by `name_key`."""
    return JaroWinkler.similarity(a, b, prefix_weight=0.1) if a and b else 0.0


def core_of(key: str) -> str:
    """A name's key without the article in front and the form of business behind, with common short forms spelled.

    `the bluebird bakery llc` → `bluebird bakery`, `2nd st market` → `second street market`; at least one word stays.
    """
    words = [_SPELLINGS.get(word, word) for word in key.split()]
    # In front it is a saint.
    words = words[:1] + ["street" if word == "st" else word for word in words[1:]]
    while len(words) > 1 and words[-1] in _FORMS:
        words.pop()
        if len(words) > 1 and words[-1] == "and":
            words.pop()
    if len(words) > 1 and words[0] in _BEFORE:
        words.pop(0)
    return " ".join(words)
