"""Outings, visits, what was asked, and when to come back to it."""

from __future__ import annotations

from django.db import models
from django.db.models import Q
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall


class Outing(Row):
    """One afternoon's round of places."""

    day = models.DateField(_("day"))
    school = models.ForeignKey(
        "partners.School", verbose_name=_("for which school"), null=True, blank=True, on_delete=models.PROTECT
    )
    title = models.CharField(_("title"), max_length=120, blank=True)

    class Meta:
        verbose_name = _("outing")
        default_related_name = "outings"
        ordering = ["-day", "-id"]
        constraints = [*wall("outing", "school")]
        indexes = [models.Index(fields=["program", "-day", "-id"], name="outing_latest")]

    def __str__(self) -> str:
        return self.title or str(_("Outing on %(day)s") % {"day": date_format(self.day, "DATE_FORMAT")})

    def get_absolute_url(self) -> str:
        return reverse("asking:outing-detail", args=[self.pk])


class How(models.TextChoices):
    IN_PERSON = "in_person", _("in person")
    PHONE = "phone", _("by phone")
    EMAIL = "email", _("by e-mail")
    LETTER = "letter", _("by letter")
    EVENT = "event", _("at an event")


class Happened(models.TextChoices):
    YES = "yes", _("Yes")
    SOME = "some", _("Some of it")
    MAYBE = "maybe", _("Maybe")
    NO = "no", _("No")
    AWAY = "away", _("Who decides was away")
    OFFERED = "offered", _("They offered something")
    HELLO = "hello", _("Just hello")


class Visit(Row):
    """Being in touch once: by whom, how, with whom, and what came of it."""

    partner = models.ForeignKey("partners.Partner", verbose_name=_("where"), on_delete=models.PROTECT)
    day = models.DateField(_("day"))
    how = models.CharField(_("how"), max_length=10, choices=How, default=How.IN_PERSON)
    happened = models.CharField(_("what happened"), max_length=8, choices=Happened)
    contact = models.ForeignKey(
        "partners.Contact", verbose_name=_("whom I met"), null=True, blank=True, on_delete=models.PROTECT
    )
    sheet_left = models.BooleanField(_("sheet left"), default=False)
    note = models.TextField(
        _("note"), blank=True, help_text=_("Write what the owner may read; records can be requested.")
    )
    by = models.CharField(_("by"), max_length=120, blank=True)

    class Meta:
        verbose_name = _("visit")
        default_related_name = "visits"
        ordering = ["-day", "-id"]
        constraints = [*wall("visit", "partner", "contact")]
        indexes = [
            models.Index(fields=["program", "partner", "-day", "-id"], name="visit_latest"),
            models.Index(fields=["program", "-day", "-id"], name="visit_by_day"),
        ]

    def __str__(self) -> str:
        return f"{self.partner}, {date_format(self.day, 'DATE_FORMAT')}"

    def get_absolute_url(self) -> str:
        return reverse("asking:visit-saved", args=[self.pk])


class OutingStop(Row):
    """A place on an outing, with the verdict of "may I ask now?" as it was when planned."""

    outing = models.ForeignKey(Outing, on_delete=models.PROTECT, related_name="stops")
    partner = models.ForeignKey("partners.Partner", verbose_name=_("where"), on_delete=models.PROTECT)
    need = models.ForeignKey(
        "partners.Need", verbose_name=_("to ask for"), null=True, blank=True, on_delete=models.PROTECT
    )
    position = models.PositiveSmallIntegerField(_("order"))
    allowed = models.BooleanField(_("may ask"), default=True)
    verdict = models.JSONField(default=list, blank=True)
    visit = models.OneToOneField(Visit, null=True, blank=True, on_delete=models.PROTECT, related_name="stop")

    class Meta:
        verbose_name = _("place on an outing")
        default_related_name = "outing_stops"
        ordering = ["outing", "position", "id"]
        constraints = [
            *wall("outingstop", "outing", "partner", "need", "visit"),
            models.UniqueConstraint(fields=["outing", "partner"], name="outingstop_once"),
        ]

    def __str__(self) -> str:
        return str(self.partner)


