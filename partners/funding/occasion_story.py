"""A partner's free days, as lines of its story."""

from __future__ import annotations

from typing import Any

from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from partners.funding.occasion_models import Occasion, OccasionDay
from partners.funding.occasion_words import rule_words
from partners.ground.days import spelled
from partners.ground.story import StoryLine
from partners.program.models import Opened


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """Each free day since it is in the book, and every time that was written down."""
    if not desk.reads(Opened.MONEY):
        return []
    own = {occasion.pk: occasion for occasion in desk.occasions.filter(partner=partner).order_by()}
    told = desk.occasion_days.filter(occasion__in=list(own)).order_by()
    return [*map(_held, own.values()), *(_told(row, own[row.occasion_id]) for row in told)]


def _held(occasion: Occasion) -> StoryLine:
    parts = [rule_words(occasion.rule)]
    if occasion.next_on:
        parts.append(_("next on %(day)s") % {"day": spelled(occasion.next_on, "DATE_FORMAT")})
    if occasion.ended_on:
        parts.append(_("no longer held"))
    return StoryLine(
        day=localtime(occasion.created_at).date(),
        written_at=occasion.created_at,
        what=_("Their free day: %(title)s") % {"title": occasion},
        detail=", ".join(parts),
        url=occasion.get_absolute_url(),
        open=occasion.next_on is not None,
    )


def _told(row: OccasionDay, occasion: Occasion) -> StoryLine:
    words = _("We went to %(title)s") if row.went else _("We did not go to %(title)s")
    return StoryLine(
        day=row.day,
        written_at=row.created_at,
        what=words % {"title": occasion},
        detail=row.got,
        url=occasion.get_absolute_url(),
    )
