"""What the "Something arrived" page knows before anybody types: what is promised about now, and what a promise says."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from django.http import Http404, QueryDict
from django.shortcuts import get_object_or_404

from partners.gifts.actions import gave_back, still_to_pay
from partners.gifts.models import Form, MoneyKind, Source
from partners.program.desk import Desk
from partners.promises.models import Part, Promise, Side
from partners.school.models import School

SOON_DAYS = 7
AHEAD, BEHIND = 5, 3


@dataclass(frozen=True)
class Prefilled:
    """What stands in the form at first, its lines, and the promise it comes from."""

    values: dict[str, Any]
    lines: list[dict[str, Any]]
    promise: Promise | None = None


def promised_about_now(desk: Desk) -> list[Promise]:
    """What they promised for the next days, the nearest first, then what is past its day, the latest first."""
    theirs = desk.promises.by_them().open().exclude(part=Part.PLAIN).select_related("partner")
    coming = theirs.filter(due__gte=desk.day, due__lte=desk.day + timedelta(days=SOON_DAYS)).order_by("due", "pk")
    return [*coming[:AHEAD], *theirs.past_their_day(desk.day).order_by("-due", "-pk")[:BEHIND]]


def prefilled(desk: Desk, address: QueryDict) -> Prefilled:
    """From `?promise=`, `?partner=` or `?families=` (of a school). Raises Http404 for what the desk lacks."""
    schools = list(desk.schools[:2])
    values: dict[str, Any] = {"source": Source.PARTNER, "form": Form.GOODS, "day": desk.day}
    values["school"] = schools[0] if len(schools) == 1 else None
    promise = promise_of(desk, address.get("promise", ""))
    if promise is not None:
        return Prefilled(values | of_promise(promise), [line_of(promise)], promise)
    if "families" in address:
        school = school_of(desk, address.get("families", ""))
        return Prefilled(values | {"source": Source.FAMILIES, "school": school}, [])
    return Prefilled(values | {"partner": address.get("partner", "")}, [])


def school_of(desk: Desk, number: str) -> School:
    found: School = get_object_or_404(desk.schools, pk=_counted(number))
    return found


def promise_of(desk: Desk, number: str) -> Promise | None:
    if not number:
        return None
    rows = desk.promises.exclude(part=Part.PLAIN).select_related("partner", "school", "need__project", "trade")
    found: Promise = get_object_or_404(rows, pk=_counted(number), side=Side.THEM)
    return found


def _counted(number: str) -> int:
    if not number.isascii() or not number.isdecimal() or len(number) > 18:
        raise Http404
    return int(number)


def of_promise(promise: Promise) -> dict[str, Any]:
    need = promise.need
    values: dict[str, Any] = {"promise": promise, "project": need.project if need else None}
    if promise.trade is not None:
        values |= {
            "trade": True,
            "gave_back": gave_back(promise),
            "project": values["project"] or promise.trade.project,
        }
    if promise.school is not None:
        values["school"] = promise.school
    if promise.amount_cents:
        kind = {"form": Form.MONEY, "money_kind": MoneyKind.CHECK, "amount_cents": still_to_pay(promise)}
        values |= kind
    return values


def line_of(promise: Promise) -> dict[str, Any]:
    """All that is still to come, as it was said."""
    quantity = promise.missing or promise.quantity
    return {"description": promise.what, "quantity": quantity, "unit": promise.unit, "need": promise.need}
