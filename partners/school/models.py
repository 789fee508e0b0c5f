"""Schools with their letterhead, calendar and rules for buying; classes."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.days import spelled
from partners.ground.models import Row
from partners.ground.wall import wall
from partners.school.class_words import grade_words


def monday_to_friday() -> list[int]:
    return [0, 1, 2, 3, 4]


def from_to(stretch: SchoolDays | LostLesson) -> str:
    return f"{spelled(stretch.first, 'DATE_FORMAT')} – {spelled(stretch.last, 'DATE_FORMAT')}"


class School(Row):
    NONE_CHOSEN = _("no school in particular")

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
    tax_rate = models.PositiveIntegerField(
        _("sales tax"), null=True, blank=True, help_text=_("In ten-thousandths of a percent: 6.875 % is 68750.")
    )
    tax_per_item = models.BooleanField(
        _("tax is rounded for each item"), default=False, help_text=_("Otherwise once for the whole receipt.")
    )
    claim_days = models.PositiveSmallIntegerField(
        _("hand in receipts within (days)"), null=True, blank=True, help_text=_("As the business office says.")
    )
    repay_days = models.PositiveSmallIntegerField(_("repaid within (days) of handing in"), default=30)
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
        return f"{self.title or self.get_kind_display()}: {from_to(self)}"


class SchoolClassQuerySet(models.QuerySet["SchoolClass"]):
    def with_students(self) -> SchoolClassQuerySet:
        """Those that count: a class that is gone but stands in old trades has none."""
        return self.filter(students__gt=0)


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

    objects = SchoolClassQuerySet.as_manager()

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
        return f"{self.title or self._meta.verbose_name}: {from_to(self)}"

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
