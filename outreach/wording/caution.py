"""What a request is better without, found in the usual words of English and Spanish; a teacher still reads it."""

import re

_SCORES = re.compile(r"\btest scores?\b|\braises? scores\b|\bresultados de (?:los )?exámenes\b", re.IGNORECASE)
_JUST = re.compile(r"\bjust\b", re.IGNORECASE)


def claims_scores(text: str) -> bool:
    """Whether the text claims that art raises test scores.

    >>> claims_scores("Art raises test scores.")
    True
    """
    return bool(_SCORES.search(text))


def says_just(text: str) -> bool:
    """Whether the text belittles what it asks for.

    >>> says_just("We need just a few pots."), says_just("an adjustable stool")
    (True, False)
    """
    return bool(_JUST.search(text))
