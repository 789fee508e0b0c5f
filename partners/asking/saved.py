"""A logged visit in words: what was written down, and what comes next."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time
from typing import Any

from django.utils.formats import date_format, time_format
from django.utils.translation import gettext as _

from partners.asking.prefill import open_stops
from partners.directory.models import Partner
from partners.ground.models import Event
from partners.letters.actions import LEAVE_BEHIND
from partners.program.desk import Desk
from partners.promises.counted import counted
from partners.promises.models import Promise, Side
from partners.visits.models import Answer, Happened, OutingStop, Visit


def saved(desk: Desk, visit: Visit) -> dict[str, Any]:
    stop: OutingStop | None = getattr(visit, "stop", None)
    if stop is not None:
        left = list(stop.outing.stops.filter(visit=None).select_related("partner"))
    else:
        left = open_stops(desk) if visit.day == desk.day else []
    owed = desk.thanks.owed().filter(partner=visit.partner).order_by("due")
    undo = undoable(desk, visit)
    return {
        "visit": visit,
        "facts": list(facts(desk, visit)),
        "thanks": owed.first(),
        "collect": desk.promises.open().by_them().filter(visit=visit).first(),
        "call": (visit.contact.phone if visit.contact else "") or visit.partner.phone,
        "next_stop": left[0] if left else None,
        "outing": stop.outing if stop else None,
        "new_as": taken_for(undo, visit.partner),
        "undo": undo,
    }


def undoable(desk: Desk, visit: Visit) -> Event | None:
    """The event that wrote the visit, where it can still be taken back."""
    events = Event.objects.filter(program=desk.program, about_model="visit", about_pk=visit.pk, undone_by=None)
    return events.filter(undoes=None).order_by("pk").first()


def taken_for(event: Event | None, partner: Partner) -> str:
    """What kind a place has that was written down with its visit, by name alone; nothing for one known before."""
    added = {(one["model"], one["pk"]) for one in event.changes if one["before"] is None} if event else ()
    if ("partner", partner.pk) not in added:
        return ""
    return str(partner.get_business_kind_display() or partner.get_kind_display())


def facts(desk: Desk, visit: Visit) -> Iterator[str]:
    """One sentence for each thing that stands in the record because of this visit."""
    for ask in desk.asks.filter(visit=visit):
        if ask.answer in (Answer.NO, Answer.WAITING):
            words = {"what": counted(ask.quantity, "", ask.what), "answer": ask.get_answer_display()}
            yield _("You asked for %(what)s: %(answer)s.") % words
    for promise in desk.promises.filter(visit=visit):
        yield _promised(promise)
    for offer in desk.offers.filter(visit=visit).exclude(every=""):
        yield _("It comes again: %(every)s.") % {"every": offer.get_every_display()}
    if visit.happened in (Happened.MAYBE, Happened.AWAY) and not visit.partner.asks.waiting().exists():
        agreed = desk.asks.filter(partner=visit.partner, answer__in=(Answer.YES, Answer.SOME), answered_on=visit.day)
        for ask in agreed.exclude(visit=visit)[:1]:
            yield _("They agreed to %(what)s that day: nothing to ask again.") % {"what": ask.what}
    for plan in desk.follow_ups.open().filter(partner=visit.partner, base=visit.day):
        yield _("Back there on %(day)s: %(what)s.") % {"day": spelled(plan.due), "what": plan.what}
    partner = visit.partner
    if partner.never_ask:
        yield _("%(partner)s is never asked again.") % {"partner": partner}
    elif partner.rest_until and partner.rest_until > visit.day:
        yield _("%(partner)s rests until %(day)s.") % {"partner": partner, "day": spelled(partner.rest_until)}
    if visit.sheet_left:
        gone = desk.letters.filter(document=LEAVE_BEHIND, partner=partner, day=visit.day, sheet__isnull=False)
        yield (
            _("The sheet was left there, and is in the register.") if gone.exists() else _("The sheet was left there.")
        )


def _promised(promise: Promise) -> str:
    money = promise.amount_cents is not None
    what = promise.words if money else counted(promise.quantity, promise.unit, promise.what)
    sentence = _("We promised %(what)s by %(by)s.")
    if promise.side == Side.THEM:
        sentence = _("Collect %(what)s by %(by)s.") if promise.collect else _("They bring %(what)s by %(by)s.")
    return sentence % {"what": what, "by": _by(promise.due, promise.due_hour)}


def _by(day: date, hour: time | None) -> str:
    if hour is None:
        return spelled(day)
    return _("%(day)s, %(hour)s") % {"day": spelled(day), "hour": time_format(hour, "TIME_FORMAT")}


def spelled(day: date) -> str:
    return date_format(day, _("l, F j, Y"))
