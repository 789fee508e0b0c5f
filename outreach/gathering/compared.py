"""What a letter of thanks is held against before it goes out: the other givers, and the last letter to the same one."""

from __future__ import annotations

from typing import Any

from outreach.gathering.remembered import remembered
from partners.directory.models import Partner
from partners.letters.models import Letter, LetterState
from partners.program.desk import Desk

GIVERS_COMPARED = 500


def with_others(desk: Desk, row: Any, slug: str) -> tuple[tuple[str, ...], str]:
    """Names that must not stand in a letter about the row, and the last words to its partner."""
    return other_givers(desk, row.partner), last_words(desk, row, slug)


def other_givers(desk: Desk, partner: Partner | None) -> tuple[str, ...]:
    """Names that must not stand in somebody else's letter: those heard of last."""
    own = partner.pk if partner else None
    return tuple(name for pk, name in heard_of_last(desk) if pk != own)[:GIVERS_COMPARED]


@remembered
def heard_of_last(desk: Desk) -> list[tuple[int, str]]:
    """One more than is compared, for one's own name is left out."""
    others = desk.partners.exclude(last_heard_on=None).order_by("-last_heard_on", "-pk")
    return list(others.values_list("pk", "name")[: GIVERS_COMPARED + 1])


def last_words(desk: Desk, row: Any, slug: str) -> str:
    """The body of the last letter to the same giver about something else: one printed again is no repetition."""
    if row.partner is None:
        return ""
    about = {str(row._meta.model_name): row}
    gone = desk.letters.filter(partner=row.partner, document=slug).exclude(state=LetterState.DRAFT).exclude(**about)
    last: Letter | None = gone.order_by("-day", "-pk").first()
    return "\n\n".join(last.words.get("paragraphs", [])) if last else ""