class Answer(models.TextChoices):
    WAITING = "waiting", _("waiting")
    YES = "yes", _("yes")
    SOME = "some", _("some of it")
    NO = "no", _("no")
    NO_REPLY = "no_reply", _("no reply")


class AskQuerySet(models.QuerySet["Ask"]):
    def waiting(self) -> AskQuerySet:
        return self.filter(answer=Answer.WAITING)


class Ask(Row):
    """One thing asked of one partner, and the answer."""

    partner = models.ForeignKey("partners.Partner", verbose_name=_("of whom"), on_delete=models.PROTECT)
    visit = models.ForeignKey(Visit, verbose_name=_("visit"), null=True, blank=True, on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("for which school"), null=True, blank=True, on_delete=models.PROTECT
    )
    need = models.ForeignKey("partners.Need", verbose_name=_("need"), null=True, blank=True, on_delete=models.PROTECT)
    what = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    amount_cents = models.PositiveBigIntegerField(_("amount"), null=True, blank=True)
    approval = models.ForeignKey(
        "partners.Approval", verbose_name=_("approved by"), null=True, blank=True, on_delete=models.PROTECT
    )
    asked_on = models.DateField(_("asked on"))
    asked_by = models.CharField(_("asked by"), max_length=120, blank=True)
    needed_by = models.DateField(_("needed by"), null=True, blank=True)
    answer = models.CharField(_("answer"), max_length=8, choices=Answer, default=Answer.WAITING)
    answered_on = models.DateField(_("answered on"), null=True, blank=True)
    reason = models.CharField(_("reason"), max_length=200, blank=True)
    look_on = models.DateField(
        _("look after it on"), null=True, blank=True, help_text=_("Set while the ask waits and no follow-up is open.")
    )
    look_from = models.DateField(
        null=True, editable=False, help_text=_("That day is counted from here; empty where somebody named it.")
    )

    objects = AskQuerySet.as_manager()

    class Meta:
        verbose_name = _("ask")
        default_related_name = "asks"
        ordering = ["-asked_on", "-id"]
        constraints = [
            *wall("ask", "partner", "visit", "school", "need", "approval"),
            models.CheckConstraint(
                condition=Q(answer=Answer.WAITING, answered_on=None)
                | (~Q(answer=Answer.WAITING) & Q(answered_on__isnull=False, look_on=None)),
                name="ask_answered_has_day",
                violation_error_message=_("An answer needs its day."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "partner", "-asked_on", "-id"], name="ask_latest"),
            models.Index(fields=["program", "asked_on", "id"], name="ask_by_day"),
            models.Index(fields=["program", "look_on", "id"], name="ask_look", condition=Q(look_on__isnull=False)),
        ]

    def __str__(self) -> str:
        return self.what


class FollowUpQuerySet(models.QuerySet["FollowUp"]):
    def open(self) -> FollowUpQuerySet:
        return self.filter(done_on=None)


class FollowUp(Row):
    """Coming back to an ask: at most a first and a last one. Without an ask it is plain "go back"."""

    partner = models.ForeignKey("partners.Partner", verbose_name=_("with whom"), on_delete=models.PROTECT)
    ask = models.ForeignKey(Ask, verbose_name=_("about"), null=True, blank=True, on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    what = models.CharField(_("what to do"), max_length=160)
    number = models.PositiveSmallIntegerField(_("first or last"), default=1)
    named_day = models.BooleanField(_("they named the day"), default=False)
    due = models.DateField(_("due"))
    base = models.DateField(_("counted from"), help_text=_("The visit, or the follow-up before it."))
    done_on = models.DateField(_("done on"), null=True, blank=True)
    outcome = models.CharField(_("what came of it"), max_length=160, blank=True)

    objects = FollowUpQuerySet.as_manager()

    class Meta:
        verbose_name = _("follow-up")
        default_related_name = "follow_ups"
        ordering = ["due", "id"]
        constraints = [
            *wall("followup", "partner", "ask", "school"),
            models.UniqueConstraint(fields=["ask"], condition=Q(done_on=None), name="followup_one_open"),
        ]
        indexes = [
            models.Index(fields=["program", "due", "id"], name="followup_due", condition=Q(done_on__isnull=True)),
            models.Index(fields=["program", "partner", "due"], name="followup_partner"),
        ]

    def __str__(self) -> str:
        return self.what
