"""What can speak against asking a partner, as data; the sentences stand in `words`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

Facts = Mapping[str, date | int | str]


class Code(StrEnum):
    NEVER_ASK = "never_ask"
    RESTING = "resting"
    HOW_OFTEN = "how_often"
    OPEN_ASK = "open_ask"
    THANKS_OWED = "thanks_owed"
    RESULT_NOT_SHOWN = "result_not_shown"
    TOO_LATE = "too_late"
    NO_APPROVAL = "no_approval"
    COLLEAGUE_ASKED = "colleague_asked"
    NOT_THIS_SCHOOL = "not_this_school"


# Not yet telling what a gift became is rude, but a gift of last week cannot have become anything: it only cautions.
# One of several schools that may not ask does not keep the others from asking.
CAUTIONS = frozenset({Code.RESULT_NOT_SHOWN, Code.NOT_THIS_SCHOOL})
# What a deed of the teacher's ends, when no date does.
DOABLE = frozenset({Code.OPEN_ASK, Code.THANKS_OWED, Code.NO_APPROVAL})


@dataclass(frozen=True)
class Reason:
    """One thing that speaks against asking on a day.

    `until` is the first day on which it no longer holds; None when no date ends it. `facts` are the plain values that
    its sentence needs, by the names used there.
    """

    code: Code
    until: date | None = None
    facts: Facts = field(default_factory=dict, hash=False)

    @property
    def blocks(self) -> bool:
        return self.code not in CAUTIONS

    @property
    def to_do(self) -> bool:
        """No date ends it, but the teacher can: write the letter, record the answer, get the approval."""
        return self.until is None and self.code in DOABLE
