"""What speaks against a purchase from a grant, in sentences. They warn; what happened is written down all the same."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from django.utils.translation import gettext as _

from partners.funding.grant_limits import Against, Charge, Concern, concerns
from partners.ground.days import spelled
from partners.ground.money import format_cents

__all__ = ["Charge", "purchase_warnings"]


def purchase_warnings(
    *, bought_on: date, state: str, buy_from: date | None, spend_by: date | None, charges: Sequence[Charge]
) -> list[str]:
    """One sentence for each thing that speaks against it. `charges` holds one `Charge` for each line of the grant."""
    found = concerns(bought_on=bought_on, state=state, buy_from=buy_from, spend_by=spend_by, charges=charges)
    return [WORDS[one.what](one) for one in found]


def _on(one: Concern) -> dict[str, str]:
    return {"day": spelled(one.day, "DATE_FORMAT") if one.day else ""}


def _full(one: Concern) -> str:
    charge = one.charge or Charge(None, 0)
    left = charge.line_left_cents or 0
    facts = {"line": charge.what or _("A line of the grant"), "over": format_cents(charge.over_cents)}
    if left > 0:
        words = _("%(line)s: only %(left)s of the grant is left for it. This goes over by %(over)s.")
        return words % {**facts, "left": format_cents(left)}
    return _("%(line)s: nothing of the grant is left for it. This goes over by %(over)s.") % facts


WORDS: dict[Against, Callable[[Concern], str]] = {
    Against.NOT_ASKED: lambda one: _(
        "This grant was not asked for yet. Most grantmakers pay for nothing bought before the award."
    ),
    Against.NOT_ANSWERED: lambda one: _(
        "This grant is not awarded yet. Most grantmakers pay for nothing bought before the award is there in writing."
    ),
    Against.REFUSED: lambda one: _("This grant was refused, so it pays for nothing."),
    Against.TOO_EARLY: lambda one: (
        _("Bought too early: the grant pays only for what is bought from %(day)s on.") % _on(one)
    ),
    Against.TOO_LATE: lambda one: _("Bought too late: the last day to spend the grant was %(day)s.") % _on(one),
    Against.FULL: _full,
}
