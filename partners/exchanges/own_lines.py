"""The due lines of a trade as its own page says them: without what stands in the head of the page already."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.exchanges.due import GIVE, MAKE, PLAIN, START
from partners.exchanges.due_papers import APPROVAL, MEMO, PUT_UP, TAKE_DOWN
from partners.exchanges.models import Trade
from partners.ground.due import DueLine
from partners.promises.models import Part, Side
from partners.school.lateness import Lateness

PARTS = {MAKE: Part.MAKE, PLAIN: Part.PLAIN, GIVE: Part.GIVE}
PAPERS: dict[str, tuple[Any, Any]] = {
    APPROVAL: (gettext_lazy("Ask the principal"), gettext_lazy("no approval is recorded for it")),
    MEMO: (gettext_lazy("Get the memo signed"), ""),
    PUT_UP: (gettext_lazy("Put it on show"), ""),
    TAKE_DOWN: (gettext_lazy("Take it down"), ""),
}


@dataclass(frozen=True, slots=True)
class OwnLine(DueLine):
    """With how late it is."""

    late: str = ""


def at_home(line: DueLine, trade: Trade, lateness: Lateness) -> OwnLine:
    """Whom it is with and their phone, what is made and at which school is said above."""
    own = _without_the_head(line, trade)
    return OwnLine(**{one.name: getattr(own, one.name) for one in fields(own)}, late=lateness.of(line))


def _without_the_head(line: DueLine, trade: Trade) -> DueLine:
    if line.source == START:
        return _class_line(line, trade)
    if line.source in PAPERS:
        verb, why = PAPERS[line.source]
        return replace(line, verb=verb, who="", what="", why=why, school="", phone="")
    promise = next(one for one in trade.side(PARTS[line.source]) if one.pk == line.pk)
    why = _("%(count)s so far") % {"count": f"{promise.delivered:,}"} if promise.delivered else ""
    return replace(line, verb=_verb(line.source, promise.side), who="", why=why, school="", phone="")


def _class_line(line: DueLine, trade: Trade) -> DueLine:
    row = next(one for one in trade.classes.all() if one.pk == line.pk)
    what = _("%(count)s to make") % {"count": f"{row.left:,}"}
    why = _("the last lesson to begin, %(lessons)s needed") % {"lessons": row.lessons}
    school = "" if line.school_id == trade.school_id else line.school
    return replace(line, what=what, why=why, who_url="", school=school, phone="")


def _verb(source: str, side: str) -> str:
    if source == PLAIN:
        return _("Plain items:") if side == Side.THEM else _("Get plain items:")
    return _("Deliver") if source == MAKE else _("Collect")
