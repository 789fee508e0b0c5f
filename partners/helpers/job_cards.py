"""The job cards to begin with, and the cautions that a card carries whether or not anybody thought of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from partners.ground.reference import reference

MOST_STEPS = 7
_NUMBER = re.compile(r"^\s*(?:\d{1,2}\s*[.):]|[-*•])\s*")
_HOME_MADE = re.compile(
    r"\b(home[- ]?made|home[- ]?baked|baked at home|caser[oa]s?|hech[oa]s? en casa|(?:pea)?nuts?(?![- ]free)"
    r"|almonds?|walnuts?|cacahuates?|nueces|almendras?|maní)\b",
    re.IGNORECASE,
)
_WITHOUT = re.compile(r"\b(?:no|without|sin|free of|libre de)\s+\w+", re.IGNORECASE)


@dataclass(frozen=True)
class ReadyCard:
    """What to do, with what, where each thing goes and what done looks like; `cautions` are codes."""

    job: str
    language: str
    title: str
    steps: tuple[str, ...]
    with_what: str
    where_it_goes: str
    looks_done: str
    cautions: tuple[str, ...]


def ready_card(job: str, language: str) -> ReadyCard | None:
    """The card to begin with for that job, where there is one."""
    told = reference("job_cards")["cards"].get(job)
    if told is None:
        return None
    words = told[language]
    return ReadyCard(
        job,
        language,
        words["title"],
        tuple(words["steps"]),
        words["with_what"],
        words["where_it_goes"],
        words["looks_done"],
        tuple(told["cautions"]),
    )


def ready_cards(language: str) -> list[ReadyCard]:
    found = (ready_card(job, language) for job in reference("job_cards")["cards"])
    return [card for card in found if card is not None]


def caution_names(language: str) -> list[tuple[str, str]]:
    """Every caution: its code and what it is about."""
    return [(code, told["name"][language]) for code, told in reference("job_cards")["cautions"].items()]


def mentioned(text: str) -> tuple[str, ...]:
    """Codes of the cautions whose things the text names."""
    lower = text.casefold()
    told = reference("job_cards")["cautions"]
    return tuple(code for code in told if any(_names(lower, thing) for thing in told[code]["mentions"]))


def _names(text: str, thing: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(thing)}(?!\w)", text) is not None


def caution_words(codes: Iterable[str], texts: Sequence[str], language: str) -> tuple[str, ...]:
    """The sentences on the card: those chosen, those the card's own words call for, and what always holds, last."""
    table = reference("job_cards")
    wanted = {*codes, *mentioned(" ".join(texts))}
    told = table["cautions"]
    return (*(told[code]["words"][language] for code in told if code in wanted), table["always"][language])


def steps_in(text: str) -> list[str]:
    """One step a line; numbers and dots that were typed before it go, for the card numbers them itself."""
    lines = (" ".join(_NUMBER.sub("", line).split()) for line in text.splitlines())
    return [line for line in lines if line]


def unsafe_treat(text: str) -> bool:
    """Whether what waits at the office reads as home-made or with nuts; "nut-free" and "no nuts" do not."""
    return _HOME_MADE.search(_WITHOUT.sub(" ", text)) is not None
