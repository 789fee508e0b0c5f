"""The facts of a tag."""

from __future__ import annotations

from typing import Any

from outreach.documents.gift_tag import Facts
from outreach.gathering.gratitude import unit_for
from outreach.gathering.school import only_school
from outreach.wording.counts import Item
from partners.directory.models import NAMED_IN_SCHOOL
from partners.gifts.models import Form, Gift
from partners.gifts.risk_words import ticks_for
from partners.program.desk import Desk


def gather(desk: Desk, gift: Gift, words: dict[str, Any] | None = None) -> Facts:
    """A giver is named only where they said that they may be, at least in school."""
    school = gift.school or only_school(desk)
    lines = list(gift.lines.all())
    named = gift.partner is not None and gift.partner.may_name in NAMED_IN_SCHOOL
    return Facts(
        language=desk.program.language,
        paper=desk.program.paper,
        day=gift.day,
        things=tuple(Item(line.description, line.quantity, unit_for(line.description, line.unit)) for line in lines),
        belongs_to=school.legal_name if school else "",
        school=school.name if school else "",
        place=gift.place,
        giver=gift.giver if named else "",
        purpose=str(gift.project or gift.purpose),
        is_lent=gift.form == Form.LOAN,
        goes_back=gift.return_on,
        unchecked=not all(getattr(gift, name) for name in ticks_for(line.risk for line in lines)),
    )
