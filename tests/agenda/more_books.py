"""One open row for every source of due lines of projects and of money, written by the verbs; part of `books.py`."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from partners.funding.buying_actions import (
    Bought,
    hand_in,
    move_claim,
    move_repayment,
    move_tax_back,
    record_receipt,
    write_slip,
)
from partners.funding.certificate_actions import add_certificate
from partners.funding.grant_actions import ask_for, award, move_acceptance, write_grant
from partners.funding.grant_models import Grant, GrantLine
from partners.funding.occasion_actions import add_occasion
from partners.letters.batch_actions import Wanted, edit_batch, fill_batch
from partners.program.desk import Desk
from partners.school.project_actions import add_part, add_project

TURN = timedelta(days=1)
TAX = Bought(what="Sales tax", cents=688, kind="tax", taxable=False)


def became(desk: Desk, partner: Any, day: date) -> Any:
    return add_project(desk=desk, title="Clay maps", ends_on=day)


def _part(by: str) -> Any:
    def make(desk: Desk, partner: Any, day: date) -> Any:
        project = add_project(desk=desk, title="Clay maps", school=desk.schools.first(), colleague=partner)
        return add_part(desk=desk, project=project, what="maps of the river", by=by, due=day)

    return make


def _planned(desk: Desk, partner: Any, day: date, **days: Any) -> Any:
    return write_grant(desk=desk, partner=partner, title="clay", school=desk.schools.first(), **days)


def _asked(desk: Desk, partner: Any, day: date, answer_by: date | None) -> Any:
    grant = _planned(desk, partner, day)
    asked_on = day - timedelta(days=60)
    return ask_for(desk=desk, grant=grant, asked_on=asked_on, asked_cents=50_000, answer_by=answer_by)


def _awarded(column: str) -> Any:
    def make(desk: Desk, partner: Any, day: date) -> Any:
        given: dict[str, Any] = {"answered_on": day - timedelta(days=30), "awarded_cents": 50_000, column: day}
        return award(desk=desk, grant=_asked(desk, partner, day, None), **given)

    return make


def _spent(column: str) -> Any:
    def make(desk: Desk, partner: Any, day: date) -> Any:
        grant = _awarded(column)(desk, partner, day)
        line = GrantLine.objects.create(program=desk.program, grant=grant, what="tools", planned_cents=50_000)
        _bought(desk, partner, day, Bought(what="tools", cents=500, grant_line=line))
        return Grant.objects.get(pk=grant.pk)

    return make


def to_accept(desk: Desk, partner: Any, day: date) -> Any:
    asked = _asked(desk, partner, day, None)
    grant = award(desk=desk, grant=asked, answered_on=day - timedelta(days=30), awarded_cents=50_000)
    return move_acceptance(desk=desk, grant=grant, due=day)


def _bought(desk: Desk, partner: Any, day: date, *lines: Bought, **values: Any) -> Any:
    school = desk.schools.first()
    slip = write_slip(desk=desk, vendor="Corner Art", what="clay", school=school, state="MN", partner=partner, **values)
    bought_on = day - timedelta(days=20)
    clay = Bought(what="clay", cents=10_000)
    return record_receipt(desk=desk, purchase=slip, lines=[clay, *lines], bought_on=bought_on, tax_rate=68750)


def receipt(desk: Desk, partner: Any, day: date) -> Any:
    return move_claim(desk=desk, purchase=_bought(desk, partner, day), due=day)


def to_repay(desk: Desk, partner: Any, day: date) -> Any:
    bought = _bought(desk, partner, day, payer="own")
    hand_in(desk=desk, purchase=bought, day=day - timedelta(days=10))
    return move_repayment(desk=desk, purchase=bought, due=day)


def tax_back(desk: Desk, partner: Any, day: date) -> Any:
    shown = certificate(desk, partner, day + timedelta(days=90))
    return move_tax_back(desk=desk, purchase=_bought(desk, partner, day, TAX, certificate=shown), due=day)


def certificate(desk: Desk, partner: Any, day: date) -> Any:
    school: Any = desk.schools.first()
    return add_certificate(desk=desk, school=school, state="MN", number="EX-1", valid_until=day)


def to_confirm(desk: Desk, partner: Any, day: date) -> Any:
    return add_occasion(desk=desk, title="Library sale", partner=partner, first_on=day + timedelta(weeks=4))


def to_go(desk: Desk, partner: Any, day: date) -> Any:
    return add_occasion(desk=desk, title="Library sale", partner=partner, first_on=day)


def batch(desk: Desk, partner: Any, day: date) -> Any:
    """A sheet that is still here; every batch is of another span."""
    sheet = Wanted(
        document="leave-behind", title="A sheet", key="partner", about={"partner": partner}, language="en", order=(1,)
    )
    made = fill_batch(desk=desk, kind="outing", title="Sheets", wanted=[sheet], first=day, last=day + TURN * partner.pk)
    assert made is not None
    return edit_batch(desk=desk, batch=made, day=day)


MAKERS = {
    "letters.batch": batch,
    "school.became": became,
    "school.part": _part("us"),
    "school.colleague": _part("colleague"),
    "funding.apply": lambda desk, partner, day: _planned(desk, partner, day, apply_by=day),
    "funding.answer": lambda desk, partner, day: _asked(desk, partner, day, day),
    "funding.accept": to_accept,
    "funding.spend": _awarded("spend_by"),
    "funding.claim": _spent("claim_by"),
    "funding.report": _spent("report_due"),
    "funding.receipt": receipt,
    "funding.repaid": to_repay,
    "funding.tax-back": tax_back,
    "funding.certificate": certificate,
    "funding.confirm": to_confirm,
    "funding.go": to_go,
}
