"""What the "Log a visit" page shows around its form: the buttons, and which of them are picked."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Any

from django.http import Http404, QueryDict
from django.shortcuts import get_object_or_404
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.asking.address import number
from partners.asking.forms import VisitForm
from partners.asking.prefill import Prefill, needs, places, prefill, usual_days
from partners.asking.progress import Progress, progress, still_needed_of
from partners.directory.models import Partner
from partners.directory.moved import partner_or_kept
from partners.directory.partner_field import PICKED, Suggestion
from partners.program.desk import Desk
from partners.visits.actions import who
from partners.visits.models import How, OutingStop
from partners.wish_list.models import Need


def opened_from(desk: Desk, address: QueryDict) -> tuple[Partner | None, OutingStop | None]:
    """The partner and the place on an outing that the page was opened from, by `?stop=`, `?partner=` or `?partner_pk=`.

    Raises Http404 for one that the desk does not hold.
    """
    if address.get("stop"):
        stops = desk.outing_stops.select_related("partner", "need", "outing__school")
        stop = get_object_or_404(stops, pk=number(str(address["stop"])))
        return stop.partner, stop
    if pk := address.get("partner") or address.get(f"partner{PICKED}"):
        known = partner_or_kept(desk, number(str(pk)))
        if known is None:
            raise Http404
        return known, None
    return None, None


def known_for(desk: Desk, address: QueryDict, stops: list[OutingStop]) -> Prefill:
    """What the page knows: about where it was opened from, else about the next place of today's outing."""
    partner, stop = opened_from(desk, address)
    if partner is not None and stop is None:
        stop = next((one for one in stops if one.partner_id == partner.pk), None)
    elif partner is None and stops and "anywhere" not in address:
        stop, partner = stops[0], stops[0].partner
    return prefill(desk, partner, stop)


def initial(desk: Desk, known: Prefill, address: QueryDict) -> dict[str, Any]:
    """The values that stand in the fields before anybody types; what was typed before the place was picked stays."""
    days = usual_days(desk)
    how = address.get("how", "")
    typed = address.get("what", "")
    planned = known.need if not typed else None
    return {
        "stop": known.stop.pk if known.stop else None,
        "need": planned.pk if planned else None,
        "what": typed or (known.ask.what if known.ask and not known.need else ""),
        "quantity": planned_quantity(desk, known, planned),
        "collect_by": days["collect_by"],
        "our_promise_by": days["collect_by"],
        "back_on": days["back_on"],
        "from_now_on": "this_year",
        "sheet_left": known.sheet_printed or "sheet_left" in address,
        "every": "",
        "day": desk.day,
        "how": how if how in How.values else How.IN_PERSON,
    }


def planned_quantity(desk: Desk, known: Prefill, planned: Need | None) -> int | None:
    """How many were asked for, else how many are still to be found of what is planned to be asked for."""
    if known.ask is not None and known.ask.need == planned:
        return known.ask.quantity
    return still_needed_of(desk, planned) if planned is not None else None


def context(desk: Desk, form: VisitForm, known: Prefill, stops: list[OutingStop], fixed: bool) -> dict[str, Any]:
    picked = known.partner
    if form.is_bound:
        picked = desk.partners.filter(pk=_pk(form["partner"].value())).first()
        if known.partner is None or picked != known.partner:
            known = prefill(desk, picked)
    outing, recent = places(desk, stops, picked)
    offered, wanted = needs(desk, known.need)
    return {
        "form": form,
        "place": picked if fixed and not form.errors else None,
        "places": [
            {"name": _("On today's outing"), "found": outing},
            {"name": _("Lately"), "found": recent},
        ],
        "picked": picked,
        "needs": need_buttons(desk, offered, form["need"].value()),
        "wanted": wanted,
        "people": people_buttons(known, form["contact"].value()),
        "schools": school_buttons(desk, form["school"].value()),
        "collect_days": day_buttons(form.initial["collect_by"]),
        "back_days": day_buttons(form.initial["back_on"]),
        "likely": form.likely,
        "defaults": _("Today, in person, by %(who)s") % {"who": who(desk)},
    }


def need_buttons(desk: Desk, found: Iterable[Need], value: Any) -> list[Suggestion]:
    """Each with how many of it are still to be found."""
    return [
        Suggestion(one.need.pk, one.need.what, _still(one), str(one.need.pk) == str(value or ""))
        for one in progress(desk, found)
    ]


def _still(one: Progress) -> str:
    return _("%(count)s needed") % {"count": f"{one.still.pieces:,}"} if one.still and one.still.pieces else ""


def people_buttons(known: Prefill, value: Any) -> list[Suggestion]:
    return [Suggestion(one.pk, one.name, one.role, str(one.pk) == str(value or "")) for one in known.people]


def school_buttons(desk: Desk, value: Any) -> list[Suggestion]:
    """Only where there is something to choose."""
    found = list(desk.schools)
    return (
        [Suggestion(one.pk, one.name, "", str(one.pk) == str(value or "")) for one in found] if len(found) > 1 else []
    )


def day_buttons(usual: date) -> list[dict[str, str]]:
    """The usual day, and one and two weeks after it."""
    days = [usual, usual + timedelta(weeks=1), usual + timedelta(weeks=2)]
    return [{"iso": day.isoformat(), "words": date_format(day, _("D, M j"))} for day in days]


def _pk(value: Any) -> int:
    text = str(getattr(value, "pk", value) or "")
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 19 else 0
