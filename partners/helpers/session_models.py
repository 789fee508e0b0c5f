"""Sessions, who was asked, who came, for how long."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall
from partners.helpers.jobs import Job
from partners.helpers.models import Helper
from partners.helpers.show_models import JobCard, Show


class Session(Row):
    """An hour or an afternoon with helpers.

    `week_due` and `day_due` are school days, a week and a day before it; empty where it was planned later than that,
    and once who came is noted. `said_yes` counts the answers. `short_due` is the next of these days, or the day itself,
    while too few said yes; `thanks_due` the day itself, while somebody who came is not thanked.
    """

    day = models.DateField(_("day"))
    starts = models.TimeField(_("from"))
    ends = models.TimeField(_("until"))
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    place = models.CharField(_("place"), max_length=120)
    job = models.CharField(_("job"), max_length=14, choices=Job, default=Job.OTHER)
    card = models.ForeignKey(JobCard, verbose_name=_("job card"), null=True, blank=True, on_delete=models.PROTECT)
    show = models.ForeignKey(Show, verbose_name=_("show"), null=True, blank=True, on_delete=models.PROTECT)
    needed = models.PositiveSmallIntegerField(_("helpers needed"), default=2, validators=[MinValueValidator(1)])
    week_due = models.DateField(_("confirm a week before"), null=True, blank=True, editable=False)
    week_done_on = models.DateField(_("confirmed a week before"), null=True, blank=True, editable=False)
    day_due = models.DateField(_("confirm a day before"), null=True, blank=True, editable=False)
    day_done_on = models.DateField(_("confirmed a day before"), null=True, blank=True, editable=False)
    said_yes = models.PositiveSmallIntegerField(_("said yes"), default=0, editable=False)
    short_due = models.DateField(_("look for more by"), null=True, blank=True, editable=False)
    thanks_due = models.DateField(_("thank by"), null=True, blank=True, editable=False)
    counted_on = models.DateField(_("who came was noted on"), null=True, blank=True, editable=False)
    called_off_on = models.DateField(_("called off on"), null=True, blank=True, editable=False)

    class Meta:
        verbose_name = _("session")
        verbose_name_plural = _("sessions")
        default_related_name = "sessions"
        ordering = ["-day", "-starts", "-id"]
        constraints = [
            *wall("session", "school", "card", "show"),
            models.CheckConstraint(
                condition=Q(ends__gt=F("starts")),
                name="session_in_order",
                violation_error_message=_("It ends before it begins."),
            ),
            models.CheckConstraint(
                condition=~Q(place=""),
                name="session_has_place",
                violation_error_message=_("Say where the helpers shall come."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "-day", "-id"], name="session_latest"),
            models.Index(
                fields=["program", "week_due", "id"],
                name="session_week_due",
                condition=Q(week_due__isnull=False, week_done_on__isnull=True, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "day_due", "id"],
                name="session_day_due",
                condition=Q(day_due__isnull=False, day_done_on__isnull=True, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "short_due", "id"], name="session_short", condition=Q(short_due__isnull=False)
            ),
            models.Index(
                fields=["program", "thanks_due", "id"], name="session_thanks", condition=Q(thanks_due__isnull=False)
            ),
            models.Index(
                fields=["program", "day", "id"],
                name="session_to_count",
                condition=Q(counted_on__isnull=True, called_off_on__isnull=True),
            ),
        ]

    def __str__(self) -> str:
        return str(self.get_job_display())

    def get_absolute_url(self) -> str:
        return reverse("helpers:session-detail", args=[self.pk])

    @property
    def minutes(self) -> int:
        """How long it lasts."""
        return (self.ends.hour - self.starts.hour) * 60 + self.ends.minute - self.starts.minute


class Reply(models.TextChoices):
    SILENT = "silent", _("no answer yet")
    YES = "yes", _("yes")
    NO = "no", _("no")


class Turn(Row):
    """One helper in one session: asked, answered, came, for how long. `minutes` is the session's length unless put
    right; empty where they did not come.
    """

    session = models.ForeignKey(Session, on_delete=models.PROTECT)
    helper = models.ForeignKey(Helper, verbose_name=_("helper"), on_delete=models.PROTECT)
    reply = models.CharField(_("answer"), max_length=6, choices=Reply, default=Reply.SILENT)
    replied_on = models.DateField(_("answered on"), null=True, blank=True)
    came = models.BooleanField(_("came"), null=True, blank=True)
    minutes = models.PositiveSmallIntegerField(
        _("minutes"), null=True, blank=True, validators=[MaxValueValidator(24 * 60)]
    )
    thanked_on = models.DateField(_("thanked on"), null=True, blank=True)

    class Meta:
        verbose_name = _("helper in a session")
        default_related_name = "turns"
        ordering = ["session", "helper__name_key", "id"]
        constraints = [
            *wall("turn", "session", "helper"),
            models.UniqueConstraint(
                fields=["program", "session", "helper"],
                name="turn_once",
                violation_error_message=_("That helper is in this session already."),
            ),
            models.CheckConstraint(condition=Q(minutes=None) | Q(came=True), name="turn_only_who_came_has_minutes"),
        ]
        indexes = [models.Index(fields=["program", "helper", "session"], name="turn_helper")]

    def __str__(self) -> str:
        return str(self.helper)
