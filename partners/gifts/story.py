"""What came and how they were thanked, as lines of a partner's story."""

from __future__ import annotations

from typing import Any

from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.gifts.models import Form, Gift, Thanks, ThanksFor
from partners.ground.story import StoryLine


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    """Every gift, loans that went back, and all thanks, said or owed. The giver's own figure is never among it."""
    gifts = desk.gifts.filter(partner=partner).prefetch_related("lines").select_related("partner", "school")
    thanks = desk.thanks.filter(partner=partner).select_related("promise", "ask", "grant")
    returned = (gift for gift in gifts if gift.returned_on)
    return [
        *(_came(gift, gift.told(amounts=desk.reads_amounts)) for gift in gifts),
        *(_went_back(gift) for gift in returned),
        *(_thanked(one) for one in thanks),
    ]


def _came(gift: Gift, what: str) -> StoryLine:
    form = "" if gift.form in (Form.GOODS, Form.MONEY) else str(gift.get_form_display())
    details = [form, str(gift.school or ""), gift.purpose]
    lent = gift.form == Form.LOAN
    return StoryLine(
        day=gift.day,
        written_at=gift.created_at,
        what=(_("They lent us %(what)s") if lent else _("They gave %(what)s")) % {"what": what},
        detail=", ".join(filter(None, details)),
        url=gift.get_absolute_url(),
    )


def _went_back(gift: Gift) -> StoryLine:
    what = _("We returned %(what)s") % {"what": gift.what}
    day = gift.returned_on or gift.day
    return StoryLine(day=day, written_at=gift.updated_at, what=what, url=gift.get_absolute_url())


def _thanked(thanks: Thanks) -> StoryLine:
    about = thanks.promise if thanks.reason == ThanksFor.PROMISE else thanks.ask or thanks.grant
    what = str(thanks.get_reason_display()) if about is None else f"{thanks.get_reason_display()}: {about}"
    due = _("by %(day)s") % {"day": date_format(thanks.due, "DATE_FORMAT")}
    return StoryLine(
        day=thanks.done_on or thanks.base,
        written_at=thanks.created_at,
        what=_("We thanked them") if thanks.done_on else _("We owe them thanks"),
        detail=", ".join(filter(None, [what, thanks.how if thanks.done_on else due])),
        url=_about(thanks),
        open=thanks.done_on is None,
    )


def _about(thanks: Thanks) -> str:
    if thanks.gift_id is not None:
        return reverse("gifts:gift-detail", args=[thanks.gift_id])
    about = thanks.promise or thanks.grant
    return about.get_absolute_url() if about is not None else ""
