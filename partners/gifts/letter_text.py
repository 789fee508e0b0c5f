"""Whether a letter's text names an amount, a day, a thing or a giver. English and Spanish."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from functools import lru_cache

from partners.directory.likeness import core_of
from partners.ground.names import fold, name_key

NAMES_KEPT = 4096
_MONTHS = (
    ("jan", "ene"),
    ("feb", "feb"),
    ("mar", "mar"),
    ("apr", "abr"),
    ("may", "may"),
    ("jun", "jun"),
    ("jul", "jul"),
    ("aug", "ago"),
    ("sep", "sep"),
    ("oct", "oct"),
    ("nov", "nov"),
    ("dec", "dic"),
)
_NUMBER = re.compile(r"\d{1,3}(?:,\d{3})++(?:\.\d{2})?(?![\d,]*\d)|(?<!\d)\d++(?:\.\d{2})?(?![\d]|,\d)")
_MONEY = re.compile(
    rf"\$\s?(?P<before>{_NUMBER.pattern})|(?P<after>{_NUMBER.pattern}) (?:dollars|dólares|dolares)", re.I
)
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+|\n+")
_TOKEN = re.compile(r"[\w'.&-]+")


def names_amount(plain: str, cents: int) -> bool:
    """Whether one of the numbers in the text is that amount: `150`, `$150.00`, `1,500`."""
    return cents in {_cents(match[0]) for match in _NUMBER.finditer(plain)}


def names_day(plain: str, day: date) -> bool:
    """Whether the text tells that day, with its year or none: October 6, 6 de octubre, 10/6/2026, 2026-10-06."""
    month = "|".join(_MONTHS[day.month - 1])
    no_other_year = rf"(?!,? (?:de |del )?(?!{day.year})\d{{4}}\b)"
    forms = (
        rf"\b(?:{month})\w*\.? {day.day}(?:st|nd|rd|th)?\b{no_other_year}",
        rf"\b{day.day}(?:st|nd|rd|th|º)? (?:de |of )?(?:{month})\w*\b{no_other_year}",
        rf"\b0?{day.month}/0?{day.day}(?:/(?:{day.year}|{day.year % 100:02d}))?\b(?!/)",
        rf"\b{day.isoformat()}\b",
    )
    return re.search("|".join(forms), plain, re.IGNORECASE) is not None


def names_any_word(plain: str, what: str) -> bool:
    """Whether a telling word of `what` (four letters or more, else any) is in the text, also within a longer one.

    True when there is nothing to look for: a missing description is the form's to ask for.
    """
    words = fold(what).split()
    telling = [word for word in words if len(word) > 3 and not word.isdigit()] or words
    inside = fold(plain)
    return not telling or any(word.removesuffix("s") in inside for word in telling)


def without_estimate(plain: str, back: str, estimate_cents: int | None) -> str:
    """The text less the sentences that tell the estimate of what was given back, and no other amount of money."""
    if estimate_cents is None:
        return plain
    kept = []
    for sentence in _SENTENCE_END.split(plain):
        amounts = {_cents(match["before"] or match["after"]) for match in _MONEY.finditer(sentence)}
        if amounts != {estimate_cents} or not names_any_word(sentence, back):
            kept.append(sentence)
    return "\n".join(kept)


def other_givers_in(plain: str, giver: str, others: Iterable[str]) -> list[str]:
    """Those of `others` that the text names: whole words, one of them with a capital, the giver's own name left out.

    The form of a business and the article need not be there. A single word of three letters or less is not looked for.
    """
    words, capital = _words(plain)
    own = {place for found in _occurrences(words, giver) for place in found}
    return [
        other
        for other in others
        if any(
            not own.issuperset(found) and any(capital[place] for place in found) for found in _occurrences(words, other)
        )
    ]


def _words(plain: str) -> tuple[list[str], list[bool]]:
    words: list[str] = []
    capital: list[bool] = []
    for token in _TOKEN.findall(plain):
        for word in fold(token.removesuffix("'s")).split():
            words.append(word)
            capital.append(token[0].isalpha() and not token[0].islower())
    return words, capital


def _occurrences(words: Sequence[str], name: str) -> list[range]:
    """Where the name stands in `words`, in full or without its article and form of business."""
    found = []
    for wanted in _looked_for(name):
        if wanted[0] not in words:
            continue
        starts = range(len(words) - len(wanted) + 1)
        found += [range(at, at + len(wanted)) for at in starts if words[at : at + len(wanted)] == wanted]
    return found


@lru_cache(maxsize=NAMES_KEPT)
def _looked_for(name: str) -> list[list[str]]:
    """Kept, because a run of letters looks for the same givers in each."""
    whole = name_key(name)
    return [key.split() for key in {whole, core_of(whole)} if " " in key or len(key) > 3]


def _cents(number: str) -> int:
    dollars, _, cents = number.replace(",", "").partition(".")
    return int(dollars) * 100 + int(cents or 0)
