"""What the record says of one year, asked in a fixed number of queries, each of a range of days."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from datetime import date
from typing import Any

from django.db.models import Count, Max, Q, QuerySet, Sum

from partners.funding.grant_models import GrantState
from partners.gifts.models import Form, GiftQuerySet, Source
from partners.helpers.hours import figures_of
from partners.program.desk import Desk
from partners.promises.models import Settled, Side
from partners.school.class_counts import classes_in
from partners.school.school_years import school_year_within
from partners.year.counted import Gifts, Granted, Promised, Reached, Renewal, Thanked, Thing, YearRecord
from partners.year.figures import BothSides, YesRate, both_sides, median, renewal_rate, yes_rates
from partners.year.span import Span

THINGS_SHOWN = 8
BECAME_SHOWN = 12
KINDS = ("asks", "gifts", "thanks")


def strict_gifts(desk: Desk) -> GiftQuerySet:
    """What came in a trade was paid for, and what was lent goes back: neither is a gift."""
    gifts: GiftQuerySet = desk.gifts.filter(trade=False).exclude(form=Form.LOAN)
    return gifts


def own_asks(desk: Desk) -> QuerySet[Any]:
    """What this person asked; somebody else's asks say nothing of how often one hears yes oneself."""
    asks: QuerySet[Any] = desk.asks
    return asks.filter(Q(created_by=None) | Q(created_by=desk.user)) if desk.user else asks


def reached(desk: Desk, span: Span) -> list[Reached]:
    return [Reached(*counted) for counted in classes_in(desk, school_year_within(span.first))]


def by_month(desk: Desk, span: Span) -> dict[str, list[int]]:
    """Asks, gifts and thanks said in each month of the year."""
    found = {}
    for kind, field in zip(KINDS, ("asked_on", "day", "done_on"), strict=True):
        rows = getattr(desk, kind).filter(**span.within(field)).order_by().values_list(field).annotate(Count("pk"))
        found[kind] = months_of(rows, span)
    return found


def months_of(counted: Iterable[tuple[date, int]], span: Span) -> list[int]:
    months = [0] * 12
    for day, number in counted:
        months[(day.month - span.begins) % 12] += number
    return months


def gifts(desk: Desk, span: Span) -> Gifts:
    rows = desk.gifts.filter(**span.within("day")).order_by().values_list("form", "source", "trade")
    forms: dict[str, int] = defaultdict(int)
    families = in_trades = 0
    for form, source, trade, number in rows.annotate(Count("pk")):
        if trade:
            in_trades += number
        else:
            forms[form] += number
            families += number if source == Source.FAMILIES else 0
    return Gifts({form: forms[form] for form in Form.values if forms[form]}, families, in_trades)


def renewal(desk: Desk, span: Span) -> Renewal:
    rows = strict_gifts(desk).from_partners().filter(day__gte=span.before.first, day__lte=span.last)
    when = {"before": Q(day__lt=span.first), "now": Q(day__gte=span.first)}
    counted = {name: Count("pk", filter=within) for name, within in when.items()}
    givers = rows.order_by().values_list("partner").annotate(**counted)
    found = list(givers)
    last_year = {partner for partner, before, _now in found if before}
    this_year = {partner for partner, _before, now in found if now}
    return Renewal(len(last_year), len(last_year & this_year), renewal_rate(last_year, this_year))


def trades(desk: Desk, span: Span) -> BothSides:
    return both_sides(trade_parts(desk, span))


def trade_parts(desk: Desk, span: Span) -> QuerySet[Any]:
    """(trade, side, how it ended) of every promise of the trades that were agreed in the year and not called off."""
    agreed = desk.trades.going_on().filter(**span.within("agreed_on"))
    found: QuerySet[Any] = desk.promises.filter(trade__in=agreed.order_by().values("pk"))
    return found.order_by().values_list("trade_id", "side", "settled_how")


def promised(desk: Desk, span: Span) -> dict[str, Promised]:
    """By side. A standing collection that was skipped is no promise that anybody broke, and is left out."""
    rows = desk.promises.filter(**span.within("due")).order_by().values_list("side", "settled_how", "due")
    ends: dict[str, Counter[str]] = {Side.THEM: Counter(), Side.US: Counter()}
    for side, how, due, number in rows.annotate(Count("pk")):
        if how != Settled.SKIPPED:
            ends[side][end_of(how, past=due < desk.day)] += number
    return {side: Promised(**counted) for side, counted in ends.items()}


