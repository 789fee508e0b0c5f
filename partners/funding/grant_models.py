"""Grants: what was asked and awarded, by which dates, for which lines, and who agreed to a change of one."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.days import spelled
from partners.ground.models import Row
from partners.ground.money import format_cents
from partners.ground.wall import wall


class GrantState(models.TextChoices):
    PLANNED = "planned", _("being written")
    ASKED = "asked", _("asked")
    AWARDED = "awarded", _("awarded")
    REFUSED = "refused", _("refused")


class GrantQuerySet(models.QuerySet["Grant"]):
    def going_on(self) -> GrantQuerySet:
        """Not refused, and its report not handed in yet."""
        return self.exclude(state=GrantState.REFUSED).filter(reported_on=None)

    def awarded(self) -> GrantQuerySet:
        return self.filter(state=GrantState.AWARDED)

    def to_accept(self) -> GrantQuerySet:
        return self.filter(accept_due__isnull=False, accepted_on=None)

    def with_money_left(self) -> GrantQuerySet:
        return self.awarded().filter(spent_cents__lt=F("awarded_cents"), leftover_settled=False)


class Grant(Row):
    """Money asked of one grantmaker for one purpose.

    `spent_cents` is the sum of what receipts charged to its lines. Dates are days on which the thing is still in time:
    nothing may be bought before `buy_from` or after `spend_by`.
    """

    partner = models.ForeignKey("partners.Partner", verbose_name=_("grantmaker"), on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    title = models.CharField(_("what for"), max_length=120)
    state = models.CharField(_("state"), max_length=8, choices=GrantState, default=GrantState.PLANNED)
    asked_cents = models.PositiveBigIntegerField(_("asked for"), null=True, blank=True)
    apply_by = models.DateField(_("apply by"), null=True, blank=True)
    asked_on = models.DateField(_("asked on"), null=True, blank=True)
    answer_by = models.DateField(_("answer expected by"), null=True, blank=True)
    answered_on = models.DateField(_("answered on"), null=True, blank=True)
    awarded_cents = models.PositiveBigIntegerField(_("awarded"), null=True, blank=True)
    refusal_reason = models.CharField(_("reason they gave"), max_length=300, blank=True)
    accept_by_whom = models.CharField(_("who must accept it"), max_length=120, blank=True, editable=False)
    accept_due = models.DateField(_("acceptance due"), null=True, blank=True, editable=False)
    accept_day_named = models.BooleanField(default=False, editable=False)
    accepted_on = models.DateField(_("accepted on"), null=True, blank=True, editable=False)
    conditions = models.TextField(_("conditions"), blank=True)
    buy_from = models.DateField(_("buy from"), null=True, blank=True)
    spend_by = models.DateField(_("spend by"), null=True, blank=True)
    claim_by = models.DateField(_("claim by"), null=True, blank=True)
    claimed_on = models.DateField(_("claimed on"), null=True, blank=True)
    report_due = models.DateField(_("report due"), null=True, blank=True)
    reported_on = models.DateField(_("reported on"), null=True, blank=True)
    spent_cents = models.BigIntegerField(_("spent"), default=0, editable=False)
    leftover_settled = models.BooleanField(_("what is left stays unspent"), default=False, editable=False)
    rest_back_on = models.DateField(_("the rest went back on"), null=True, blank=True, editable=False)
    note = models.TextField(_("note"), blank=True, help_text=_("Write what they may read; records can be requested."))

    objects = GrantQuerySet.as_manager()

    class Meta:
        verbose_name = _("grant")
        verbose_name_plural = _("grants")
        default_related_name = "grants"
        ordering = ["-created_at", "-id"]
        constraints = [
            *wall("grant", "partner", "school", "project"),
            models.CheckConstraint(
                condition=~Q(state="awarded") | Q(awarded_cents__isnull=False, awarded_cents__gt=0),
                name="grant_awarded_amount",
                violation_error_message=_("An awarded grant has an amount."),
            ),
            models.CheckConstraint(
                condition=Q(buy_from=None) | Q(spend_by=None) | Q(spend_by__gte=F("buy_from")),
                name="grant_spend_in_order",
                violation_error_message=_("The last day to spend lies before the first day to buy."),
            ),
            models.CheckConstraint(
                condition=Q(buy_from=None) | Q(claim_by=None) | Q(claim_by__gte=F("buy_from")),
                name="grant_claim_in_order",
                violation_error_message=_("The last day to claim lies before the first day to buy."),
            ),
            models.CheckConstraint(
                condition=Q(buy_from=None) | Q(report_due=None) | Q(report_due__gte=F("buy_from")),
                name="grant_report_in_order",
                violation_error_message=_("The report is due before anything may be bought."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "-created_at", "-id"], name="grant_latest"),
            models.Index(fields=["program", "partner"], name="grant_partner"),
            models.Index(
                fields=["program", "apply_by", "id"],
                name="grant_to_ask",
                condition=Q(apply_by__isnull=False, state="planned"),
            ),
            models.Index(
                fields=["program", "answer_by", "id"],
                name="grant_to_hear",
                condition=Q(answer_by__isnull=False, state="asked"),
            ),
            models.Index(
                fields=["program", "accept_due", "id"],
                name="grant_to_accept",
                condition=Q(accept_due__isnull=False, accepted_on__isnull=True),
            ),
            models.Index(
                fields=["program", "spend_by", "id"],
                name="grant_to_spend",
                condition=Q(
                    spend_by__isnull=False, state="awarded", leftover_settled=False, spent_cents__lt=F("awarded_cents")
                ),
            ),
            models.Index(
                fields=["program", "claim_by", "id"],
                name="grant_to_claim",
                condition=Q(claim_by__isnull=False, state="awarded", claimed_on__isnull=True),
            ),
            models.Index(
                fields=["program", "report_due", "id"],
                name="grant_to_report",
                condition=Q(report_due__isnull=False, state="awarded", reported_on__isnull=True),
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("funding:grant-detail", args=[self.pk])

    @property
    def left_cents(self) -> int:
        """What is still to spend; below zero where more was bought than awarded."""
        return (self.awarded_cents or 0) - self.spent_cents

    @property
    def rest_may_go_back(self) -> bool:
        """Money that they pay only on receipts was never here."""
        return self.claim_by is None and self.rest_back_on is None and self.left_cents > 0


class GrantLine(Row):
    """One thing the grant pays for, as planned when it was asked. `spent_cents` is what receipts charged to it."""

    grant = models.ForeignKey(Grant, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField(default=1)
    need = models.ForeignKey("partners.Need", verbose_name=_("need"), null=True, blank=True, on_delete=models.PROTECT)
    what = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    planned_cents = models.PositiveBigIntegerField(_("planned, with tax"), validators=[MinValueValidator(1)])
    shipping_cents = models.PositiveBigIntegerField(_("shipping"), default=0)
    spent_cents = models.BigIntegerField(_("spent"), default=0, editable=False)

    class Meta:
        verbose_name = _("line of a grant")
        default_related_name = "grant_lines"
        ordering = ["grant", "position", "id"]
        constraints = [*wall("grantline", "grant", "need")]

    def __str__(self) -> str:
        return self.what


class GrantChange(Row):
    """A change of a line that somebody at the grantmaker agreed to: other words, or money moved to another line."""

    grant = models.ForeignKey(Grant, on_delete=models.PROTECT, related_name="changes")
    line = models.ForeignKey(GrantLine, verbose_name=_("line"), on_delete=models.PROTECT, related_name="changes_from")
    to_line = models.ForeignKey(
        GrantLine,
        verbose_name=_("to the line"),
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="changes_to",
    )
    moved_cents = models.PositiveBigIntegerField(_("amount moved"), default=0)
    was = models.CharField(_("before"), max_length=160, blank=True)
    becomes = models.CharField(_("from now on"), max_length=160, blank=True)
    agreed_by = models.CharField(_("who agreed"), max_length=120)
    agreed_on = models.DateField(_("agreed on"))
    paper_held = models.CharField(_("where the paper lies"), max_length=120, blank=True)

    class Meta:
        verbose_name = _("change of a grant")
        default_related_name = "grant_changes"
        ordering = ["agreed_on", "id"]
        constraints = [
            *wall("grantchange", "grant", "line", "to_line"),
            models.CheckConstraint(
                condition=Q(moved_cents=0) | Q(to_line__isnull=False),
                name="grantchange_moves_an_amount",
                violation_error_message=_("Say both: how much is moved, and to which line."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.agreed_by}, {spelled(self.agreed_on, 'DATE_FORMAT')}"

    @property
    def words(self) -> str:
        """What changed: "clay becomes glaze", "$20.00 from tools to clay"."""
        parts = []
        if self.becomes:
            parts.append(gettext("%(was)s becomes %(becomes)s") % {"was": self.was, "becomes": self.becomes})
        if self.moved_cents and self.to_line is not None:
            facts = {"cents": format_cents(self.moved_cents), "line": self.line, "to": self.to_line}
            parts.append(gettext("%(cents)s from %(line)s to %(to)s") % facts)
        return ", ".join(parts)


class ReadyAnswer(Row):
    """An answer that every application asks for, kept to be used again: who we are, our numbers, our need."""

    question = models.CharField(_("question"), max_length=200)
    words = models.TextField(_("answer"))
    position = models.PositiveSmallIntegerField(default=1)

    class Meta:
        verbose_name = _("ready answer")
        default_related_name = "ready_answers"
        ordering = ["position", "id"]
        constraints = [
            *wall("readyanswer"),
            models.UniqueConstraint(
                fields=["program", "question"],
                name="readyanswer_once",
                violation_error_message=_("There is an answer to that question already."),
            ),
        ]

    def __str__(self) -> str:
        return self.question


class GrantAnswer(Row):
    """An answer as it stands in one application."""

    grant = models.ForeignKey(Grant, on_delete=models.PROTECT, related_name="answers")
    position = models.PositiveSmallIntegerField(default=1)
    question = models.CharField(_("question"), max_length=200)
    words = models.TextField(_("answer"), blank=True)

    class Meta:
        verbose_name = _("answer in an application")
        default_related_name = "grant_answers"
        ordering = ["grant", "position", "id"]
        constraints = [*wall("grantanswer", "grant")]

    def __str__(self) -> str:
        return self.question
