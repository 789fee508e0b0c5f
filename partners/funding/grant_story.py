"""Grants as lines of a grantmaker's story."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from partners.funding.grant_models import Grant, GrantChange, GrantState
from partners.ground.money import format_cents
from partners.ground.story import StoryLine


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """What was asked, answered, agreed and reported, each on its day; an application that is being written as well.

    Nearly every line names an amount, so a guest to whom none is open reads none of them; why somebody refused is what
    they said, which is for no guest.
    """
    if not desk.reads_amounts:
        return []
    grants = list(desk.grants.filter(partner=partner).order_by().prefetch_related("changes__line", "changes__to_line"))
    return [line for grant in grants for line in _of(grant, with_reason=desk.writes)]


def _of(grant: Grant, *, with_reason: bool) -> list[StoryLine]:
    facts = {"title": grant, "asked": _money(grant.asked_cents), "awarded": _money(grant.awarded_cents)}
    is_open = grant.state == GrantState.ASKED
    found = []
    if grant.state == GrantState.PLANNED:
        day = grant.created_at.date()
        found.append(_line(grant, day, _("We are writing an application: %(title)s") % facts, open=True))
    if grant.asked_on is not None:
        found.append(
            _line(grant, grant.asked_on, _("We asked for a grant of %(asked)s: %(title)s") % facts, open=is_open)
        )
    if grant.answered_on is not None and grant.state == GrantState.AWARDED:
        found.append(_line(grant, grant.answered_on, _("They awarded %(awarded)s: %(title)s") % facts))
    if grant.answered_on is not None and grant.state == GrantState.REFUSED:
        said = _("They refused the grant: %(title)s") % facts
        found.append(_line(grant, grant.answered_on, said, detail=grant.refusal_reason if with_reason else ""))
    found += [_agreed(grant, one) for one in grant.changes.all()]
    if grant.claimed_on is not None:
        found.append(_line(grant, grant.claimed_on, _("We claimed the grant: %(title)s") % facts))
    if grant.reported_on is not None:
        found.append(_line(grant, grant.reported_on, _("We reported on the grant: %(title)s") % facts))
    return found


def _agreed(grant: Grant, one: GrantChange) -> StoryLine:
    said = _("%(who)s agreed to a change: %(what)s") % {"who": one.agreed_by, "what": one.words}
    return _line(grant, one.agreed_on, said)


def _line(grant: Grant, day: Any, what: str, **more: Any) -> StoryLine:
    return StoryLine(day=day, written_at=grant.created_at, what=what, url=grant.get_absolute_url(), **more)


def _money(cents: int | None) -> str:
    return format_cents(cents) if cents is not None else ""
