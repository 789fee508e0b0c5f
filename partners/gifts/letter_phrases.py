"""What the words of a letter say: a value, nothing in return, an ask, a deductible gift. English and Spanish.

Lists of phrases, not understanding. tests/gifts/test_letter_phrases.py holds two collections of sentences and counts
what is caught and how often a good sentence is stopped.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from partners.gifts import letter_patterns

Span = tuple[int, int]


def value_in_text(text: str) -> list[str]:
    """The snippets that name a value: amounts of money, "worth", "valued at", "retail value", "valor de", "dólares".

    "A week's worth of paper", "worth the wait" and "your valued help" name none. "Valor de" is always taken for one,
    also in "el valor de la amistad": the teacher rewords it.
    """
    plain = plain_text(text)
    return _snippets(plain, (match.span() for match in letter_patterns.VALUE.finditer(plain)))


def nothing_in_return(text: str) -> list[str]:
    """The snippets that say that nothing was given back."""
    plain = plain_text(text)
    return _snippets(plain, (match.span() for match in letter_patterns.NOTHING_IN_RETURN.finditer(plain)))


def asks_inside(text: str) -> list[str]:
    """The snippets that ask for something or tell of needs and money troubles: neither belongs in a thank-you.

    Present and future asks only: "you gave what we needed" and "please come to the show" pass. Plain asks are found, a
    roundabout one ("the shelves are empty again") is left to the reader: of sentences that no phrase had been fitted
    to, 4 of 48 good ones were stopped and 7 of 32 roundabout asks were found; most of these are mended since.
    """
    plain = plain_text(text)
    return _snippets(plain, (match.span() for match in letter_patterns.ASKS.finditer(plain)))


def calls_deductible(text: str) -> list[str]:
    """The snippets that call the gift deductible; "is not tax-deductible" does not."""
    plain = plain_text(text)
    found = letter_patterns.DEDUCTIBLE.finditer(plain)
    return _snippets(plain, (match.span() for match in found if not match["no"]))


def plain_text(text: str) -> str:
    """One spelling of quotes and widths, each paragraph on one line: a phrase is found across a line break."""
    folded = unicodedata.normalize("NFKC", text).replace("’", "'").replace("‘", "'").replace("\u00ad", "")
    return "\n".join(" ".join(paragraph.split()) for paragraph in re.split(r"\n\s*\n", folded))


def _snippets(plain: str, spans: Iterable[Span]) -> list[str]:
    """The found places in reading order; those that touch are one."""
    joined: list[Span] = []
    for start, end in sorted(spans):
        if joined and start <= joined[-1][1] + 1:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return [plain[start:end].strip() for start, end in joined]
