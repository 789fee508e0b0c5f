"""Dates of grants: apply, hear, spend what is left, claim, report."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet

from partners.funding import grant_actions as actions
from partners.funding.grant_models import GrantState
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.money import format_cents
from partners.ground.plain import PlainError, gettext_noop
from partners.ground.words import gettext as _

APPLY, ANSWER, ACCEPT = "funding.apply", "funding.answer", "funding.accept"
SPEND, CLAIM, REPORT = "funding.spend", "funding.claim", "funding.report"
DAY = "MONTH_DAY_FORMAT"
NOTHING_SPENT = gettext_noop("Nothing of “%(title)s” is spent. If that is right, say so on the grant’s own page.")
OF_GRANT = (
    "title", "asked_cents", "asked_on", "answered_on", "awarded_cents", "spent_cents", "partner_id", "partner__name",
    "partner__phone", "school_id", "school__name", "accept_by_whom",
)  # fmt: skip


def _apply(row: tuple[Any, ...], day: date) -> DueLine:
    one = _read(row)
    acts = (
        Act(_("It was handed in"), row_link("funding:grant-ask", one["pk"]), opens=True),
        Act(_("Go on writing"), row_link("funding:grant-words", one["pk"]), opens=True),
        Act(_("Not this time"), _settle(APPLY, one["pk"]), code="not_applied"),
    )
    why = _("the last day to apply")
    return _line(
        APPLY,
        Hand.WRITE,
        one,
        verb=_("Apply to"),
        alone=_("Apply for"),
        what=_sum(one["title"], one["asked_cents"]),
        why=why,
        acts=acts,
    )


def _answer(row: tuple[Any, ...], day: date) -> DueLine:
    one = _read(row)
    settle = _settle(ANSWER, one["pk"])
    acts = (
        Act(_("They answered"), row_link("funding:grant-answer", one["pk"]), opens=True),
        Act(_("Move to…"), settle, code="move"),
        Act(_("Not this month"), settle, code="not_this_month"),
    )
    why = _("asked on %(day)s") % {"day": _spelled(one["asked_on"])}
    what = _sum(one["title"], one["asked_cents"])
    return _line(ANSWER, Hand.CALL, one, verb=_("Ask for their answer:"), what=what, why=why, acts=acts)


def _accept(row: tuple[Any, ...], day: date) -> DueLine:
    one = _read(row)
    settle = _settle(ACCEPT, one["pk"])
    acts = (
        Act(_("Accepted"), settle, code="done"),
        Act(_("Move to…"), settle, code="move"),
        Act(_("Not this month"), settle, code="not_this_month"),
    )
    facts = {"what": format_cents(one["awarded_cents"]), "giver": one["partner__name"]}
    what, why = _("to accept %(what)s from %(giver)s") % facts, _("awarded on %(day)s")
    asked = {"who": one["accept_by_whom"], "who_url": _page(one), "phone": ""}
    why = why % {"day": _spelled(one["answered_on"])}
    return _line(ACCEPT, Hand.ASK, {**one, **asked}, verb=_("Ask"), what=what, why=why, acts=acts)


def _spend(row: tuple[Any, ...], day: date) -> DueLine:
    one = _read(row)
    acts = (
        Act(_("Spend what is left"), _page(one), opens=True),
        Act(_("It stays unspent"), _settle(SPEND, one["pk"]), code="left"),
    )
    left = format_cents(one["awarded_cents"] - one["spent_cents"])
    why = _("%(left)s is left; the last day to spend it") % {"left": left}
    return _line(
        SPEND,
        Hand.MONEY,
        one,
        verb=_("Spend the grant of"),
        alone=_("Spend the grant:"),
        what=one["title"],
        why=why,
        acts=acts,
    )


def _claim(row: tuple[Any, ...], day: date) -> DueLine:
    one = _read(row)
    acts = (
        _handed(_("Claimed"), CLAIM, one, "claim"),
        Act(_("Claim sheet"), row_link("outreach:document", one["pk"], "grant-claim"), opens=True),
        Act(_("The grant"), _page(one), opens=True),
    )
    why = _("%(spent)s of %(awarded)s is spent; the last day to claim")
    facts = {"spent": format_cents(one["spent_cents"]), "awarded": format_cents(one["awarded_cents"])}
    return _line(
        CLAIM, Hand.MONEY, one, verb=_("Claim from"), alone=_("Claim:"), what=one["title"], why=why % facts, acts=acts
    )


def _report(row: tuple[Any, ...], day: date) -> DueLine:
    one = _read(row)
    acts = (
        Act(_("Write the report"), row_link("outreach:document-prepare", one["pk"], "grant-report"), opens=True),
        _handed(_("Handed in"), REPORT, one, "report"),
    )
    why = _("awarded on %(day)s") % {"day": _spelled(one["answered_on"])}
    what = _sum(one["title"], one["awarded_cents"])
    return _line(REPORT, Hand.WRITE, one, verb=_("Report to"), alone=_("Report:"), what=what, why=why, acts=acts)


def _handed(label: str, slug: str, one: dict[str, Any], place: str) -> Act:
    """Where nothing is spent, the page asks first whether that is right."""
    if one["spent_cents"]:
        return Act(label, _settle(slug, one["pk"]), code="done")
    return Act(label, f"{_page(one)}#{place}", opens=True)


def _read(row: tuple[Any, ...]) -> dict[str, Any]:
    return dict(zip(("pk", "due", *OF_GRANT), row, strict=True))


def _line(source: str, hand: Hand, one: dict[str, Any], **own: Any) -> DueLine:
    return DueLine(
        source=source,
        pk=one["pk"],
        due=one["due"],
        hand=hand,
        who=one.get("who", one["partner__name"]),
        who_url=one.get("who_url") or row_link("directory:partner-detail", one["partner_id"]),
        partner_id=one["partner_id"],
        phone=one.get("phone", one["partner__phone"]) or "",
        school_id=one["school_id"],
        school=one["school__name"] or "",
        **own,
    )


def _sum(title: str, cents: int | None) -> str:
    return f"{title}, {format_cents(cents)}" if cents is not None else title


def _spelled(day: date | None) -> str:
    return spelled(day, DAY) if day else ""


def _page(one: dict[str, Any]) -> str:
    return row_link("funding:grant-detail", one["pk"])


def _settle(slug: str, pk: int) -> str:
    return row_link("agenda:settle", pk, slug)


# Open rows, each just as its partial index has them.


def _to_apply(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.filter(apply_by__isnull=False, state=GrantState.PLANNED)
    return rows


def _to_hear(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.filter(answer_by__isnull=False, state=GrantState.ASKED)
    return rows


def _to_accept(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.to_accept()
    return rows


def _to_spend(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.with_money_left().filter(spend_by__isnull=False)
    return rows


def _to_claim(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.awarded().filter(claim_by__isnull=False, claimed_on=None)
    return rows


def _to_report(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.awarded().filter(report_due__isnull=False, reported_on=None)
    return rows


def _not_applied(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.not_this_time(desk=desk, grant=row)


def _answer_later(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    actions.expect_answer(desk=desk, grant=row, due=due)


def _accepted(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.accept_award(desk=desk, grant=row, day=day)


def _accept_later(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    actions.move_acceptance(desk=desk, grant=row, due=due)


def _left(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    actions.leave_rest(desk=desk, grant=row)


def _must_be_spent(row: Any) -> None:
    if not row.spent_cents:
        raise PlainError("nothing_spent", NOTHING_SPENT, title=row.title)


def _claimed(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    _must_be_spent(row)
    actions.claim(desk=desk, grant=row, day=day)


def _reported(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    _must_be_spent(row)
    actions.report(desk=desk, grant=row, day=day)


def _source(slug: str, hand: Hand, rows: Any, column: str, line: Any, **settle: Any) -> DueSource:
    columns = ("pk", column, *OF_GRANT)
    return DueSource(slug=slug, hand=hand, rows=rows, date_field=column, columns=columns, line=line, settle=settle)


SOURCES: tuple[DueSource, ...] = (
    _source(APPLY, Hand.WRITE, _to_apply, "apply_by", _apply, not_applied=_not_applied),
    _source(ANSWER, Hand.CALL, _to_hear, "answer_by", _answer, move=_answer_later),
    _source(ACCEPT, Hand.ASK, _to_accept, "accept_due", _accept, done=_accepted, move=_accept_later),
    _source(SPEND, Hand.MONEY, _to_spend, "spend_by", _spend, left=_left),
    _source(CLAIM, Hand.MONEY, _to_claim, "claim_by", _claim, done=_claimed),
    _source(REPORT, Hand.WRITE, _to_report, "report_due", _report, done=_reported),
)
