"""The facts of a grant's sheets: the application, the claim and the report."""

from __future__ import annotations

from datetime import date
from itertools import groupby
from typing import Any

from outreach.documents import grant_application, grant_claim, grant_report
from outreach.gathering.gratitude import address_of, receiver
from outreach.gathering.school import letterhead, school_meant
from outreach.page import SHOWN_PIXELS, open_picture
from outreach.wording.grant_facts import Agreed, BudgetLine, Charged, Receipt
from outreach.wording.gratitude import Thanks
from partners.funding.grant_actions import report
from partners.funding.grant_models import Grant, GrantState
from partners.funding.grant_sums import line_sums, tax_given_back
from partners.program.desk import Desk
from partners.program.files import printable
from partners.school.project_models import Project


def grants(desk: Desk) -> Any:
    return desk.grants.select_related("partner", "school", "project")


def awarded(desk: Desk) -> Any:
    """Those of which money can be claimed and told: no sheet says that nothing was awarded."""
    return grants(desk).awarded()


def gather_application(desk: Desk, grant: Grant, words: dict[str, Any]) -> grant_application.Facts:
    answers = grant.answers.values_list("question", "words")
    return grant_application.Facts(
        **_common(desk, grant, words),
        asked=grant.asked_cents,
        answers=tuple((question, paragraphs(text)) for question, text in answers if text.strip()),
        lines=budget(grant),
    )


def paragraphs(text: str) -> tuple[str, ...]:
    """What was typed, line by line; empty lines part nothing."""
    return tuple(part.strip() for part in text.splitlines() if part.strip())


def gather_claim(desk: Desk, grant: Grant, words: dict[str, Any]) -> grant_claim.Facts:
    return grant_claim.Facts(
        **_common(desk, grant, words),
        awarded=grant.awarded_cents or 0,
        awarded_on=grant.answered_on,
        buy_from=grant.buy_from,
        spend_by=grant.spend_by,
        claim_by=grant.claim_by,
        receipts=receipts(desk, grant),
        lines=budget(grant),
        changes=agreed(grant),
    )


def gather_report(desk: Desk, grant: Grant, words: dict[str, Any]) -> grant_report.Facts:
    """What it became is told only where it was written since the award."""
    common = _common(desk, grant, words)
    school, project = grant.school or school_meant(desk), grant.project
    names = receiver(desk, grant.partner, school)
    day = grant.answered_on or desk.day
    greeting = Thanks(common["language"], "delivery", "money", day, partner=names["partner"], contact=names["contact"])
    return grant_report.Facts(
        **common,
        address=address_of(grant.partner),
        greeting=greeting,
        role=desk.signs.title,
        asked=grant.asked_cents,
        awarded=grant.awarded_cents or 0,
        awarded_on=day,
        rest_back_on=grant.rest_back_on,
        became=project.told_of(day) if project else "",
        students=project.students if project else None,
        lines=budget(grant),
        changes=agreed(grant),
        paragraphs=tuple(words.get("paragraphs", ())),
        enclosures=tuple(words.get("enclosures", ())),
        **_picture(desk, project, day),
    )


def _picture(desk: Desk, project: Project | None, since: date) -> dict[str, Any]:
    """The latest picture of the project with the tick, kept since the award."""
    if project is None:
        return {}
    rows = printable(desk.attachments.filter(project=project, day__gte=since))
    latest = rows.select_related("file").order_by("-day", "-pk").first()
    if latest is None:
        return {}
    return {"picture": open_picture(bytes(latest.file.content), SHOWN_PIXELS), "picture_shows": latest.title}


def _common(desk: Desk, grant: Grant, words: dict[str, Any]) -> dict[str, Any]:
    return {
        "language": words.get("language") or desk.program.language,
        "paper": desk.program.paper,
        "letterhead": letterhead(grant.school or school_meant(desk), desk),
        "day": desk.day,
        "partner": grant.partner.name,
        "title": grant.title,
        "teacher": desk.signs.teacher,
    }


def budget(grant: Grant) -> tuple[BudgetLine, ...]:
    return tuple(
        BudgetLine(
            what=one.line.what,
            quantity=one.line.quantity,
            planned=one.line.planned_cents,
            shipping=one.line.shipping_cents,
            moved=one.moved,
            spent=one.spent_goods,
            shipped=one.spent_shipping,
        )
        for one in line_sums(grant)
    )


def receipts(desk: Desk, grant: Grant) -> tuple[Receipt, ...]:
    """Every receipt with the lines that are charged to the grant, in order of the day."""
    rows = desk.program.purchase_lines.filter(grant_line__grant=grant, purchase__bought_on__isnull=False)
    back: dict[int, int] = {}
    for (_line, purchase_id), cents in tax_given_back(rows).items():
        back[purchase_id] = back.get(purchase_id, 0) + cents
    rows = rows.select_related("purchase").order_by("purchase__bought_on", "purchase_id", "position", "pk")
    return tuple(
        Receipt(
            day=purchase.bought_on,
            shop=purchase.vendor,
            number=purchase.receipt_number,
            lines=(
                *(Charged(one.what, one.cents, one.kind) for one in charged),
                *((Charged("", -back[purchase.pk], "tax_back"),) if purchase.pk in back else ()),
            ),
        )
        for purchase, charged in groupby(rows, key=lambda row: row.purchase)
    )


def agreed(grant: Grant) -> tuple[Agreed, ...]:
    return tuple(
        Agreed(
            by=one.agreed_by,
            on=one.agreed_on,
            was=one.was,
            becomes=one.becomes,
            cents=one.moved_cents,
            line=one.line.what,
            to_line=one.to_line.what if one.to_line else "",
        )
        for one in grant.changes.select_related("line", "to_line")
    )


def report_went_out(desk: Desk, grant: Grant, _facts: Any) -> None:
    """The report was handed over: the grant is reported on, where it was not before."""
    if grant.state == GrantState.AWARDED and grant.reported_on is None:
        report(desk=desk, grant=grant, day=desk.day)