def end_of(how: str, *, past: bool) -> str:
    if not how:
        return "past" if past else "to_come"
    return "never" if how == Settled.NEVER_CAME else "kept"


def things(desk: Desk, span: Span) -> list[Thing]:
    """What was promised to us by number, the latest first."""
    rows = desk.promises.by_them().filter(quantity__gt=0, **span.within("due")).exclude(settled_how=Settled.SKIPPED)
    summed = rows.order_by().values_list("what", "unit").annotate(Sum("quantity"), Sum("delivered"), last=Max("due"))
    found: dict[tuple[str, str], tuple[int, int]] = {}
    for what, unit, promised, received, _last in summed.order_by("-last", "what", "unit")[: THINGS_SHOWN * 2]:
        key = what, "" if unit in named_units(what) else unit
        before = found.get(key, (0, 0))
        found[key] = before[0] + promised, before[1] + received
    return [Thing(*key, *counts) for key, counts in found.items()][:THINGS_SHOWN]


def named_units(what: str) -> list[str]:
    """No unit, or one that the thing's own name holds: 60 terracotta pots are 60 "pots" of "terracotta pots"."""
    return ["", *what.split()]


def granted(desk: Desk, span: Span) -> Granted:
    """Grants are few: one walk over those of the program that were asked or answered in the year."""
    found: Counter[str] = Counter()
    asked_in, answered_in = Q(**span.within("asked_on")), Q(**span.within("answered_on"))
    columns = ("state", "asked_on", "answered_on", "asked_cents", "awarded_cents", "spent_cents", "rest_back_on")
    for state, asked, answered, wanted, given, spent, back_on in (
        desk.grants.filter(asked_in | answered_in).order_by().values_list(*columns)
    ):
        if asked and span.goes_on(asked):
            found.update(asked=1, asked_cents=wanted or 0)
        if answered and span.goes_on(answered) and state == GrantState.AWARDED:
            back = max(0, (given or 0) - spent) if back_on else 0
            found.update(awarded=1, awarded_cents=given or 0, spent_cents=spent, back_cents=back)
        if answered and span.goes_on(answered) and state == GrantState.REFUSED:
            found.update(refused=1)
    return Granted(**found)


def out_of_pocket(desk: Desk, span: Span) -> QuerySet[Any]:
    """What the teacher paid in the year and was not repaid."""
    bought: QuerySet[Any] = desk.purchases.out_of_pocket().filter(**span.within("bought_on"))
    return bought


def thanked(desk: Desk, span: Span) -> Thanked:
    rows = desk.thanks.filter(**span.within("base")).order_by().values_list("base", "done_on").annotate(Count("pk"))
    owed, days = 0, Counter[int]()
    for base, done, number in rows:
        owed += number
        if done is not None:
            days[max(0, (done - base).days)] += number
    return Thanked(owed, sum(days.values()), median(days))


def own_rates(desk: Desk, span: Span) -> list[YesRate]:
    rows = own_asks(desk).filter(**span.within("asked_on")).order_by()
    counted = rows.values_list("partner__kind", "partner__business_kind", "answer").annotate(Count("pk"))
    return yes_rates((business or kind, answer, number) for kind, business, answer, number in counted)


def became(desk: Desk, span: Span) -> list[Any]:
    """Projects of which was told in the year what they became, the latest first."""
    told = desk.projects.filter(**span.within("became_on")).order_by("-became_on", "pk")
    return list(told[:BECAME_SHOWN])


def year_record(desk: Desk, span: Span) -> YearRecord:
    pocket = out_of_pocket(desk, span).order_by().aggregate(total=Sum("total_cents"))["total"] if desk.writes else 0
    return YearRecord(
        span=span,
        reached=reached(desk, span),
        months=by_month(desk, span),
        gifts=gifts(desk, span),
        renewal=renewal(desk, span),
        trades=trades(desk, span),
        promised=promised(desk, span),
        things=things(desk, span),
        hours=figures_of(desk, span.year),
        granted=granted(desk, span),
        thanked=thanked(desk, span),
        became=became(desk, span),
        rates=own_rates(desk, span) if desk.writes else [],
        pocket_cents=pocket or 0,
    )
