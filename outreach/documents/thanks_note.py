"""The note that goes out before anything came: thanks at the promise, or for considering it after a no.

On paper it is the gratitude letter; only what it still lacks is asked differently.
"""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext_lazy as _

from outreach.documents import gratitude_letter
from outreach.documents.gratitude_letter import Facts, draw, draw_many, stream, write_many
from outreach.gap import Gap

__all__ = ["ABOUT", "SLUG", "TITLE", "Facts", "draw", "draw_many", "gaps", "stream", "write_many"]

SLUG = "thanks-note"
TITLE = _("Thank-you note")
ABOUT = "thanks"

# Nothing has come yet, so what it became is no gap; after a no nothing was promised either.
LATER = {"no-becomes", "no-students", "no-receiver"}
AFTER_A_NO = {*LATER, "nothing-given", "no-day"}


def gaps(facts: Facts, other_givers: Sequence[str] = (), last_text: str = "") -> tuple[Gap, ...]:
    """What the note lacks or must not say."""
    thanks = facts.thanks
    not_yet = LATER if thanks.items or thanks.amount_cents else AFTER_A_NO
    found = gratitude_letter.gaps(facts, other_givers, last_text)
    return tuple(gap for gap in found if gap.code not in not_yet)
