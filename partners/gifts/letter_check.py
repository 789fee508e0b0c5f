"""A letter's words held against what the letter for that gift must and must not say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from rapidfuzz.distance import Indel

from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_phrases import asks_inside, calls_deductible, nothing_in_return, plain_text, value_in_text
from partners.gifts.letter_rules import Code, Decision, Source, decide
from partners.gifts.letter_text import names_amount, names_any_word, names_day, other_givers_in, without_estimate
from partners.ground.names import fold

ProblemCode = Literal[
    "named_person",
    "value",
    "value_of_help",
    "nothing_on_trade",
    "nothing_but_given",
    "deductible",
    "ask",
    "other_giver",
    "no_statement",
    "not_described_back",
    "no_estimate",
    "no_amount",
    "no_day",
    "no_description",
    "no_purpose",
    "last_words",
]

# Two letters of one writer share their frame; from here on it is the same letter with other figures.
_SAME_WORDS = 0.9


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong with a letter.

    `snippet` is the place in the text, "" for what is missing. `stops`: the letter cannot be printed so; otherwise the
    teacher is told. `source` is a source id as in `letter_rules`.
    """

    code: ProblemCode
    snippet: str
    source: Source
    stops: bool


def check_letter(text: str, facts: GiftFacts, other_givers: Sequence[str] = (), last_text: str = "") -> list[Problem]:
    """What stops the letter, then what the teacher is told.

    `text` is the body, or the whole letter; the receiver's name and address stand in the sheet's head and are not
    looked for. `other_givers` are the names of givers other than this one, `last_text` the last letter to this one.
    """
    decision = decide(facts)
    plain = plain_text(text)
    problems = [*_forbidden(plain, facts, decision), *_missing(plain, facts, decision)]
    problems += [Problem("other_giver", name, "P", True) for name in other_givers_in(plain, facts.giver, other_givers)]
    if is_same_body(text, last_text):
        problems.append(Problem("last_words", "", "P", False))
    return sorted(problems, key=lambda problem: not problem.stops)


def is_same_body(text: str, last_text: str) -> bool:
    """Whether nine in ten letters of two bodies agree, in order: last year's words again."""
    now, before = fold(text), fold(last_text)
    return bool(now and before) and Indel.normalized_similarity(now, before) >= _SAME_WORDS


def _forbidden(plain: str, facts: GiftFacts, decision: Decision) -> Iterator[Problem]:
    on_nothing: ProblemCode = "nothing_on_trade" if facts.is_trade else "nothing_but_given"
    on_value: ProblemCode = "value_of_help" if facts.is_help else "value"
    estimate = facts.back_estimate_cents if decision.verdict("back_estimate") in ("must", "may") else None
    searches: list[tuple[Code, ProblemCode, list[str]]] = [
        ("named_person", "named_person", [""]),
        ("value", on_value, value_in_text(without_estimate(plain, facts.back, estimate))),
        ("nothing_in_return", on_nothing, nothing_in_return(plain)),
        ("deductible_gift", "deductible", calls_deductible(plain)),
        ("another_ask", "ask", asks_inside(plain)),
    ]
    for code, problem, snippets in searches:
        choice = decision.choice(code)
        if choice and choice.verdict in ("must_not", "stop"):
            for snippet in snippets:
                yield Problem(problem, snippet, choice.source, True)


def _missing(plain: str, facts: GiftFacts, decision: Decision) -> Iterator[Problem]:
    surely = bool(facts.reaches_250) or decision.disclosed_by_law
    told = facts.back_estimate_cents is not None and names_amount(plain, facts.back_estimate_cents)
    searches: list[tuple[Code, ProblemCode, bool, bool]] = [
        ("amount", "no_amount", names_amount(plain, facts.amount_cents or 0), True),
        ("nothing_in_return", "no_statement", bool(nothing_in_return(plain)), surely),
        ("back_described", "not_described_back", names_any_word(plain, facts.back), surely),
        ("back_estimate", "no_estimate", told, surely),
        ("giver_and_day", "no_day", names_day(plain, facts.day), False),
        ("description", "no_description", names_any_word(plain, facts.description), False),
        ("purpose", "no_purpose", names_any_word(plain, facts.purpose), False),
    ]
    for code, problem, is_there, stops in searches:
        choice = decision.choice(code)
        if choice and choice.verdict == "must" and not is_there:
            yield Problem(problem, "", choice.source, stops)
