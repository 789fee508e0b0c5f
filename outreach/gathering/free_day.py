"""A free day of the record as a calendar shows it."""

from __future__ import annotations

from dataclasses import replace
from uuid import UUID, uuid5

from django.utils.translation import gettext as _

from outreach.feeds.calendar import CalendarDay
from partners.directory.phones import national
from partners.funding.occasion_models import Occasion
from partners.funding.occasion_words import to_take
from partners.funding.recurrence import CONFIRM_BEFORE, confirm_day
from partners.program.desk import Desk

# Of this project's events, so that nobody else's events have the same ids.
SPACE = UUID("5b0a3c0e-7d4e-4a52-9a35-0d6f1f6a8c11")


def calendar_day(desk: Desk, occasion: Occasion) -> CalendarDay:
    """As a file of its own: it rings when it is time to confirm, and says whom to call."""
    confirmed = confirm_day(occasion.rule, occasion.first_on, occasion.first_on) is not None
    return replace(
        feed_day(desk, occasion),
        told=(*told_of(occasion), *own_lines(occasion)),
        remind_before=CONFIRM_BEFORE if confirmed else None,
        reminder=_("Call and confirm: %(title)s") % {"title": occasion.title},
    )


def feed_day(desk: Desk, occasion: Occasion) -> CalendarDay:
    """As one event of a feed, which others may come to read: no phone number, nothing of what we got."""
    return CalendarDay(
        uid=uid_of(desk, occasion.pk),
        version=occasion.version,
        changed_at=occasion.updated_at,
        title=occasion.title,
        first_on=occasion.first_on,
        rule=occasion.rule,
        until=occasion.ends_on,
        place=place_of(occasion),
        told=told_of(occasion),
    )


def uid_of(desk: Desk, pk: int, kind: str = "") -> str:
    """The same at every export; another for a row of the same number in another program, or in another book.

    `kind` tells rows of other kinds apart; free days have none.
    """
    program = desk.program
    return str(uuid5(SPACE, f"{program.pk} {program.created_at.isoformat()} {f'{kind} ' if kind else ''}{pk}"))


def place_of(occasion: Occasion) -> str:
    partner = occasion.partner
    own = [partner.name, partner.street, partner.city] if partner else []
    return ", ".join(part for part in (occasion.place, *own) if part)


def told_of(occasion: Occasion) -> tuple[str, ...]:
    """Lines of its text: the hours, what to bring."""
    taken = to_take({"bring": occasion.bring, "proof": occasion.proof, "limits": occasion.limits})
    lines = (_("Open %(hours)s") % {"hours": occasion.hours} if occasion.hours else "", taken[:1].upper() + taken[1:])
    return tuple(line for line in lines if line)


def own_lines(occasion: Occasion) -> tuple[str, ...]:
    """Whom to call, what we got last time."""
    last = occasion.days.filter(went=True).exclude(got="").first()
    phone = occasion.partner.phone if occasion.partner else ""
    lines = (
        _("To confirm, call %(number)s") % {"number": national(phone)} if phone else "",
        _("Last time we got: %(got)s") % {"got": last.got} if last else "",
    )
    return tuple(line for line in lines if line)
