"""The facts of the lists for the office and the board: gifts of a fiscal year, and everybody asked in it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from django.db.models import Count, Min, Q, QuerySet, Sum

from outreach.documents import board_gifts, places_asked
from outreach.documents.board_gifts import Came, InSum, Unnamed
from outreach.documents.places_asked import Asked
from outreach.gathering.school import legal_name, letterhead, school_meant
from outreach.wording.counts import Item, counted
from partners.directory.models import MayName
from partners.gifts.families import family_gifts
from partners.gifts.models import Form, Gift, Source
from partners.ground.years import first_day, last_day, name_of, year_of
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.school.models import School

Words = dict[str, Any]
OLDEST_SHOWN = 10


def gather_gifts(desk: Desk, school: School | None, words: Words) -> board_gifts.Facts:
    """`words["year"]` is the calendar year in which the fiscal year begins; without it, this one."""
    frame = of_year(desk, school, words)
    gifts = at_school(desk.gifts.filter(day__gte=frame["first"], day__lte=frame["last"]), school)
    named = gifts.from_partners().select_related("partner").prefetch_related("lines").order_by("day", "pk")
    return board_gifts.Facts(
        **frame,
        receiver=school.legal_name if school else legal_name(desk),
        gifts=tuple(sorted([*(came(gift) for gift in named), *granted(desk, school, frame)], key=lambda one: one.day)),
        families=unnamed(desk, gifts, Source.FAMILIES),
        unknown=unnamed(desk, gifts, Source.UNKNOWN),
    )


def came(gift: Gift) -> Came:
    return Came(
        day=gift.day,
        **giver_of(gift.partner),
        form="trade" if gift.trade else gift.form,
        what="" if gift.form == Form.MONEY else gift.what,
        cents=gift.amount_cents,
        purpose=gift.purpose,
        return_on=gift.return_on,
        returned_on=gift.returned_on,
        accepted_by=gift.accept_by_whom,
        accepted_on=gift.accepted_on,
        shared=gift.school_id is None,
    )


def granted(desk: Desk, school: School | None, frame: Words) -> list[Came]:
    """Grants awarded in the year: boards accept these as they accept gifts of money (common practice).

    A guest to whom money is not open does not read them here either.
    """
    if not desk.reads(Opened.MONEY):
        return []
    won = desk.grants.awarded().filter(answered_on__gte=frame["first"], answered_on__lte=frame["last"])
    rows = at_school(won, school).select_related("partner").order_by("answered_on", "pk")
    return [
        Came(
            day=grant.answered_on,
            **giver_of(grant.partner),
            form="grant",
            what="",
            cents=grant.awarded_cents,
            purpose=grant.title,
            accepted_by=grant.accept_by_whom,
            accepted_on=grant.accepted_on,
            shared=grant.school_id is None,
        )
        for grant in rows
    ]


def giver_of(partner: Any) -> Words:
    """Who asked not to be named is not."""
    return {
        "giver": "" if partner.may_name == MayName.NO else partner.name,
        "in_school_only": partner.may_name == MayName.SCHOOL_ONLY,
    }


def unnamed(desk: Desk, gifts: Any, source: str) -> Unnamed:
    """What came without names; money too, which has no lines."""
    things: dict[str, InSum] = {}
    for one in family_gifts(desk, gifts, source):
        known = things.get(one.item, InSum(one.item))
        things[one.item] = InSum(one.item, known.pieces + one.pieces, known.times + one.times)
    money = (
        gifts.filter(source=source, form=Form.MONEY).order_by().aggregate(times=Count("pk"), cents=Sum("amount_cents"))
    )
    return Unnamed(tuple(things.values()), money["times"], money["cents"] or 0)


def gather_asked(desk: Desk, school: School | None, words: Words) -> places_asked.Facts:
    """Asks of every answer, and grants that were asked for; amounts only where they are for the person."""
    frame = of_year(desk, school, words)
    during = {"asked_on__gte": frame["first"], "asked_on__lte": frame["last"]}
    teacher = desk.program.teacher
    asks = at_school(desk.asks.filter(**during), school).select_related("partner", "school").order_by()
    grants = at_school(desk.grants.filter(**during), school).select_related("partner", "school").order_by()
    found = [
        *(
            asked(row, by=row.asked_by or teacher, answer=row.answer, what=thing(row), cents=row.amount_cents)
            for row in asks
        ),
        *(grant_asked(row, teacher) for row in grants),
    ]
    if not desk.reads_amounts:
        found = [replace(one, cents=None) for one in found]
    return places_asked.Facts(
        **frame, asks=tuple(sorted(found, key=lambda one: (one.place.casefold(), one.day, one.what)))
    )


def asked(row: Any, **values: Any) -> Asked:
    return Asked(
        place=row.partner.name,
        day=row.asked_on,
        answered_on=row.answered_on,
        school=row.school.name if row.school else "",
        private=row.partner.may_name in (MayName.NO, MayName.SCHOOL_ONLY),
        **values,
    )


def thing(ask: Any) -> str:
    return counted(Item(ask.what, ask.quantity), "en")


def grant_asked(row: Any, teacher: str) -> Asked:
    answer = {"awarded": "yes", "refused": "no"}.get(row.state, "waiting")
    return asked(row, by=teacher, answer=answer, what=row.title, cents=row.asked_cents, grant=True)


def at_school(rows: QuerySet[Any], school: School | None) -> Any:
    """Those of the school, and those of no school in particular."""
    return rows if school is None else rows.filter(Q(school=school) | Q(school=None))


def of_year(desk: Desk, school: School | None, words: Words) -> dict[str, Any]:
    """What both lists say of their year and their school."""
    begins = desk.program.fiscal_year_starts
    year = words.get("year") or year_of(desk.day, begins)
    return {
        "paper": desk.program.paper,
        "letterhead": letterhead(school or school_meant(desk), desk),
        "day": desk.day,
        "first": first_day(year, begins),
        "last": last_day(year, begins),
        "year": name_of(year, begins),
        "teacher": desk.program.teacher,
        "school": school.name if school else "",
    }


def years(desk: Desk) -> list[tuple[int, str]]:
    """This fiscal year and the earlier ones that hold a gift or an ask, the latest first, with their names."""
    begins, now = desk.program.fiscal_year_starts, year_of(desk.day, desk.program.fiscal_year_starts)
    days: list[date | None] = [
        desk.gifts.order_by().aggregate(first=Min("day"))["first"],
        desk.asks.order_by().aggregate(first=Min("asked_on"))["first"],
        desk.grants.order_by().aggregate(first=Min("asked_on"))["first"],
    ]
    oldest = min((year_of(day, begins) for day in days if day), default=now)
    return [(year, name_of(year, begins)) for year in range(now, max(min(oldest, now), now - OLDEST_SHOWN) - 1, -1)]
