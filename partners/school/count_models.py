"""How many classes and students a school had at the end of a school year: numbers alone, kept before classes change."""

from __future__ import annotations

from django.db import models
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall
from partners.ground.years import name_of
from partners.school.school_years import JULY


class ClassCount(Row):
    school = models.ForeignKey("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    year = models.PositiveSmallIntegerField(_("school year that began in"))
    classes = models.PositiveSmallIntegerField(_("classes"))
    students = models.PositiveIntegerField(_("students"))

    class Meta:
        verbose_name = _("number of students of a school year")
        verbose_name_plural = _("numbers of students of school years")
        default_related_name = "class_counts"
        ordering = ["school", "year"]
        constraints = [
            *wall("classcount", "school"),
            models.UniqueConstraint(
                fields=["program", "school", "year"],
                name="classcount_once",
                violation_error_message=_("The number of students of that school year is in the book already."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.school}, {self.called}"

    @property
    def called(self) -> str:
        """The school year, by the calendar years it lies in."""
        return name_of(self.year, JULY)

    def get_absolute_url(self) -> str:
        return reverse("school:count-edit", args=[self.pk])
