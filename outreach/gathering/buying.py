"""The facts of a buying slip."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet

from outreach.documents.buying_slip import Facts
from outreach.gathering.school import letterhead
from partners.funding.buying_facts import verdict_of
from partners.funding.buying_models import Purchase
from partners.program.desk import Desk


def purchases(desk: Desk) -> QuerySet[Purchase]:
    rows: QuerySet[Purchase] = desk.purchases.select_related("school", "partner", "grant", "project", "certificate")
    return rows


def gather(desk: Desk, purchase: Purchase, words: dict[str, Any] | None = None) -> Facts:
    school, certificate = purchase.school, purchase.certificate
    return Facts(
        language=desk.program.language,
        paper=desk.program.paper,
        letterhead=letterhead(school, desk),
        shop=purchase.vendor,
        what=purchase.what,
        payer=purchase.payer,
        answer=str(verdict_of(purchase).answer),
        person=desk.signs.teacher,
        buyer=(certificate.holder if certificate else "") or (school.legal_name if school else ""),
        school=school.name if school else desk.program.name,
        ein=school.ein if school else "",
        certificate=certificate.number if certificate else "",
        certificate_state=certificate.state if certificate else "",
        certificate_until=certificate.valid_until if certificate else None,
        certificate_ended=certificate is not None and not certificate.is_valid_on(desk.day),
        about_cents=purchase.estimate_cents,
        agent=purchase.authorised_agent,
        approved_by=purchase.approved_by,
        approved_on=purchase.approved_on,
        order_number=purchase.order_number,
        paid_from=str(purchase.grant or purchase.project or ""),
        claim_days=school.claim_days if school else None,
    )
