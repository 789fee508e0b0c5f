"""Job cards with what a helper must know about a school, and shows."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall
from partners.helpers.jobs import Job


class JobCard(Row):
    """Exactly what to do, on one page: at most seven steps."""

    job = models.CharField(_("job"), max_length=14, choices=Job, default=Job.OTHER)
    title = models.CharField(_("title"), max_length=120)
    steps = models.JSONField(_("steps"), default=list, help_text=_("At most seven."))
    with_what = models.CharField(_("with what"), max_length=300, blank=True)
    where_it_goes = models.CharField(_("where each thing goes"), max_length=300, blank=True)
    looks_done = models.CharField(_("what done looks like"), max_length=300, blank=True)
    cautions = models.JSONField(_("cautions"), default=list, blank=True)

    class Meta:
        verbose_name = _("job card")
        default_related_name = "job_cards"
        ordering = ["title", "id"]
        constraints = [
            *wall("jobcard"),
            models.UniqueConstraint(
                fields=["program", "title"],
                name="jobcard_title_once",
                violation_error_message=_("A card of that title is in the book already."),
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("helpers:card-edit", args=[self.pk])


class Welcome(Row):
    """What a helper must know about a school; printed on every job card there."""

    school = models.OneToOneField("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    sign_in = models.CharField(_("where to sign in"), max_length=200, blank=True)
    room = models.CharField(_("the art room is"), max_length=160, blank=True)
    toilet = models.CharField(_("toilet and water"), max_length=160, blank=True)
    exits = models.CharField(_("exits"), max_length=160, blank=True)
    whom_to_call = models.CharField(_("whom to call"), max_length=160, blank=True)
    at_office = models.CharField(
        _("what waits at the office on days nobody can greet them"),
        max_length=200,
        blank=True,
        help_text=_("Factory-sealed, label kept, nut-free."),
    )
    allergies = models.CharField(_("allergy care"), max_length=200, blank=True)
    rules = models.TextField(_("the school's rules for helpers"), blank=True)

    class Meta:
        verbose_name = _("welcome for helpers")
        default_related_name = "welcomes"
        constraints = [*wall("welcome", "school")]

    def __str__(self) -> str:
        return str(self.school)


class Show(Row):
    """A show to hang: how many works, when it opens, and what each job took in the end."""

    title = models.CharField(_("title"), max_length=120)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    place = models.CharField(_("place"), max_length=120, blank=True)
    opens_on = models.DateField(_("opens on"))
    opens_at = models.TimeField(_("hour"), null=True, blank=True)
    closes_on = models.DateField(_("taken down on"), null=True, blank=True)
    works = models.PositiveIntegerField(_("works"), validators=[MinValueValidator(1)])
    works_per_panel = models.PositiveSmallIntegerField(
        _("works on a panel"), default=12, validators=[MinValueValidator(1)]
    )
    first_timers_percent = models.PositiveSmallIntegerField(
        _("more time for first-timers (%)"), default=20, validators=[MaxValueValidator(200)]
    )
    helpers_at_once = models.PositiveSmallIntegerField(
        _("helpers in a session"), default=3, validators=[MinValueValidator(1)]
    )
    session_minutes = models.PositiveSmallIntegerField(
        _("minutes of a session"), default=60, validators=[MinValueValidator(15), MaxValueValidator(12 * 60)]
    )

    class Meta:
        verbose_name = _("show")
        verbose_name_plural = _("shows")
        default_related_name = "shows"
        ordering = ["-opens_on", "-id"]
        constraints = [
            *wall("show", "school", "project"),
            models.CheckConstraint(
                condition=Q(closes_on=None) | Q(closes_on__gte=F("opens_on")),
                name="show_in_order",
                violation_error_message=_("It is taken down before it opens."),
            ),
        ]
        indexes = [models.Index(fields=["program", "-opens_on", "-id"], name="show_latest")]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("helpers:show-detail", args=[self.pk])


class ShowJob(Row):
    """One job of a show: minutes a work as planned, in tenths, and what it really took."""

    show = models.ForeignKey(Show, on_delete=models.PROTECT, related_name="jobs")
    job = models.CharField(_("job"), max_length=14, choices=Job)
    tenths_per_work = models.PositiveSmallIntegerField(_("minutes a work, in tenths"))
    measured = models.BooleanField(
        _("from minutes written down"), default=False, help_text=_("First-timers were among them, so no time is added.")
    )
    works = models.PositiveIntegerField(_("works"))
    real_works = models.PositiveIntegerField(_("works that were done"), null=True, blank=True)
    real_minutes = models.PositiveIntegerField(_("minutes it took, all helpers together"), null=True, blank=True)

    class Meta:
        verbose_name = _("job of a show")
        default_related_name = "show_jobs"
        ordering = ["show", "id"]
        constraints = [
            *wall("showjob", "show"),
            models.UniqueConstraint(fields=["program", "show", "job"], name="showjob_once"),
            models.CheckConstraint(
                condition=Q(real_works=None, real_minutes=None) | Q(real_works__gte=1, real_minutes__isnull=False),
                name="showjob_real_together",
                violation_error_message=_("Say both: how many works were done, and the minutes it took."),
            ),
        ]
        indexes = [models.Index(fields=["program", "job"], name="showjob_job")]

    def __str__(self) -> str:
        return str(self.get_job_display())
