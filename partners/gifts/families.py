"""What families gave, counted by school and thing; no list anywhere says who gave what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Max, Min, Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.gifts import dates
from partners.gifts.models import Form, GiftQuerySet, Source
from partners.ground.names import fold
from partners.ground.words import gettext as kept
from partners.program.desk import Desk
from partners.school.models import School

_ALL = gettext_noop("all families of %(school)s")


def all_families(school: object) -> str:
    """Who is thanked for what came from them."""
    return kept(_ALL) % {"school": school}


@dataclass
class Counted:
    """One thing at one school: how many pieces where somebody counted them, and how often some came."""

    school: str
    item: str
    pieces: int = 0
    times: int = 0

    @property
    def count(self) -> str:
        return f"{self.pieces:,}" if self.pieces else ""


def family_gifts(desk: Desk, gifts: GiftQuerySet, source: str = Source.FAMILIES) -> list[Counted]:
    """By school, then by thing; the same words in another spelling are the same thing.

    `source` may be another that names nobody.
    """
    lines = desk.gift_lines.filter(gift__in=gifts.filter(source=source).order_by())
    rows = lines.order_by("gift__school__name", "pk").values_list(
        "gift__school__name", "unit", "description", "quantity"
    )
    found: dict[tuple[str, str], Counted] = {}
    for school, unit, description, quantity in rows.iterator(chunk_size=2000):
        named = set(fold(unit).split()) <= set(fold(description).split())
        item = description if named else f"{description} ({unit})"
        one = found.setdefault((school or "", fold(item)), Counted(school or "", item))
        one.pieces += quantity or 0
        one.times += 1
    return sorted(found.values(), key=lambda one: (one.school, fold(one.item)))


def family_money(desk: Desk, gifts: GiftQuerySet) -> list[Counted]:
    """How often money came to each school, where nobody wrote more about it; never how much."""
    sums = gifts.filter(source=Source.FAMILIES, form=Form.MONEY, lines=None).order_by("school__name")
    rows = sums.values_list("school__name").annotate(times=Count("pk"))
    return [Counted(school or "", _("money"), times=times) for school, times in rows]


@dataclass(frozen=True)
class Thanked:
    """When all families of a school were last thanked, and what came that nobody thanked them for.

    What is not due by itself any more (`dates.families_since`) is counted apart: `before` times, from `long_since` on.
    """

    school: School
    last_on: date | None = None
    since: date | None = None
    times: int = 0
    due: date | None = None
    before: int = 0
    long_since: date | None = None


def thanked_by_school(desk: Desk) -> list[Thanked]:
    owed, since = Q(families_due__isnull=False, families_thanked_on=None), dates.families_since(desk.day)
    lately, before = owed & Q(families_due__gte=since), owed & Q(families_due__lt=since)
    found = desk.gifts.filter(source=Source.FAMILIES).order_by().values("school").annotate(
        last_on=Max("families_thanked_on"),
        since=Min("day", filter=lately),
        times=Count("pk", filter=lately),
        due=Min("families_due", filter=lately),
        before=Count("pk", filter=before),
        long_since=Min("day", filter=before),
    )  # fmt: skip
    by_school = {one.pop("school"): one for one in found}
    return [Thanked(school, **by_school.get(school.pk, {})) for school in desk.schools]
