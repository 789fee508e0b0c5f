"""Refusals that a teacher can act on, for modules that know nothing of the site.

The sentence is marked here for the catalogue and translated where it is shown:
`gettext(error.sentence) % error.facts`.
"""

from __future__ import annotations


def gettext_noop(sentence: str) -> str:
    """Mark a sentence for the catalogue; the name is the one that the catalogue's tools look for."""
    return sentence


class PlainError(ValueError):
    """What was typed cannot be used, and how to mend it.

    `code` names the refusal, `sentence` is the English text with named placeholders, `facts` fills them.
    """

    def __init__(self, code: str, sentence: str, **facts: object) -> None:
        super().__init__(sentence % facts)
        self.code = code
        self.sentence = sentence
        self.facts = facts
