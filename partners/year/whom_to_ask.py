"""Whom to ask, who rests and whom never to ask, with the reason of each: what a memory keeps and a list loses."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date

from django.utils.translation import gettext as _

from partners.asking.gather import gather
from partners.asking.may_ask import Verdict
from partners.asking.reasons import Code, Reason
from partners.asking.words import clause
from partners.directory.models import Partner
from partners.program.desk import Desk
from partners.school.models import School

ASK, REST, NEVER = "ask", "rest", "never"


@dataclass(frozen=True)
class Whom:
    """One partner: `how` is ASK, REST or NEVER, `why` says what speaks against it, in a row that names the partner.

    `again` is the day on which a rest ends; None where only something that has to be settled stands against it.
    """

    partner: Partner
    how: str
    why: str
    again: date | None = None


def whom_to_ask(desk: Desk, partners: Collection[Partner], school: School | None = None) -> list[Whom]:
    """In as many queries as for one partner. A missing approval is no partner's matter and is left out here."""
    known = gather(desk, partners)
    pk = school.pk if school else None
    asker = str(desk.user or desk.program.teacher)
    return [judged(one, known.verdict(one, desk.day, None, pk), asker) for one in partners]


def judged(partner: Partner, verdict: Verdict, asker: str) -> Whom:
    """`asker` is who asked where a reader at the screen would be told that it was "you"."""
    if partner.never_ask:
        return Whom(partner, NEVER, partner.rest_why)
    reasons = [asked_by(one, asker) for one in verdict.reasons if one.code != Code.NO_APPROVAL]
    words = "; ".join(in_a_row(one, partner.name) for one in reasons)
    if not any(one.blocks for one in reasons):
        return Whom(partner, ASK, words)
    return Whom(partner, REST, words, max((one.until for one in reasons if one.blocks and one.until), default=None))


def in_a_row(reason: Reason, partner: str) -> str:
    """The row names the partner and the day already; only who gave unasked is named as who did it."""
    if reason.code == Code.RESTING:
        return str(reason.facts["why"]) or _("they rest")
    return clause(reason, partner if reason.code == Code.HOW_OFTEN and reason.facts["unasked"] else _("them"))


def asked_by(reason: Reason, asker: str) -> Reason:
    if reason.code not in (Code.OPEN_ASK, Code.HOW_OFTEN):
        return reason
    return replace(reason, facts={**reason.facts, "by": reason.facts.get("by") or asker})
