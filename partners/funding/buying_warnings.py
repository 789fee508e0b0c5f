"""What speaks against a purchase before it is made, and against a receipt before it is saved; nothing is stopped."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any, Protocol

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.funding.buying_facts import verdict_of
from partners.funding.buying_models import Certificate, Purchase
from partners.funding.grant_models import Grant, GrantLine
from partners.funding.grant_rules import Charge, purchase_warnings
from partners.funding.grant_sums import LineSum, line_sums
from partners.funding.state_rules import Answer
from partners.ground.money import format_cents
from partners.program.desk import Desk


class Charged(Protocol):
    """A line of a receipt, typed or stored."""

    @property
    def cents(self) -> int: ...
    @property
    def grant_line(self) -> GrantLine | None: ...


def grant_warnings(
    desk: Desk, purchase: Purchase, bought_on: date, lines: Sequence[Charged], stored: Sequence[Charged] | None = None
) -> list[str]:
    """For every grant that the lines charge, and the slip's own. `stored` is what counts as spent already."""
    if stored is None:
        stored = list(purchase.lines.select_related("grant_line")) if purchase.pk else []
    wanted, before = by_line(lines), by_line(stored)
    ids = {line.grant_line.grant_id for line in lines if line.grant_line} | {purchase.grant_id}
    grants = list(desk.program.grants.filter(pk__in=[pk for pk in ids if pk]).order_by("pk"))
    found = []
    for grant in grants:
        sums = line_sums(grant)
        charges = [charge(one, wanted, before) for one in sums if one.line.pk in wanted]
        charges += beyond_award(grant, [one.line.pk for one in sums], charges, before)
        sentences = against(grant, bought_on, charges)
        found += [f"{grant}: {words}" for words in sentences] if len(grants) > 1 else sentences
    return found + not_charged(purchase, lines)


def not_charged(purchase: Purchase, lines: Sequence[Charged]) -> list[str]:
    """What the slip's grant does not learn of: only a line that is charged to it counts as spent."""
    rest = sum(line.cents for line in lines if line.grant_line is None)
    if purchase.grant is None or not rest:
        return []
    facts = {"amount": format_cents(abs(rest)), "grant": purchase.grant}
    if rest < 0:
        return [_("The discount is charged to no line of “%(grant)s”: %(amount)s too much counts as spent.") % facts]
    return [_("%(amount)s of it is charged to no line of “%(grant)s”, and does not count as spent from it.") % facts]


def by_line(lines: Iterable[Charged]) -> dict[int, int]:
    """What is charged to each line of a grant, by its number."""
    sums: dict[int, int] = {}
    for line in lines:
        if line.grant_line is not None:
            sums[line.grant_line.pk] = sums.get(line.grant_line.pk, 0) + line.cents
    return sums


def charge(one: LineSum, wanted: Mapping[int, int], before: Mapping[int, int]) -> Charge:
    return Charge(one.left + before.get(one.line.pk, 0), wanted[one.line.pk], one.line.what)


def beyond_award(
    grant: Grant, lines: Iterable[int], charges: Sequence[Charge], before: Mapping[int, int]
) -> list[Charge]:
    """The whole grant as one more charge, where it goes over its award by more than its lines say."""
    if not grant.awarded_cents:
        return []
    left = grant.left_cents + sum(before.get(pk, 0) for pk in lines)
    whole = Charge(left, sum(one.cents for one in charges), str(grant))
    return [whole] if whole.over_cents > sum(one.over_cents for one in charges) else []


def against(grant: Grant, day: date, charges: Sequence[Charge]) -> list[str]:
    return purchase_warnings(
        bought_on=day, state=grant.state, buy_from=grant.buy_from, spend_by=grant.spend_by, charges=charges
    )


def before_buying(desk: Desk, purchase: Purchase) -> list[str]:
    """What to mend before going to the shop."""
    found = []
    grant = purchase.grant
    if grant is not None:
        about = purchase.estimate_cents or 0
        left = grant.left_cents if grant.awarded_cents else None
        found += against(grant, desk.day, [Charge(left, about, str(grant))])
        found += not_accepted(grant)
    certificate = purchase.certificate
    if certificate is not None and not certificate.is_valid_on(desk.day):
        found.append(certificate_words(certificate, desk.day))
    if certificate is None and (forgotten := certificate_left_out(desk, purchase)):
        facts = {"number": forgotten.number, "school": forgotten.school}
        found.append(_("%(school)s has certificate %(number)s. Choose it on the slip, or the tax is paid.") % facts)
    if not purchase.approved_by and not purchase.order_number:
        found.append(_("No approval and no order number is written down. Many districts repay nothing without one."))
    return found


def not_accepted(grant: Grant) -> list[str]:
    if grant.accept_due is None or grant.accepted_on is not None:
        return []
    waits = _("The grant’s money is not accepted yet. Who must say yes to it: %(who)s.")
    return [waits % {"who": grant.accept_by_whom}]


def certificate_left_out(desk: Desk, purchase: Purchase) -> Certificate | None:
    """One of the school's that is valid today, where showing it may spare the tax."""
    answer = verdict_of(purchase, certificate=True).answer
    if purchase.school_id is None or answer is Answer.TAXED:
        return None
    own = desk.certificates.filter(school=purchase.school_id, state=purchase.state, renewed=False)
    return next((one for one in own if one.is_valid_on(desk.day)), None)


def certificate_words(certificate: Any, day: date) -> str:
    if certificate.valid_until is not None and certificate.valid_until < day:
        ended = date_format(certificate.valid_until, "DATE_FORMAT")
        return _("The certificate ended on %(day)s. Ask the business office for the new one.") % {"day": ended}
    begins = date_format(certificate.valid_from, "DATE_FORMAT")
    return _("The certificate is valid only from %(day)s.") % {"day": begins}


def after_buying(desk: Desk, purchase: Purchase, lines: Sequence[Charged]) -> list[str]:
    """What speaks against it now that it was bought; it stays on its page."""
    day = purchase.bought_on
    if day is None:
        return []
    found = grant_warnings(desk, purchase, day, lines, lines)
    if purchase.approved_on is not None and purchase.approved_on > day:
        found.append(_("It was bought before it was approved."))
    if purchase.certificate is not None and not purchase.certificate.is_valid_on(day):
        found.append(_("The certificate was not valid on that day."))
    return found
