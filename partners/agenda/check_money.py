"""What the rooms of the money keep ready, worked out again."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from django.db.models import Sum

from partners.funding.buying_facts import sums
from partners.funding.grant_models import GrantState
from partners.funding.grant_sums import spent_by_line
from partners.funding.occasion_facts import kept_ready
from partners.gifts.models import ThanksFor
from partners.program.models import Program


def spent_of_grants(program: Program) -> Iterator[str]:
    """What is spent of a line is what receipts charged to it, and of a grant what is spent of its lines."""
    kept_lines = list(program.grant_lines.values_list("pk", "spent_cents").order_by("pk"))
    charged = spent_by_line(program, [pk for pk, _kept in kept_lines])
    for pk, kept in kept_lines:
        if kept != sum(charged.get(pk, (0, 0))):
            yield f"line of a grant {pk}: spent_cents is {kept}, should be {sum(charged.get(pk, (0, 0)))}"
    of_grants = dict(program.grant_lines.order_by().values_list("grant_id").annotate(Sum("spent_cents")))
    for pk, kept in program.grants.order_by("pk").values_list("pk", "spent_cents"):
        if kept != of_grants.get(pk, 0):
            yield f"grant {pk}: spent_cents is {kept}, should be {of_grants.get(pk, 0)}"


def thanks_for_grants(program: Program) -> Iterator[str]:
    """Every award owes thanks, or was thanked for."""
    thanked = program.thanks.filter(reason=ThanksFor.GRANT, grant__isnull=False).values("grant_id")
    awarded = program.grants.filter(state=GrantState.AWARDED).exclude(pk__in=thanked)
    for pk in awarded.order_by("pk").values_list("pk", flat=True):
        yield f"grant {pk}: no thanks are owed or said"


def occasions(program: Program) -> Iterator[str]:
    """The next time of each free day, and the day to confirm it by."""
    for row in program.occasions.prefetch_related("days").iterator(chunk_size=500):
        told = [(one.day, one.told_on) for one in row.days.all()]
        for name, day in kept_ready(row, told).items():
            if getattr(row, name) != day:
                yield f"occasion {row.pk}: {name} is {getattr(row, name)}, should be {day}"


def purchases(program: Program) -> Iterator[str]:
    """Every receipt's total, tax and tax saved follow from its lines; tax to ask back was charged at all."""
    rows = program.purchases.prefetch_related("lines").select_related("school")
    for row in rows.iterator(chunk_size=500):
        for name, value in sums(row, row.lines.all()).items():
            if getattr(row, name) != value:
                yield f"purchase {row.pk}: {name} is {getattr(row, name)}, should be {value}"
        if row.tax_back_due is not None and (row.certificate_id is None or not row.tax_cents):
            yield f"purchase {row.pk}: tax_back_due is {row.tax_back_due}, should be None"


CHECKS: tuple[Callable[[Program], Iterator[str]], ...] = (
    spent_of_grants,
    thanks_for_grants,
    purchases,
    occasions,
)
