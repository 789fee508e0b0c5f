"""What a sheet still lacks before it is printed, told to the teacher on the screen."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext_lazy

from outreach.page import lost_signs
from outreach.wording.dates import spelled
from outreach.wording.own_words import Heard
from outreach.wording.repeats import Repeated


@dataclass(frozen=True)
class Gap:
    """One thing missing or wrong: a stable code, words for the screen, the field of the facts it is about.

    `stops` means that the sheet must not be handed over like this; any other gap is the teacher's to decide. With
    `going_only` its words can be kept all the same: what is missing is somebody else's yes.
    """

    code: str
    words: str | Promise
    field: str = ""
    stops: bool = False
    going_only: bool = False


def found(*gaps: Gap | None) -> tuple[Gap, ...]:
    return tuple(gap for gap in gaps if gap is not None)


def unless(there: Any, code: str, words: str | Promise, field: str, *, stops: bool = False) -> Gap | None:
    """The gap when something is not there."""
    return None if there else Gap(code, words, field, stops)


def when(wrong: Any, code: str, words: str | Promise, field: str, *, stops: bool = False) -> Gap | None:
    """The gap when something is there that should not be."""
    return Gap(code, words, field, stops) if wrong else None


def missing_signs(facts: Any) -> Iterable[Gap]:
    """A gap for every value with signs that the print font lacks; they would be left out on paper."""
    for field, value, signs in lost_signs(facts):
        words = format_lazy(
            _("“{value}” holds signs that cannot be printed and will be left out: {signs}"),
            value=value,
            signs=" ".join(signs),
        )
        yield Gap("unprintable", words, field)


def empty_blanks(parts: Iterable[Heard]) -> tuple[Gap, ...]:
    """A gap for every blank of the teacher's own words that has nothing to stand for this time."""
    empty = dict.fromkeys(blank for part in parts for blank in part.empty)
    words = _("The blank [{blank}] is empty this time: your sentence with it is left out.")
    return tuple(Gap("empty-blank", format_lazy(words, blank=blank)) for blank in empty)


SENTENCES_NAMED = 3


def said_again(repeats: Sequence[Repeated]) -> tuple[Gap, ...]:
    """A gap for the sentences that the receiver has read in an earlier letter, the first ones by their words."""
    words = _("They read this before, in the letter of {day}: “{sentence}”")
    named = tuple(
        Gap("said-before", format_lazy(words, day=spelled(one.day, "en"), sentence=one.sentence), "body")
        for one in repeats[:SENTENCES_NAMED]
    )
    more = len(repeats) - SENTENCES_NAMED
    rest = ngettext_lazy(
        "One more sentence is as they read it before.", "%(n)d more are as they read them before.", "n"
    )
    return (*named, Gap("said-before", rest % {"n": more}, "body")) if more > 0 else named
