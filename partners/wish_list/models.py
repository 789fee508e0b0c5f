"""What the program needs, and what it cannot use."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall


class NeedState(models.TextChoices):
    OPEN = "open", _("open")
    ENOUGH = "enough", _("enough, thank you")


class NeedQuerySet(models.QuerySet["Need"]):
    def open(self) -> NeedQuerySet:
        return self.filter(state=NeedState.OPEN)


class Need(Row):
    """One thing the program needs. Without students and a share per student, `quantity` says how many."""

    what = models.CharField(_("what"), max_length=120)
    unit = models.CharField(_("unit"), max_length=40, blank=True, help_text=_("For example: sheets, pots, yards."))
    wanted = models.CharField(_("size and condition wanted"), max_length=160, blank=True)
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    students = models.PositiveIntegerField(_("students using it"), null=True, blank=True)
    hundredths_per_student = models.PositiveIntegerField(
        _("per student, in hundredths"), default=100, help_text=_("100 is one each; 50 is one for two.")
    )
    spare_percent = models.PositiveSmallIntegerField(_("spare (%)"), default=0, validators=[MaxValueValidator(100)])
    on_hand = models.PositiveIntegerField(_("on hand"), default=0)
    pack_size = models.PositiveIntegerField(_("comes in packs of"), default=1, validators=[MinValueValidator(1)])
    pack_cents = models.PositiveBigIntegerField(_("a pack costs about"), null=True, blank=True)
    smaller = models.CharField(_("a smaller alternative"), max_length=160, blank=True)
    needed_by = models.DateField(_("needed by"), null=True, blank=True)
    household = models.BooleanField(_("found in a household"), default=False)
    state = models.CharField(_("state"), max_length=8, choices=NeedState, default=NeedState.OPEN)

    objects = NeedQuerySet.as_manager()

    class Meta:
        verbose_name = _("need")
        verbose_name_plural = _("wish list")
        default_related_name = "needs"
        ordering = ["state", "needed_by", "id"]
        constraints = [
            *wall("need", "project", "school"),
            models.CheckConstraint(condition=Q(pack_size__gte=1), name="need_pack_has_one"),
        ]
        indexes = [models.Index(fields=["program", "state", "needed_by", "id"], name="need_open")]

    def __str__(self) -> str:
        return self.what

    def get_absolute_url(self) -> str:
        return reverse("wish_list:need-edit", args=[self.pk])


class CannotUse(Row):
    what = models.CharField(_("what we cannot use"), max_length=120)
    why = models.CharField(_("why"), max_length=160, blank=True)

    class Meta:
        verbose_name = _("thing we cannot use")
        default_related_name = "cannot_use"
        ordering = ["what", "id"]
        constraints = [*wall("cannotuse")]

    def __str__(self) -> str:
        return self.what
