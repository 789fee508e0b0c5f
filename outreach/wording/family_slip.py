"""The slip at the foot of a letter home: who would like to help, and nothing about any child but the class."""

from __future__ import annotations

from outreach.page import Beside, Choice, CutStrip, Paragraph, Ticks, WriteIn, bold, text_width
from outreach.wording.family import SlipWords

ROOM_TO_WRITE = 104.0
GAP = 0.5


def slip(words: SlipWords, return_by: str, side: float, school: str = "") -> CutStrip:
    """The slip in one language; `return_by` is the day as it is spelled, "" where none is set.

    Cut off, it still says of which school it is.
    """
    back = words.return_by.replace("{day}", return_by) if return_by else ""
    where = (Choice(words.at_school), Choice(words.from_home), Choice(words.show_day))
    return CutStrip(
        (
            Paragraph((bold(" · ".join(part for part in (words.heading, school) if part)),), before=0),
            Paragraph(" ".join(part for part in (words.only_if, back) if part), before=0),
            _two(words.name, words.room),
            Ticks((Choice(words.call), Choice(words.text), Choice(words.email)), 3, words.best_way, before=GAP),
            _two(words.number, words.language),
            Ticks(where, 3, words.can_help, before=GAP),
            _two(words.when, words.how_often),
            WriteIn(words.skills, before=GAP),
            Ticks((Choice(words.rules),), 1, before=GAP),
        ),
        side=side,
    )


def _two(left: str, right: str) -> Beside:
    """Two lines to write on, the right one as wide as its label and a hand need."""
    return Beside((WriteIn(left),), WriteIn(right), wide=text_width(right) + ROOM_TO_WRITE, gutter=12, before=GAP)
