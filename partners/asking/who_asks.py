"""Who asks whom, when: what colleagues plan and have asked, and where two of them would meet at one place."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.directory.models import Partner
from partners.funding.grant_models import GrantState
from partners.ground.months import add_months
from partners.program.desk import Desk

WEEKS_AHEAD, MONTHS_BACK = 8, 3
MOST_LINES = 300


@dataclass(frozen=True)
class Line:
    """One ask, planned or made. `clashes` are sentences about colleagues who mean the same place at the same time."""

    day: date
    partner: Partner
    who: str
    school: str
    what: str
    state: str
    url: str
    clashes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Step:
    """What somebody plans at a place, or has asked there; `name` is empty where the person may not see it."""

    day: date
    by: int | None
    name: str
    planned: bool


def coming(desk: Desk) -> list[Line]:
    """Places on outings still to come, and grants to be asked for, of the person's schools; the earliest first."""
    until = last_day(desk)
    stops = desk.outing_stops.filter(outing__day__gte=desk.day, outing__day__lte=until, visit=None)
    stops = stops.select_related("outing__school", "outing__created_by", "partner", "need").order_by(
        "outing__day", "pk"
    )
    grants = desk.grants.filter(state=GrantState.PLANNED, apply_by__gte=desk.day, apply_by__lte=until)
    grants = grants.select_related("school", "created_by", "partner").order_by("apply_by", "pk")
    shown = list(stops[:MOST_LINES])
    known = steps(desk, {stop.partner_id for stop in shown})
    lines = [_planned(desk, stop, known) for stop in shown]
    lines += [
        _line(one.apply_by, one, what=one.title, state=_("apply by then"), url=one.get_absolute_url())
        for one in grants[:MOST_LINES]
    ]
    return sorted(lines, key=lambda line: line.day)


def lately(desk: Desk) -> list[Line]:
    """What was asked in the last months, the latest first."""
    since = add_months(desk.day, -MONTHS_BACK)
    asks = desk.asks.filter(asked_on__gte=since).select_related("school", "created_by", "partner")
    grants = desk.grants.filter(asked_on__gte=since).select_related("school", "created_by", "partner")
    lines = [
        _line(ask.asked_on, ask, what=ask.what, state=ask.get_answer_display(), url="", who=ask.asked_by)
        for ask in asks.order_by("-asked_on", "-pk")[:MOST_LINES]
    ]
    lines += [
        _line(one.asked_on, one, what=one.title, state=one.get_state_display(), url=one.get_absolute_url())
        for one in grants.order_by("-asked_on", "-pk")[:MOST_LINES]
    ]
    return sorted(lines, key=lambda line: line.day, reverse=True)


def last_day(desk: Desk) -> date:
    return desk.day + timedelta(weeks=WEEKS_AHEAD)


def steps(desk: Desk, partner_ids: Iterable[int]) -> dict[int, list[Step]]:
    """What anybody in the program plans at these places, or asked there not long ago.

    Of the whole program: a colleague of a school that the person does not see goes to the same counter. Of such a row
    nothing is told but its day.
    """
    ids = list(partner_ids)
    found = planned_steps(desk, ids)
    since = desk.day - timedelta(days=desk.program.colleague_days)
    asks = desk.program.asks.filter(partner__in=ids, asked_on__gte=since).select_related("created_by")
    for ask in asks.order_by("asked_on", "pk"):
        found[ask.partner_id].append(_step(desk, ask.asked_on, ask, planned=False))
    return found


def planned_steps(desk: Desk, ids: Iterable[int]) -> dict[int, list[Step]]:
    found: dict[int, list[Step]] = defaultdict(list)
    stops = desk.program.outing_stops.filter(partner__in=ids, visit=None)
    stops = stops.filter(outing__day__gte=desk.day, outing__day__lte=last_day(desk)).select_related(
        "outing__created_by"
    )
    for stop in stops.order_by("outing__day", "pk"):
        found[stop.partner_id].append(_step(desk, stop.outing.day, stop.outing, planned=True))
    return found


def plans_of_others(desk: Desk, partner: Partner) -> tuple[str, ...]:
    """Whether a colleague means to go to this place soon; what one asked there stands in the verdict."""
    known = planned_steps(desk, [partner.pk])[partner.pk]
    return clashes(desk, desk.day, desk.user.pk if desk.user else None, known)


def clashes(desk: Desk, day: date, by: int | None, known: Iterable[Step]) -> tuple[str, ...]:
    """What somebody else plans at the place within the time we leave between asks, or asked there so recently."""
    apart = timedelta(days=desk.program.colleague_days)
    return tuple(
        _sentence(step) for step in known if step.by is not None and step.by != by and abs(step.day - day) < apart
    )


def _sentence(step: Step) -> str:
    facts = {"who": step.name or _("a colleague"), "day": date_format(step.day, "DATE_FORMAT")}
    return (_("%(who)s plans to go there on %(day)s") if step.planned else _("%(who)s asked there on %(day)s")) % facts


def _step(desk: Desk, day: date, row: Any, *, planned: bool) -> Step:
    seen = not desk.school_ids or row.school_id is None or row.school_id in desk.school_ids
    return Step(day, row.created_by_id, str(row.created_by) if seen and row.created_by else "", planned)


def _planned(desk: Desk, stop: Any, known: dict[int, list[Step]]) -> Line:
    outing = stop.outing
    what = stop.need.what if stop.need else ""
    met = clashes(desk, outing.day, outing.created_by_id, known.get(stop.partner_id, ()))
    line = _line(outing.day, stop, what=what, state=_("planned"), url=outing.get_absolute_url(), row=outing)
    return Line(**{**vars(line), "clashes": met})


def _line(day: date, one: Any, *, what: str, state: Any, url: str, who: str = "", row: Any = None) -> Line:
    of = row or one
    name = who or (str(of.created_by) if of.created_by else "")
    return Line(day, one.partner, name, of.school.name if of.school else "", what, str(state), url)
