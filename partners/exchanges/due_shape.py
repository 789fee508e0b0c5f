"""What the due lines of trades have in common."""

from __future__ import annotations

from typing import Any

from partners.ground.due import Act, DueLine, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _

DAY = "MONTH_DAY_FORMAT"
WHOM = ("partner_id", "partner__name", "partner__phone", "school_id", "school__name")


def line_of(source: str, hand: Hand, one: dict[str, Any], **own: Any) -> DueLine:
    return DueLine(
        source=source,
        hand=hand,
        pk=one["pk"],
        due=one["due"],
        who=one["partner__name"],
        who_url=row_link("directory:partner-detail", one["partner_id"]),
        partner_id=one["partner_id"],
        phone=one["partner__phone"],
        school_id=one["school_id"],
        school=one["school__name"] or "",
        **own,
    )


def settle_at(source: str, pk: int) -> str:
    return row_link("agenda:settle", pk, source)


def moves(settle: str) -> tuple[Act, ...]:
    return Act(_("Move to…"), settle, code="move"), Act(_("Not this month"), settle, code="not_this_month")
