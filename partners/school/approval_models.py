"""Who must say yes to what: approvals that were given, and each school's procedures."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from partners.ground.days import spelled
from partners.ground.models import Row
from partners.ground.wall import wall


class ApprovalFor(models.TextChoices):
    ASKING = "asking", _("asking in the community")
    LETTERS_HOME = "letters_home", _("letters home")
    HELPERS = "helpers", _("helpers in the building")
    DISPLAYS = "displays", _("displays outside school")
    TRADES = "trades", _("trades for student-decorated items")
    GRANTS = "grants", _("applying for grants")
    BUYING = "buying", _("buying")
    GIFTS = "gifts", _("accepting gifts")
    PROJECTS = "projects", _("projects with other subjects")
    PICTURES = "pictures", _("pictures of children's work")


class ApprovalQuerySet(models.QuerySet["Approval"]):
    def valid_on(self, day: date, what_for: str = ApprovalFor.ASKING) -> ApprovalQuerySet:
        return self.holding_on(day).filter(what_for=what_for, on__lte=day)

    def holding_on(self, day: date) -> ApprovalQuerySet:
        """Neither over nor lapsed, to whatever they are; also those that begin later."""
        return self.filter(Q(until=None) | Q(until__gte=day), Q(lapsed_on=None) | Q(lapsed_on__gt=day))

    def may_lapse(self, day: date) -> ApprovalQuerySet:
        """What holds, and what has ended and is asked for again: both go with who gave them."""
        return self.holding_on(day) | self.filter(ask_on__isnull=False, lapsed_on__isnull=True, renewed=False)


class Approval(Row):
    """Somebody in authority said yes: to what, when, until when, and where the paper lies.

    It lapses with the person who gave it: from `lapsed_on` on it no longer counts. `ask_on` is the day on which to ask
    again: as many school days before its end as the school's procedure says.
    """

    school = models.ForeignKey("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    what_for = models.CharField(_("what for"), max_length=12, choices=ApprovalFor, default=ApprovalFor.ASKING)
    by = models.CharField(_("approved by"), max_length=120)
    on = models.DateField(_("approved on"))
    until = models.DateField(_("until"), null=True, blank=True)
    paper_held = models.CharField(_("where the paper lies"), max_length=120, blank=True)
    renewed = models.BooleanField(_("followed by another, or not needed again"), default=False, editable=False)
    lapsed_on = models.DateField(_("lapsed on"), null=True, blank=True, editable=False)
    ask_on = models.DateField(_("ask again on"), null=True, blank=True, editable=False)

    objects = ApprovalQuerySet.as_manager()

    class Meta:
        verbose_name = _("approval")
        default_related_name = "approvals"
        ordering = ["-on", "-id"]
        constraints = [
            *wall("approval", "school"),
            models.CheckConstraint(
                condition=Q(until=None) | Q(until__gte=F("on")),
                name="approval_in_order",
                violation_error_message=_("It ends before it begins."),
            ),
        ]
        indexes = [
            models.Index(
                fields=["program", "ask_on", "id"],
                name="approval_ends",
                condition=Q(ask_on__isnull=False, lapsed_on__isnull=True, renewed=False),
            ),
            models.Index(
                fields=["program", "lapsed_on", "id"],
                name="approval_lapsed",
                condition=Q(lapsed_on__isnull=False, renewed=False),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_what_for_display()}: {self.by}, {spelled(self.on, 'DATE_FORMAT')}"

    def counts_on(self, day: date) -> bool:
        """As `valid_on` finds it."""
        ended = self.until is not None and self.until < day
        return self.on <= day and not ended and (self.lapsed_on is None or self.lapsed_on > day)


class Procedure(Row):
    """What needs whose yes at a school, how many days ahead, on which form; once a year or each time."""

    school = models.ForeignKey("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    what_for = models.CharField(_("what for"), max_length=12, choices=ApprovalFor, default=ApprovalFor.ASKING)
    who = models.CharField(_("who must say yes"), max_length=120)
    form = models.CharField(_("on which form"), max_length=120, blank=True)
    days_ahead = models.PositiveSmallIntegerField(_("school days ahead"), null=True, blank=True)
    each_time = models.BooleanField(_("anew each time"), default=False, help_text=_("Otherwise one yes stands."))
    how = models.CharField(_("how it goes"), max_length=300, blank=True)

    class Meta:
        verbose_name = _("procedure")
        default_related_name = "procedures"
        ordering = ["school", "what_for", "id"]
        constraints = [
            *wall("procedure", "school"),
            models.UniqueConstraint(
                fields=["program", "school", "what_for"],
                name="procedure_once",
                violation_error_message=_("How that goes at this school is written down already."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_what_for_display()}: {self.who}"


class AcceptanceRule(Row):
    """From which value of a gift somebody else must accept it, and on which form."""

    school = models.ForeignKey("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    from_cents = models.PositiveBigIntegerField(_("from this value"))
    who = models.CharField(_("who decides"), max_length=120)
    form = models.CharField(_("on which form"), max_length=120, blank=True)

    class Meta:
        verbose_name = _("acceptance rule")
        default_related_name = "acceptance_rules"
        ordering = ["school", "from_cents"]
        constraints = [
            *wall("acceptancerule", "school"),
            models.UniqueConstraint(
                fields=["program", "school", "from_cents"],
                name="acceptancerule_once",
                violation_error_message=_("There is a rule from that value already."),
            ),
        ]

    def __str__(self) -> str:
        return self.who
