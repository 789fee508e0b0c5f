"""Visits, what was asked, and coming back to it, as lines of a partner's story."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from partners.ground.story import StoryLine
from partners.visits.models import Answer, Ask, FollowUp, Visit


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """Every visit with what was asked there, answers that came otherwise, and follow-ups that were made."""
    visits = list(desk.visits.filter(partner=partner).select_related("contact"))
    asks = list(desk.asks.filter(partner=partner).select_related("school"))
    made = desk.follow_ups.filter(partner=partner, done_on__isnull=False).select_related("ask")
    visited = {visit.day for visit in visits}
    asked_at: dict[int | None, list[Ask]] = {}
    for ask in asks:
        asked_at.setdefault(ask.visit_id, []).append(ask)
    return [
        *(_visited(visit, asked_at.get(visit.pk, [])) for visit in visits),
        *(_asked(ask) for ask in asked_at.get(None, [])),
        *(_answered(ask) for ask in asks if ask.answered_on and ask.answered_on not in visited),
        *(_followed_up(one) for one in made if one.done_on not in visited),
    ]


def _visited(visit: Visit, asks: list[Ask]) -> StoryLine:
    who = [str(visit.contact)] if visit.contact else []
    reasons = [ask.reason for ask in asks if ask.reason]
    sheet = [_("sheet left")] if visit.sheet_left else []
    words = {"how": visit.get_how_display(), "happened": visit.get_happened_display()}
    return StoryLine(
        day=visit.day,
        written_at=visit.created_at,
        what=_("Visit %(how)s: %(happened)s") % words,
        detail=", ".join([*who, *(_ask_words(ask) for ask in asks), *sheet, visit.by]),
        url=visit.get_absolute_url(),
        private="\n".join(filter(None, [*reasons, visit.note])),
        open=any(ask.answer == Answer.WAITING for ask in asks),
    )


def _asked(ask: Ask) -> StoryLine:
    """An ask that was made without a visit."""
    what = _("We asked for %(what)s") % {"what": _what(ask)}
    waits = ask.answer == Answer.WAITING
    return StoryLine(day=ask.asked_on, written_at=ask.created_at, what=what, detail=ask.asked_by, open=waits)


def _answered(ask: Ask) -> StoryLine:
    words = {"what": _what(ask), "answer": ask.get_answer_display()}
    day = ask.answered_on or ask.asked_on
    what = _("Their answer about %(what)s: %(answer)s") % words
    return StoryLine(day=day, written_at=ask.updated_at, what=what, private=ask.reason)


def _followed_up(follow_up: FollowUp) -> StoryLine:
    what = _("We came back to it: %(what)s") % {"what": follow_up.what}
    day = follow_up.done_on or follow_up.due
    return StoryLine(day=day, written_at=follow_up.updated_at, what=what, private=follow_up.outcome)


def _ask_words(ask: Ask) -> str:
    return _("asked for %(what)s (%(answer)s)") % {"what": _what(ask), "answer": ask.get_answer_display()}


def _what(ask: Ask) -> str:
    return f"{ask.quantity:,} {ask.what}" if ask.quantity is not None else ask.what
