"""What research says of the arts in school, in careful words: fixtures/reference/evidence.json."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from partners.ground.reference import reference


@dataclass(frozen=True, slots=True)
class Evidence:
    """One ready sentence. `kind` is "experiment" or "association"; `limits` says what it does not prove.

    `sentence` and `limits` are by language.
    """

    key: str
    sentence: dict[str, str]
    limits: dict[str, str]
    authors: str
    source: str
    year: int
    kind: str


def shelf() -> list[Evidence]:
    return [Evidence(**row) for row in reference("evidence")["sentences"]]


def in_language(one: Evidence, language: str) -> dict[str, Any]:
    """Everything of it with the sentence and its limits in one language."""
    return {**asdict(one), "sentence": one.sentence[language], "limits": one.limits[language]}


def sentence_of(key: str) -> Evidence | None:
    """None for a sentence that is not on the shelf."""
    return next((one for one in shelf() if one.key == key), None)
