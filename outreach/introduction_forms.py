"""The words of the letter by which somebody who takes over introduces themself."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from outreach.forms import LetterWords

if TYPE_CHECKING:
    from outreach.prepared import Prepared


class IntroductionWords(LetterWords):
    @staticmethod
    def gone(prepared: Prepared) -> dict[str, Any]:
        """With who wrote it: the next teacher writes to everybody again."""
        return {**LetterWords.gone(prepared), "teacher": prepared.facts.about.teacher}
