"""What the "Log a visit" screen knows before anybody types: where, about what, with whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

from django.db.models import F, QuerySet

from partners.directory.models import Contact, Partner
from partners.directory.partner_field import Suggestion
from partners.letters.actions import LEAVE_BEHIND, SHEET_DAYS
from partners.program.desk import Desk
from partners.school.calendar import NoSchoolDay
from partners.school.clock import clock
from partners.visits.actions import figures
from partners.visits.follow_up_rule import first_follow_up
from partners.visits.models import Ask, OutingStop
from partners.wish_list.models import Need

RECENT, FEWEST_RECENT = 6, 2
NEEDS_SHOWN, NEEDS_KNOWN = 5, 60
PEOPLE_SHOWN = 8


@dataclass(frozen=True)
class Prefill:
    """`stop` is the place of an outing that is about to be ticked; `ask` the one that waits for an answer."""

    partner: Partner | None = None
    stop: OutingStop | None = None
    ask: Ask | None = None
    need: Need | None = None
    people: list[Contact] = field(default_factory=list)
    sheet_printed: bool = False


def open_stops(desk: Desk) -> list[OutingStop]:
    """The places of today's outings that nobody has been to yet, in order."""
    rows: QuerySet[OutingStop] = desk.outing_stops.filter(outing__day=desk.day, visit=None)
    return list(rows.select_related("partner", "need", "outing").order_by("outing", "position"))


def prefill(desk: Desk, partner: Partner | None, stop: OutingStop | None = None) -> Prefill:
    """What is known about a visit to the partner; the planned ask is the outing's, else the one that waits."""
    if partner is None:
        return Prefill()
    ask = desk.asks.waiting().filter(partner=partner).select_related("need").first()
    sheets = desk.letters.filter(partner=partner, document=LEAVE_BEHIND)
    sheet = sheets.filter(day__gte=desk.day - timedelta(days=SHEET_DAYS)).select_related("need").first()
    planned = stop.need if stop is not None else None
    if planned is not None and not desk.needs.filter(pk=planned.pk).exists():
        # A colleague's outing may ask for what a school needs that the person does not see.
        planned = None
    return Prefill(
        partner=partner,
        stop=stop,
        ask=ask,
        need=planned or (ask.need if ask else None) or (sheet.need if sheet else None),
        people=list(desk.contacts.filter(partner=partner, left_on=None)[:PEOPLE_SHOWN]),
        sheet_printed=sheet is not None,
    )


def places(desk: Desk, stops: list[OutingStop], known: Partner | None) -> tuple[list[Suggestion], list[Suggestion]]:
    """The buttons of "where": today's outing, and who was last heard of; among them always the one that is picked."""
    outing = {stop.partner_id: stop.partner for stop in stops}
    lately = desk.partners.filter(last_heard_on__isnull=False).order_by("-last_heard_on", "-pk")[: RECENT + len(outing)]
    recent = {partner.pk: partner for partner in lately if partner.pk not in outing}
    if known is not None and known.pk not in outing:
        recent = {known.pk: known, **recent}
    shown = max(RECENT - len(outing), FEWEST_RECENT)
    return _buttons(outing, known), _buttons(dict(list(recent.items())[:shown]), known)


def _buttons(partners: Mapping[int, Partner], known: Partner | None) -> list[Suggestion]:
    picked = known.pk if known is not None else None
    return [Suggestion(pk, partner.name, partner.city, pk == picked) for pk, partner in partners.items()]


def needs(desk: Desk, planned: Need | None) -> tuple[list[Need], list[Need]]:
    """The needs offered as buttons, the planned one first, then those wanted soonest; and all that typing can mean."""
    wanted = list(desk.needs.open().order_by(F("needed_by").asc(nulls_last=True), "pk")[:NEEDS_KNOWN])
    others = [need for need in wanted if planned is None or need.pk != planned.pk]
    return ([planned] if planned else []) + others[: NEEDS_SHOWN - bool(planned)], wanted


def usual_days(desk: Desk) -> dict[str, Any]:
    """The days that are taken where nobody says another; plain days where the school calendar has none."""
    calendar = clock(desk.program)
    try:
        back_on = first_follow_up(desk.day, calendar, figures=figures(desk))
        collect_by = calendar.on_or_after(desk.day + timedelta(days=7))
    except NoSchoolDay:
        back_on = collect_by = desk.day + timedelta(days=7)
    return {"back_on": back_on, "collect_by": collect_by}
