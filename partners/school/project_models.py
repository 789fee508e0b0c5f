"""Projects: what goods and money are for, who shares the work, and afterwards what it became."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.db.models import F, Q, Sum
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall


class Project(Row):
    """What the goods are for, perhaps with a colleague's subject, and afterwards what they became.

    What it became is a sentence, a count and pictures; thanks, reports and year-end notes use it. It is asked once,
    when the project ends; `nothing_to_tell` closes that question without a sentence.
    """

    title = models.CharField(_("title"), max_length=120)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    about = models.CharField(_("what the children make and learn"), max_length=300, blank=True)
    colleague = models.ForeignKey(
        "partners.Partner", verbose_name=_("colleague"), null=True, blank=True, on_delete=models.PROTECT
    )
    subject = models.CharField(_("the colleague's subject"), max_length=80, blank=True)
    invited_on = models.DateField(_("invited on"), null=True, blank=True)
    students = models.PositiveIntegerField(_("students"), null=True, blank=True)
    begins_on = models.DateField(_("begins on"), null=True, blank=True)
    ends_on = models.DateField(_("ends on"), null=True, blank=True)
    shown_on = models.DateField(_("to be seen from"), null=True, blank=True)
    what_it_became = models.CharField(
        _("what it became"),
        max_length=300,
        blank=True,
        help_text=_("One sentence for the people who gave, with no child's name."),
    )
    became_on = models.DateField(null=True, blank=True, editable=False)
    became_count = models.PositiveIntegerField(_("how many works"), null=True, blank=True)
    nothing_to_tell = models.BooleanField(_("nothing to tell"), default=False, editable=False)

    class Meta:
        verbose_name = _("project")
        default_related_name = "projects"
        ordering = ["title", "id"]
        constraints = [
            *wall("project", "school", "colleague"),
            models.CheckConstraint(
                condition=Q(what_it_became="", became_on=None) | (~Q(what_it_became="") & Q(became_on__isnull=False)),
                name="project_became_on_a_day",
            ),
            models.CheckConstraint(
                condition=Q(begins_on=None) | Q(ends_on=None) | Q(ends_on__gte=F("begins_on")),
                name="project_in_order",
                violation_error_message=_("It ends before it begins."),
            ),
        ]
        indexes = [
            models.Index(
                fields=["program", "ends_on", "id"],
                name="project_to_tell",
                condition=Q(ends_on__isnull=False, what_it_became="", nothing_to_tell=False),
            )
        ]

    def __str__(self) -> str:
        return self.title

    def told_of(self, day: date) -> str:
        """What became of something that came on `day`; nothing where the sentence was there before it came."""
        return self.what_it_became if self.became_on is not None and day <= self.became_on else ""

    def children(self) -> int | None:
        """How many take part: as it was typed, else as many as its classes have."""
        if self.students is not None or not self.pk:
            return self.students
        counted: int | None = self.classes.aggregate(all=Sum("school_class__students"))["all"]
        return counted

    def get_absolute_url(self) -> str:
        return reverse("school:project-detail", args=[self.pk])


class ProjectClass(Row):
    """A class that takes part in a project."""

    project = models.ForeignKey(Project, on_delete=models.PROTECT, related_name="classes")
    school_class = models.ForeignKey("partners.SchoolClass", verbose_name=_("class"), on_delete=models.PROTECT)

    class Meta:
        verbose_name = _("class in a project")
        verbose_name_plural = _("classes in a project")
        default_related_name = "project_classes"
        ordering = ["school_class__school", "school_class__grade", "school_class__label"]
        constraints = [
            *wall("projectclass", "project", "school_class"),
            models.UniqueConstraint(
                fields=["program", "project", "school_class"],
                name="projectclass_once",
                violation_error_message=_("That class takes part already."),
            ),
        ]

    def __str__(self) -> str:
        return str(self.school_class)


class PartBy(models.TextChoices):
    US = "us", _("I")
    COLLEAGUE = "colleague", _("my colleague")


class Does(models.TextChoices):
    BRINGS = "brings", _("brings")
    TEACHES = "teaches", _("teaches")


class ProjectPart(Row):
    """What one of the two brings or teaches, by when."""

    project = models.ForeignKey(Project, on_delete=models.PROTECT, related_name="parts")
    position = models.PositiveSmallIntegerField(default=1)
    by = models.CharField(_("who"), max_length=9, choices=PartBy, default=PartBy.US)
    does = models.CharField(_("does what"), max_length=7, choices=Does, default=Does.BRINGS)
    what = models.CharField(_("what"), max_length=160)
    due = models.DateField(_("by"), null=True, blank=True)
    done_on = models.DateField(_("done on"), null=True, blank=True)

    class Meta:
        verbose_name = _("part of a project")
        verbose_name_plural = _("parts of a project")
        default_related_name = "project_parts"
        ordering = ["project", "position", "id"]
        constraints = [*wall("projectpart", "project")]
        indexes = [
            models.Index(
                fields=["program", "due", "id"],
                name="projectpart_due",
                condition=Q(due__isnull=False, done_on__isnull=True),
            )
        ]

    def __str__(self) -> str:
        return self.what
