"""Schools with their letterhead, calendar and rules; classes; projects."""

from __future__ import annotations

from datetime import date

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall
from partners.school.class_words import grade_words


def monday_to_friday() -> list[int]:
    return [0, 1, 2, 3, 4]


class School(Row):
    name = models.CharField(_("name"), max_length=120)
    legal_name = models.CharField(
        _("legal name of the district"), max_length=160, blank=True, help_text=_("Who a gift belongs to by law.")
    )
    street = models.CharField(_("street"), max_length=160, blank=True)
    city = models.CharField(_("city"), max_length=80, blank=True)
    state = models.CharField(_("state"), max_length=40, blank=True)
    postal_code = models.CharField(_("ZIP code"), max_length=20, blank=True)
    phone = models.CharField(_("office phone"), max_length=40, blank=True)
    principal = models.CharField(_("principal"), max_length=120, blank=True)
    ein = models.CharField(_("EIN (the district's)"), max_length=20, blank=True)
    governmental = models.BooleanField(_("public school (a governmental unit)"), default=True)
    tax_line = models.CharField(
        _("tax line in the district's wording"),
        max_length=300,
        blank=True,
        help_text=_("Printed as typed on leave-behind sheets. Never a value."),
    )
    receipts_by = models.CharField(
        _("who issues receipts"), max_length=120, blank=True, help_text=_("For example: the business office.")
    )
    youngest_grade = models.SmallIntegerField(
        _("youngest grade"), default=0, validators=[MinValueValidator(-1), MaxValueValidator(12)]
    )
    weekdays = models.JSONField(_("school weekdays"), default=monday_to_friday, help_text=_("0 is Monday."))
    cycle_length = models.PositiveSmallIntegerField(_("days in the rotating cycle"), default=0)
    cycle_from = models.DateField(_("cycle day 1 falls on"), null=True, blank=True)
    cycle_slips = models.BooleanField(
        _("after an unplanned closure the cycle waits"), default=True, help_text=_("Otherwise that cycle day is lost.")
    )
    asking_needs_approval = models.BooleanField(_("asking needs the principal's approval"), default=True)

    class Meta:
        verbose_name = _("school")
        verbose_name_plural = _("schools")
        default_related_name = "schools"
        ordering = ["name", "id"]
        constraints = [
            *wall("school"),
            models.UniqueConstraint(
                fields=["program", "name"],
                name="school_name_once",
                violation_error_message=_("A school of that name is in the book already."),
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("school:school-detail", args=[self.pk])


class ClosureKind(models.TextChoices):
    CLOSED = "closed", _("Closed, planned")
    UNPLANNED = "unplanned", _("Closed, unplanned (snow, water, power)")
    YEAR = "year", _("School year: first and last day")


class SchoolDays(Row):
    """A stretch of days: closed, or the first and last day of a school year (what lies between years is closed)."""

    school = models.ForeignKey(School, verbose_name=_("school"), on_delete=models.PROTECT)
    kind = models.CharField(_("kind"), max_length=10, choices=ClosureKind, default=ClosureKind.CLOSED)
    first = models.DateField(_("first day"))
    last = models.DateField(_("last day"))
    title = models.CharField(_("what it is"), max_length=80, blank=True)

    class Meta:
        verbose_name = _("days in the school calendar")
        default_related_name = "school_days"
        ordering = ["first", "id"]
        constraints = [
            *wall("schooldays", "school"),
            models.CheckConstraint(
                condition=Q(last__gte=F("first")),
                name="schooldays_in_order",
                violation_error_message=_("The last day lies before the first."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.title or self.get_kind_display()}: {self.first} – {self.last}"


class SchoolClass(Row):
    """A class as a number of students; no child is ever a record."""

    school = models.ForeignKey(School, verbose_name=_("school"), on_delete=models.PROTECT)
    label = models.CharField(_("label"), max_length=40)
    grade = models.SmallIntegerField(_("grade"), validators=[MinValueValidator(-1), MaxValueValidator(12)])
    students = models.PositiveSmallIntegerField(_("students"))
    meets_on = models.JSONField(
        _("has art on"), default=list, blank=True, help_text=_("Weekdays (0 is Monday), or days of the school's cycle.")
    )
    minutes = models.PositiveSmallIntegerField(
        _("minutes of a lesson"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(600)],
    )

    class Meta:
        verbose_name = _("class")
        verbose_name_plural = _("classes")
        default_related_name = "classes"
        ordering = ["school", "grade", "label"]
        constraints = [
            *wall("schoolclass", "school"),
            models.UniqueConstraint(
                fields=["program", "school", "label"],
                name="schoolclass_label_once",
                violation_error_message=_("A class of that label is in the book already."),
            ),
        ]

    def __str__(self) -> str:
        return self.label


class LostLesson(Row):
    """Days on which school is open and these classes have no art: testing, an assembly, a trip.

    A class or a grade that is not named stands for all of them.
    """

    school = models.ForeignKey(School, verbose_name=_("school"), on_delete=models.PROTECT)
    school_class = models.ForeignKey(
        SchoolClass, verbose_name=_("class"), null=True, blank=True, on_delete=models.PROTECT
    )
    grade = models.SmallIntegerField(
        _("grade"), null=True, blank=True, validators=[MinValueValidator(-1), MaxValueValidator(12)]
    )
    first = models.DateField(_("first day"))
    last = models.DateField(_("last day"))
    title = models.CharField(_("what it is"), max_length=80, blank=True, help_text=_("For example: state testing."))

    class Meta:
        verbose_name = _("lost lessons")
        verbose_name_plural = _("lost lessons")
        default_related_name = "lost_lessons"
        ordering = ["first", "id"]
        constraints = [
            *wall("lostlesson", "school", "school_class"),
            models.CheckConstraint(
                condition=Q(last__gte=F("first")),
                name="lostlesson_in_order",
                violation_error_message=_("The last day lies before the first."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.title or self._meta.verbose_name}: {self.first} – {self.last}"

    def concerns(self, school_class: SchoolClass) -> bool:
        return (
            self.school_id == school_class.school_id
            and self.school_class_id in (None, school_class.pk)
            and self.grade in (None, school_class.grade)
        )

    @property
    def whom(self) -> str:
        """Which classes have no art then."""
        if self.school_class is not None:
            return self.school_class.label
        return grade_words(self.grade) or gettext("all classes")


class Project(Row):
    """What the goods are for, and afterwards what they became: one sentence that thanks and reports use."""

    title = models.CharField(_("title"), max_length=120)
    school = models.ForeignKey(School, verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT)
    students = models.PositiveIntegerField(_("students"), null=True, blank=True)
    shown_on = models.DateField(_("to be seen from"), null=True, blank=True)
    what_it_became = models.CharField(
        _("what it became"),
        max_length=300,
        blank=True,
        help_text=_("One sentence for the people who gave, with no child's name."),
    )
    became_on = models.DateField(null=True, blank=True, editable=False)

    class Meta:
        verbose_name = _("project")
        default_related_name = "projects"
        ordering = ["title", "id"]
        constraints = [
            *wall("project", "school"),
            models.CheckConstraint(
                condition=Q(what_it_became="", became_on=None) | (~Q(what_it_became="") & Q(became_on__isnull=False)),
                name="project_became_on_a_day",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def told_of(self, day: date) -> str:
        """What became of something that came on `day`; nothing where the sentence was there before it came."""
        return self.what_it_became if self.became_on is not None and day <= self.became_on else ""

    def get_absolute_url(self) -> str:
        return reverse("school:project-edit", args=[self.pk])


class ApprovalFor(models.TextChoices):
    ASKING = "asking", _("asking in the community")
    LETTERS_HOME = "letters_home", _("letters home")
    HELPERS = "helpers", _("helpers in the building")
    DISPLAYS = "displays", _("displays outside school")
    TRADES = "trades", _("trades for student-decorated items")


class ApprovalQuerySet(models.QuerySet["Approval"]):
    def valid_on(self, day: date, what_for: str = ApprovalFor.ASKING) -> ApprovalQuerySet:
        return self.filter(Q(until=None) | Q(until__gte=day), what_for=what_for, on__lte=day)


class Approval(Row):
    """Somebody in authority said yes: to what, when, until when, and where the paper lies."""

    school = models.ForeignKey(School, verbose_name=_("school"), on_delete=models.PROTECT)
    what_for = models.CharField(_("what for"), max_length=12, choices=ApprovalFor, default=ApprovalFor.ASKING)
    by = models.CharField(_("approved by"), max_length=120)
    on = models.DateField(_("approved on"))
    until = models.DateField(_("until"), null=True, blank=True)
    paper_held = models.CharField(_("where the paper lies"), max_length=120, blank=True)
    renewed = models.BooleanField(_("followed by another, or not needed again"), default=False, editable=False)

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
                fields=["program", "until", "id"],
                name="approval_ends",
                condition=Q(until__isnull=False, renewed=False),
            )
        ]

    def __str__(self) -> str:
        return f"{self.get_what_for_display()}: {self.by}, {self.on}"


class AcceptanceRule(Row):
    """From which value of a gift somebody else must accept it, and on which form."""

    school = models.ForeignKey(School, verbose_name=_("school"), on_delete=models.PROTECT)
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
