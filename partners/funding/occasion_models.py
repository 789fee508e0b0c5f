"""Free days: library sales, reuse centres, clear-outs, which come back by a rule."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from partners.funding.occasion_words import hours_words, rule_words
from partners.ground.models import Row
from partners.ground.wall import wall


class Occasion(Row):
    """A free-for-teachers day. `rule` is an RFC 5545 recurrence rule; without one it comes once.

    `next_on` is the next time, `confirm_by` four weeks before it; `confirmed_on` goes with that next time alone.
    """

    title = models.CharField(_("what it is"), max_length=120)
    partner = models.ForeignKey(
        "partners.Partner", verbose_name=_("whose"), null=True, blank=True, on_delete=models.PROTECT
    )
    place = models.CharField(_("place"), max_length=160, blank=True)
    rule = models.CharField(_("comes back"), max_length=200, blank=True)
    first_on = models.DateField(_("first on"))
    ends_on = models.DateField(_("until"), null=True, blank=True)
    opens_at = models.TimeField(_("from (hour)"), null=True, blank=True)
    closes_at = models.TimeField(_("to (hour)"), null=True, blank=True)
    bring = models.CharField(_("what to bring"), max_length=200, blank=True)
    limits = models.CharField(_("how many are free, other limits"), max_length=200, blank=True)
    proof = models.CharField(_("proof they want"), max_length=160, blank=True)
    told_by = models.CharField(_("who told us"), max_length=120, blank=True)
    next_on = models.DateField(_("next on"), null=True, blank=True, editable=False)
    confirm_by = models.DateField(_("confirm by"), null=True, blank=True, editable=False)
    confirmed_on = models.DateField(_("confirmed on"), null=True, blank=True)
    ended_on = models.DateField(_("no longer held since"), null=True, blank=True)

    class Meta:
        verbose_name = _("free day")
        verbose_name_plural = _("free days")
        default_related_name = "occasions"
        ordering = ["next_on", "id"]
        constraints = [
            *wall("occasion", "partner"),
            models.CheckConstraint(
                condition=Q(ends_on=None) | Q(ends_on__gte=F("first_on")),
                name="occasion_in_order",
                violation_error_message=_("It ends before it begins."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "next_on", "id"], name="occasion_next"),
            models.Index(fields=["program", "partner"], name="occasion_of_partner", condition=Q(partner__isnull=False)),
            models.Index(
                fields=["program", "confirm_by", "id"],
                name="occasion_to_confirm",
                condition=Q(confirm_by__isnull=False, confirmed_on__isnull=True, ended_on__isnull=True),
            ),
            models.Index(
                fields=["program", "next_on", "id"],
                name="occasion_to_go",
                condition=Q(next_on__isnull=False, ended_on__isnull=True),
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("funding:occasion-detail", args=[self.pk])

    @property
    def comes_back(self) -> str:
        return rule_words(self.rule)

    @property
    def hours(self) -> str:
        return hours_words(self.opens_at, self.closes_at)


class OccasionDay(Row):
    """One time it took place: whether we went, and what we got.

    `told_on` is set where this answered what was due: times up to that day are not asked about any more.
    """

    occasion = models.ForeignKey(Occasion, on_delete=models.PROTECT, related_name="days")
    day = models.DateField(_("day"))
    went = models.BooleanField(_("we went"), default=True)
    got = models.CharField(_("what we got"), max_length=300, blank=True)
    told_on = models.DateField(null=True, editable=False)

    class Meta:
        verbose_name = _("time of a free day")
        default_related_name = "occasion_days"
        ordering = ["-day", "-id"]
        constraints = [
            *wall("occasionday", "occasion"),
            models.UniqueConstraint(
                fields=["program", "occasion", "day"],
                name="occasionday_once",
                violation_error_message=_("That day is written down already."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.occasion}, {date_format(self.day, 'DATE_FORMAT')}"
