"""Trades: student-decorated items for goods, shared over classes, with a promise of each side."""

from __future__ import annotations

from datetime import date

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Exists, F, OuterRef, Q
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from partners.exchanges.plain_items import plain_needed
from partners.ground.models import Row
from partners.ground.wall import wall
from partners.promises.models import Part, Promise, Side


def _owed() -> Exists:
    return Exists(Promise.objects.open().filter(trade=OuterRef("pk"), program=OuterRef("program")))


class TradeQuerySet(models.QuerySet["Trade"]):
    def going_on(self) -> TradeQuerySet:
        """Agreed and not called off; some of these are settled."""
        return self.filter(called_off_on=None)

    def with_something_open(self) -> TradeQuerySet:
        """One side or the other still owes its part."""
        return self.going_on().filter(_owed())

    def settled(self) -> TradeQuerySet:
        """Both sides did all of it, or said that it was all."""
        return self.going_on().exclude(_owed())

    def called_off(self) -> TradeQuerySet:
        return self.filter(called_off_on__isnull=False)


class Trade(Row):
    """What was agreed with one partner. How many, by when and what came stands in the promises of both sides.

    One promise is `Part.MAKE` (ours), one `Part.PLAIN` where plain items are supplied (by either side), and every
    thing they give is one `Part.GIVE`.
    """

    partner = models.ForeignKey("partners.Partner", verbose_name=_("with"), on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    visit = models.ForeignKey(
        "partners.Visit", verbose_name=_("agreed at"), null=True, blank=True, on_delete=models.PROTECT
    )
    approval = models.ForeignKey(
        "partners.Approval", verbose_name=_("approved by"), null=True, blank=True, on_delete=models.PROTECT
    )
    agreed_on = models.DateField(_("agreed on"))
    what = models.CharField(_("what we make"), max_length=120, help_text=_("For example: decorated paper bags."))
    size = models.CharField(_("size"), max_length=80, blank=True)
    materials = models.CharField(_("materials"), max_length=160, blank=True)
    spare_percent = models.PositiveSmallIntegerField(
        _("spare plain items (%)"), default=10, validators=[MaxValueValidator(100)]
    )
    minutes_per_item = models.PositiveSmallIntegerField(
        _("minutes for one item"), default=20, validators=[MinValueValidator(1), MaxValueValidator(600)]
    )
    finishing_days = models.PositiveSmallIntegerField(
        _("school days for drying and packing"), default=2, validators=[MaxValueValidator(60)]
    )
    lesson_limit = models.PositiveSmallIntegerField(
        _("at most this many lessons per class and year"), null=True, blank=True
    )
    minimum = models.PositiveSmallIntegerField(_("at least this many per class"), default=0)
    names_on_work = models.CharField(
        _("written on the work"),
        max_length=160,
        blank=True,
        help_text=_("For example: school and grade. Never a child's last name."),
    )
    display_from = models.DateField(_("on show from"), null=True, blank=True)
    shown_on = models.DateField(_("put on show on"), null=True, blank=True)
    display_until = models.DateField(_("taken down by"), null=True, blank=True)
    taken_down_on = models.DateField(_("taken down on"), null=True, blank=True)
    afterwards = models.CharField(_("what happens to the work afterwards"), max_length=160, blank=True)
    if_late = models.CharField(_("if something is late"), max_length=200, blank=True)
    papers_due = models.DateField(_("approval and memo by"), null=True, blank=True)
    approval_settled = models.BooleanField(_("approved, or no approval needed"), default=False)
    memo_signed_on = models.DateField(_("memo signed on"), null=True, blank=True)
    called_off_on = models.DateField(_("called off on"), null=True, blank=True)
    note = models.TextField(
        _("note"), blank=True, help_text=_("Write what the owner may read; records can be requested.")
    )

    objects = TradeQuerySet.as_manager()

    class Meta:
        verbose_name = _("trade")
        verbose_name_plural = _("trades")
        default_related_name = "trades"
        ordering = ["-agreed_on", "-id"]
        constraints = [
            *wall("trade", "partner", "school", "project", "visit", "approval"),
            models.CheckConstraint(
                condition=Q(display_until=None) | Q(display_from=None) | Q(display_until__gte=F("display_from")),
                name="trade_display_in_order",
                violation_error_message=_("It is taken down before it is put up."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "-agreed_on", "-id"], name="trade_latest"),
            models.Index(fields=["program", "partner", "-agreed_on", "-id"], name="trade_partner"),
            models.Index(
                fields=["program", "papers_due", "id"],
                name="trade_approval_due",
                condition=Q(papers_due__isnull=False, approval_settled=False, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "papers_due", "id"],
                name="trade_memo_due",
                condition=Q(papers_due__isnull=False, memo_signed_on__isnull=True, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "display_from", "id"],
                name="trade_to_show",
                condition=Q(display_from__isnull=False, shown_on__isnull=True, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "display_until", "id"],
                name="trade_to_take_down",
                condition=Q(display_until__isnull=False, taken_down_on__isnull=True, called_off_on__isnull=True),
            ),
        ]

    def __str__(self) -> str:
        return self.what

    def get_absolute_url(self) -> str:
        return reverse("exchanges:trade-detail", args=[self.pk])

    def side(self, part: str) -> list[Promise]:
        """The promises of one part, by their days."""
        return [promise for promise in self.promises.all() if promise.part == part]

    @property
    def make(self) -> Promise:
        """What we make."""
        return self.side(Part.MAKE)[0]

    @property
    def plain(self) -> Promise | None:
        """The plain items, where the trade has any."""
        return next(iter(self.side(Part.PLAIN)), None)

    @property
    def spares_included(self) -> bool:
        """Whether so many plain items are supplied as items are made, and the spares; else their number was said."""
        needed = plain_needed(self.make.at_most or self.make.quantity or 0, self.spare_percent)
        return self.plain is not None and self.plain.quantity == needed

    @property
    def went_back(self) -> int:
        """How many plain items the other side took back unused."""
        return sum(one.went_back for promise in self.promises.all() for one in promise.deliveries.all())

    @property
    def could_go_back(self) -> int:
        """How many plain items of theirs came and did not go back; whether they are used is not asked."""
        plain = self.plain
        return max(0, plain.delivered - self.went_back) if plain is not None and plain.side == Side.THEM else 0

    @property
    def settled_on(self) -> date | None:
        """The day on which the last promise of either side was settled; None while one is open."""
        days = [promise.settled_on for promise in self.promises.all()]
        known = [day for day in days if day is not None]
        return max(known) if known and len(known) == len(days) else None


class TradeClass(Row):
    """One class's part in a trade: a number of items, when to start, how many are done.

    `done` and `spoiled` are the sums of the tallies; `start_on` is the last lesson in which the class can begin.
    """

    trade = models.ForeignKey(Trade, on_delete=models.PROTECT, related_name="classes")
    school_class = models.ForeignKey("partners.SchoolClass", verbose_name=_("class"), on_delete=models.PROTECT)
    not_taking_part = models.PositiveSmallIntegerField(_("children not taking part"), default=0)
    share = models.PositiveIntegerField(_("items"), default=0)
    by_hand = models.BooleanField(_("number set by hand"), default=False)
    lessons = models.PositiveSmallIntegerField(_("lessons needed"), default=0)
    start_on = models.DateField(_("start by"), null=True, blank=True)
    started_on = models.DateField(_("started on"), null=True, blank=True)
    done = models.PositiveIntegerField(_("done"), default=0)
    spoiled = models.PositiveIntegerField(_("spoiled"), default=0)

    class Meta:
        verbose_name = _("class in a trade")
        verbose_name_plural = _("classes in a trade")
        default_related_name = "trade_classes"
        ordering = ["school_class__school", "school_class__grade", "school_class__label"]
        constraints = [
            *wall("tradeclass", "trade", "school_class"),
            models.UniqueConstraint(
                fields=["program", "trade", "school_class"],
                name="tradeclass_once",
                violation_error_message=_("That class takes part already."),
            ),
        ]
        indexes = [
            models.Index(
                fields=["program", "start_on", "id"],
                name="tradeclass_to_start",
                condition=Q(start_on__isnull=False, started_on__isnull=True),
            )
        ]

    def __str__(self) -> str:
        return str(self.school_class)

    @property
    def left(self) -> int:
        """How many items of the share are still to be made."""
        return max(0, self.share - self.done)


class TradeTally(Row):
    """What one class finished or spoiled on one day."""

    trade_class = models.ForeignKey(TradeClass, on_delete=models.PROTECT, related_name="tallies")
    day = models.DateField(_("day"))
    done = models.PositiveIntegerField(_("done"), default=0)
    spoiled = models.PositiveIntegerField(_("spoiled"), default=0)

    class Meta:
        verbose_name = _("count of a class")
        default_related_name = "trade_tallies"
        ordering = ["day", "id"]
        constraints = [*wall("tradetally", "trade_class")]
        indexes = [models.Index(fields=["program", "day"], name="tradetally_day")]

    def __str__(self) -> str:
        return f"{self.trade_class}, {date_format(self.day, 'DATE_FORMAT')}"
