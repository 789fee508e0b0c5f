"""Money of a large invented program: grants, purchases, free days and projects, as the verbs would leave them."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.core.management.color import no_style
from django.db import connection

from partners.agenda.last_heard import last_heard
from partners.config.large_filler import Filler
from partners.directory.models import Partner
from partners.funding.buying_models import Certificate, LineKind, Payer, Purchase, PurchaseLine
from partners.funding.buying_rules import ReceiptLine, claim_day, expected_tax_cents, repay_day, tax_back_day
from partners.funding.grant_models import Grant, GrantLine, GrantState
from partners.funding.occasion_facts import kept_ready
from partners.funding.occasion_models import Occasion, OccasionDay
from partners.funding.recurrence import Every, rhythm_on, rule_of
from partners.gifts.dates import thanks_dates
from partners.gifts.models import Thanks, ThanksFor
from partners.program.models import Program
from partners.school.project_models import Project

GRANT_EVERY, PURCHASE_EVERY, FREE_DAY_EVERY, PROJECT_EVERY = 100, 20, 500, 100
# One in so many is still open: a grant not reported, a free day that nobody told of; a receipt not handed in.
OPEN_EVERY, NOT_HANDED_IN_EVERY = 10, 40
# Tax was charged where it should not have been; most of it was let go.
WRONG_EVERY, STILL_WRONG_EVERY = 7, 70
# Of the purchases, every fifth is charged to the next grant, so that each grant has one.
CHARGED_EVERY = GRANT_EVERY // PURCHASE_EVERY
RATE = 66_250
WRITTEN = [Grant, GrantLine, Thanks, Certificate, Purchase, PurchaseLine, Occasion, OccasionDay, Project]


def fill_money(program: Program, follow_ups: int, day: date) -> None:
    """For every thousand follow-ups ten grants, fifty purchases, ten projects and two free days."""
    MoneyFiller(program, follow_ups, day).fill_money()
    for sql in connection.ops.sequence_reset_sql(no_style(), WRITTEN):
        connection.cursor().execute(sql)


class MoneyFiller(Filler):
    """Grant number n paid for purchase n × 5; half of the others were paid with the teacher's own money."""

    def fill_money(self) -> None:
        self.partner_from = self.program.partners.order_by("pk").values_list("pk", flat=True)[0]
        self.school_id = self.program.schools.values_list("pk", flat=True)[0]
        self.project_from = self.write(Project, range(max(1, self.count // PROJECT_EVERY)), self.project)
        grants, purchases = range(max(1, self.count // GRANT_EVERY)), range(self.count // PURCHASE_EVERY)
        self.grant_from = self.write(Grant, grants, self.grant)
        self.line_from = self.write(GrantLine, grants, self.grant_line)
        self.write(Thanks, grants, self.thanks_for_grant)
        self.hear_grantmakers()
        held = {"school_id": self.school_id, "state": "NJ", "number": "EX-0000", "valid_from": self.day_of(0)}
        self.certificate = self.write(Certificate, range(1), lambda n: held)
        self.purchase_from = self.write(Purchase, purchases, self.purchase)
        self.write(PurchaseLine, range(len(purchases) * 2), self.purchase_line)
        days = range(max(1, self.count // FREE_DAY_EVERY))
        self.occasion_from = self.write(Occasion, days, self.free_day)
        self.write(OccasionDay, days, self.free_day_told)

    def project(self, n: int) -> dict[str, Any]:
        ends = self.day_of(n)
        became = {"what_it_became": "Forty mobiles hang in the hall.", "became_on": ends} if n % OPEN_EVERY else {}
        return {"title": f"Project {n}", "school_id": self.school_id, "ends_on": ends, **became}

    def grant(self, n: int) -> dict[str, Any]:
        bought = self.bought_on(n * CHARGED_EVERY)
        asked, answered, spend_by = (bought + timedelta(days=ahead) for ahead in (-90, -30, 60))
        later = {"claim_by": spend_by, "report_due": spend_by + timedelta(days=60)}
        over = n % OPEN_EVERY != 0 and spend_by <= self.day
        done = {"claimed_on": spend_by, "reported_on": spend_by, "leftover_settled": True} if over else {}
        return {
            "partner_id": self.who(n)["partner_id"], "school_id": self.school_id, "title": f"Grant {n}",
            "state": GrantState.AWARDED, "asked_cents": 50_000, "asked_on": asked, "answered_on": answered,
            "awarded_cents": 50_000, "buy_from": answered, "spend_by": spend_by,
            "spent_cents": self.item_cents(n * CHARGED_EVERY), **later, **done,
        }  # fmt: skip

    def hear_grantmakers(self) -> None:
        """There was word from them, besides what the rest of the book knows."""
        latest = last_heard(self.program)
        rows = list(self.program.partners.filter(grants__isnull=False).distinct())
        for row in rows:
            row.last_heard_on = latest[row.pk]
        Partner.objects.bulk_update(rows, ["last_heard_on"], batch_size=500)

    def grant_line(self, n: int) -> dict[str, Any]:
        spent = self.item_cents(n * CHARGED_EVERY)
        return {"grant_id": self.grant_from + n, "what": "clay", "planned_cents": 50_000, "spent_cents": spent}

    def thanks_for_grant(self, n: int) -> dict[str, Any]:
        base = self.bought_on(n * CHARGED_EVERY) - timedelta(days=30)
        due, late_from = thanks_dates(self.calendar, base, self.program.thank_within, self.program.thank_late)
        own = {"reason": ThanksFor.GRANT, "grant_id": self.grant_from + n, "base": base, "due": due}
        return {**own, "late_from": late_from, "done_on": due, "school_id": self.school_id, **self.who(n)}

    def bought_on(self, n: int) -> date:
        return self.day_of(n * PURCHASE_EVERY)

    def item_cents(self, n: int) -> int:
        return 1_500 + n * 37 % 9_000

    def tax_of(self, n: int) -> int:
        return expected_tax_cents([ReceiptLine(LineKind.ITEM, self.item_cents(n))], RATE, per_item=False)

    def is_own(self, n: int) -> bool:
        return n % CHARGED_EVERY != 0 and n % 2 == 1

    def charged(self, n: int) -> int:
        """Tax on the receipt: on own money always, and at times where the certificate should have spared it."""
        return self.tax_of(n) if self.is_own(n) or n % WRONG_EVERY == 0 else 0

    def purchase(self, n: int) -> dict[str, Any]:
        day, tax = self.bought_on(n), self.charged(n)
        told: dict[str, Any] = {
            "school_id": self.school_id, "vendor": "Tamarack Hardware", "what": f"supplies {n}", "slip_on": day,
            "bought_on": day, "state": "NJ", "tax_rate": RATE, "total_cents": self.item_cents(n) + tax,
            "tax_cents": tax, "claim_due": claim_day(day, None, self.program.fiscal_year_starts).day,
            "payer": Payer.OWN if self.is_own(n) else Payer.ORDER,
        }  # fmt: skip
        if n % CHARGED_EVERY == 0:
            told["grant_id"] = self.grant_from + n // CHARGED_EVERY
        if not self.is_own(n):
            told |= {"certificate_id": self.certificate, "tax_saved_cents": self.tax_of(n) - tax}
            wrong = {"tax_back_due": tax_back_day(day), "tax_let_go": n % STILL_WRONG_EVERY != 0} if tax else {}
            return told | wrong | self.handed_in(n, day)
        return told | self.handed_in(n, day)

    def handed_in(self, n: int, day: date) -> dict[str, Any]:
        if n % NOT_HANDED_IN_EVERY == 0:
            return {}
        handed_in = min(self.day, day + timedelta(days=10))
        if not self.is_own(n):
            return {"handed_in_on": handed_in}
        due = repay_day(handed_in, 30)
        repaid = (
            {"repaid_on": min(self.day, due), "repaid_cents": self.item_cents(n)} if n % NOT_HANDED_IN_EVERY > 1 else {}
        )
        return {"handed_in_on": handed_in, "repay_due": due, **repaid}

    def purchase_line(self, n: int) -> dict[str, Any]:
        """What was bought, and then the tax; where none was charged, a line of nothing."""
        purchase, place = divmod(n, 2)
        own = {"purchase_id": self.purchase_from + purchase, "position": place + 1}
        if place:
            return {**own, "kind": LineKind.TAX, "what": "tax", "cents": self.charged(purchase)}
        grant = purchase // CHARGED_EVERY if purchase % CHARGED_EVERY == 0 else None
        charged = {} if grant is None else {"grant_line_id": self.line_from + grant}
        return {**own, "kind": LineKind.ITEM, "what": "supplies", "cents": self.item_cents(purchase), **charged}

    def free_day(self, n: int) -> dict[str, Any]:
        first = self.held_on(n)
        row = Occasion(title=f"Free day {n}", rule=rule_of(rhythm_on(Every.YEAR_WEEKDAY, first)), first_on=first)
        days = kept_ready(row, [(first, self.told_on(n))])
        return {"title": row.title, "rule": row.rule, "first_on": first, **self.who(n), **days}

    def held_on(self, n: int) -> date:
        return self.day - timedelta(days=1 + n * 7919 % 360)

    def told_on(self, n: int) -> date | None:
        return self.day if n % OPEN_EVERY else None

    def free_day_told(self, n: int) -> dict[str, Any]:
        """Where nobody told of the last time, an earlier one is written down."""
        told_on = self.told_on(n)
        day = self.held_on(n) - timedelta(days=0 if told_on else 364)
        return {"occasion_id": self.occasion_from + n, "day": day, "got": "40 books", "told_on": told_on}
