"""People who help: what their slip says, what they have at home."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.fields import KeyField
from partners.ground.models import Row
from partners.ground.wall import wall


class SlipBatch(Row):
    """A stack of tear-off slips that was typed in one go; the number is written on the stack."""

    number = models.PositiveIntegerField(_("number of the stack"))
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    day = models.DateField(_("typed on"))

    class Meta:
        verbose_name = _("stack of slips")
        verbose_name_plural = _("stacks of slips")
        default_related_name = "slip_batches"
        ordering = ["-number"]
        constraints = [
            *wall("slipbatch", "school"),
            models.UniqueConstraint(
                fields=["program", "number"],
                name="slipbatch_number_once",
                violation_error_message=_("A stack of that number is in the book already."),
            ),
        ]

    def __str__(self) -> str:
        return str(_("Stack %(number)s") % {"number": self.number})


class BestWay(models.TextChoices):
    PHONE = "phone", _("call")
    TEXT = "text", _("text message")
    EMAIL = "email", _("e-mail")
    NOTE = "note", _("a note home")


class HelperQuerySet(models.QuerySet["Helper"]):
    def active(self) -> HelperQuerySet:
        """Who may be asked: the slip could be read, and they neither stopped nor wanted to be forgotten."""
        return self.filter(unreadable=False, stopped_on=None, forgotten_on=None)

    def not_yet_called(self) -> HelperQuerySet:
        return self.active().filter(first_called_on=None)

    def to_read(self) -> HelperQuerySet:
        return self.filter(unreadable=True, forgotten_on=None)

    def cleared_on(self, day: date) -> HelperQuerySet:
        return self.filter(Q(cleared_until=None) | Q(cleared_until__gte=day), cleared=True)


class Helper(Row):
    """A volunteer as their slip says it. Clearance is only yes, until when, and who confirmed it; never a paper.

    Somebody forgotten keeps the row, empty of everything that tells who it was, so that counts and hours stay.
    """

    name = models.CharField(_("name"), max_length=120, blank=True)
    name_key = KeyField()
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    room = models.CharField(
        _("child's class or room"), max_length=40, blank=True, help_text=_("The class or room only, never a child.")
    )
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    phone_key = KeyField()
    email = models.EmailField(_("e-mail"), blank=True)
    best_way = models.CharField(_("best way to reach"), max_length=5, choices=BestWay, blank=True)
    language = models.CharField(_("language"), max_length=40, blank=True)
    at_school = models.BooleanField(_("can help at school"), default=False)
    from_home = models.BooleanField(_("can help from home"), default=False)
    show_day = models.BooleanField(_("can help on show day"), default=False)
    days = models.JSONField(_("days"), default=list, blank=True, help_text=_("0 is Monday."))
    times = models.CharField(_("times"), max_length=80, blank=True)
    how_often = models.CharField(_("how often"), max_length=40, blank=True)
    skills = models.CharField(_("skills"), max_length=200, blank=True)
    jobs = models.JSONField(_("jobs"), default=list, blank=True)
    knows_rules = models.BooleanField(_("understands the office's sign-in rules"), default=False)
    batch = models.ForeignKey(SlipBatch, verbose_name=_("stack"), null=True, blank=True, on_delete=models.PROTECT)
    place_in_batch = models.PositiveSmallIntegerField(_("slip"), null=True, blank=True)
    unreadable = models.BooleanField(_("cannot be read yet"), default=False)
    first_called_on = models.DateField(_("called on"), null=True, blank=True)
    cleared = models.BooleanField(_("cleared"), default=False)
    cleared_until = models.DateField(_("cleared until"), null=True, blank=True)
    cleared_by = models.CharField(_("confirmed by"), max_length=120, blank=True)
    stopped_on = models.DateField(_("no longer helping since"), null=True, blank=True)
    forgotten_on = models.DateField(_("forgotten on"), null=True, blank=True, editable=False)
    note = models.TextField(
        _("note"), blank=True, help_text=_("Write what the person may read; records can be requested.")
    )

    objects = HelperQuerySet.as_manager()

    class Meta:
        verbose_name = _("helper")
        verbose_name_plural = _("helpers")
        default_related_name = "helpers"
        ordering = ["name_key", "id"]
        constraints = [
            *wall("helper", "school", "batch"),
            models.CheckConstraint(
                condition=~Q(name="") | Q(unreadable=True) | Q(forgotten_on__isnull=False),
                name="helper_has_name",
                violation_error_message=_("Type the name, or mark the slip as not readable yet."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "name_key", "id"], name="helper_by_name"),
            models.Index(
                fields=["program", "cleared_until", "id"],
                name="helper_clearance",
                condition=Q(
                    cleared_until__isnull=False, cleared=True, stopped_on__isnull=True, forgotten_on__isnull=True
                ),
            ),
            models.Index(
                fields=["program", "id"],
                name="helper_to_call",
                condition=Q(
                    first_called_on__isnull=True,
                    unreadable=False,
                    stopped_on__isnull=True,
                    forgotten_on__isnull=True,
                ),
            ),
            models.Index(fields=["program", "batch", "place_in_batch"], name="helper_of_batch"),
        ]

    def __str__(self) -> str:
        return self.name or str(_("a helper"))

    def get_absolute_url(self) -> str:
        return reverse("helpers:helper-detail", args=[self.pk])

    def is_cleared_on(self, day: date) -> bool:
        return self.cleared and (self.cleared_until is None or self.cleared_until >= day)


class Kit(Row):
    """Work taken home: out, due, back."""

    helper = models.ForeignKey(Helper, verbose_name=_("helper"), on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    what = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    out_on = models.DateField(_("taken home on"))
    due = models.DateField(_("back by"))
    back_on = models.DateField(_("back on"), null=True, blank=True)
    quantity_back = models.PositiveIntegerField(_("how many came back"), null=True, blank=True)
    minutes = models.PositiveSmallIntegerField(_("minutes it took"), null=True, blank=True)
    thanked_on = models.DateField(_("thanked on"), null=True, blank=True)

    class Meta:
        verbose_name = _("kit at home")
        verbose_name_plural = _("kits at home")
        default_related_name = "kits"
        ordering = ["-out_on", "-id"]
        constraints = [
            *wall("kit", "helper", "school"),
            models.CheckConstraint(
                condition=Q(due__gte=F("out_on")),
                name="kit_in_order",
                violation_error_message=_("It is due back before it went out."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "due", "id"], name="kit_due", condition=Q(back_on__isnull=True)),
            models.Index(fields=["program", "helper", "-out_on"], name="kit_helper"),
        ]

    def __str__(self) -> str:
        return self.what
