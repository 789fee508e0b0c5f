"""What each side said it will do, by when; offers; what was delivered."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.money import format_cents
from partners.ground.wall import wall
from partners.promises.counted import counted


class Every(models.TextChoices):
    ONCE = "", _("once")
    WEEK = "week", _("every week")
    TWO_WEEKS = "two_weeks", _("every two weeks")
    MONTH = "month", _("every month")


class Offer(Row):
    """What a partner offered unasked: once, or standing ("tubes every second Friday")."""

    partner = models.ForeignKey("partners.Partner", verbose_name=_("from"), on_delete=models.PROTECT)
    visit = models.ForeignKey(
        "partners.Visit", verbose_name=_("visit"), null=True, blank=True, on_delete=models.PROTECT
    )
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    need = models.ForeignKey("partners.Need", verbose_name=_("need"), null=True, blank=True, on_delete=models.PROTECT)
    what = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many each time"), null=True, blank=True)
    every = models.CharField(_("how often"), max_length=10, choices=Every, blank=True)
    first_on = models.DateField(_("first collection"))
    ends_on = models.DateField(_("until"), null=True, blank=True)
    ended_on = models.DateField(_("ended on"), null=True, blank=True)

    class Meta:
        verbose_name = _("offer")
        default_related_name = "offers"
        ordering = ["-first_on", "-id"]
        constraints = [*wall("offer", "partner", "visit", "school", "need")]

    def __str__(self) -> str:
        return self.what


class Side(models.TextChoices):
    THEM = "them", _("they promised")
    US = "us", _("we promised")


class Settled(models.TextChoices):
    CAME = "came", _("all came")
    THAT_WAS_ALL = "that_was_all", _("that was all")
    NEVER_CAME = "never_came", _("it never came")
    SKIPPED = "skipped", _("skipped this time")


class Part(models.TextChoices):
    """What a promise is in a trade."""

    NONE = "", _("no trade")
    MAKE = "make", _("what we make")
    PLAIN = "plain", _("plain items")
    GIVE = "give", _("what they give")


class PromiseQuerySet(models.QuerySet["Promise"]):
    def open(self) -> PromiseQuerySet:
        return self.filter(settled_on=None)

    def by_them(self) -> PromiseQuerySet:
        return self.filter(side=Side.THEM)

    def by_us(self) -> PromiseQuerySet:
        return self.filter(side=Side.US)

    def past_their_day(self, day: date) -> PromiseQuerySet:
        return self.open().filter(due__lt=day)

    def of_no_trade(self) -> PromiseQuerySet:
        return self.filter(trade=None)

    def part(self, part: str) -> PromiseQuerySet:
        """One part of trades; the condition on the trade lets the index of open parts serve."""
        return self.filter(part=part, trade__isnull=False)

    def kept(self) -> PromiseQuerySet:
        """Settled by what came; "that was all" counts as kept, "it never came" does not."""
        return self.filter(settled_how__in=[Settled.CAME, Settled.THAT_WAS_ALL])


class Promise(Row):
    """One side does one thing by one day, for itself or as a part of a trade.

    `delivered` is the sum of the deliveries; `turn` counts the collections of a standing offer, the first being 0;
    `by_rhythm`: the day follows from the offer and the school calendar, and was not named by anybody.
    """

    partner = models.ForeignKey("partners.Partner", verbose_name=_("with"), on_delete=models.PROTECT)
    side = models.CharField(_("who promised"), max_length=4, choices=Side)
    ask = models.ForeignKey(
        "partners.Ask", verbose_name=_("from the ask"), null=True, blank=True, on_delete=models.PROTECT
    )
    offer = models.ForeignKey(Offer, verbose_name=_("from the offer"), null=True, blank=True, on_delete=models.PROTECT)
    trade = models.ForeignKey(
        "partners.Trade", verbose_name=_("part of the trade"), null=True, blank=True, on_delete=models.PROTECT
    )
    part = models.CharField(_("in a trade"), max_length=5, choices=Part, blank=True)
    carrier = models.CharField(_("who carries it"), max_length=80, blank=True)
    visit = models.ForeignKey(
        "partners.Visit", verbose_name=_("said at"), null=True, blank=True, on_delete=models.PROTECT
    )
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    need = models.ForeignKey("partners.Need", verbose_name=_("need"), null=True, blank=True, on_delete=models.PROTECT)
    what = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    at_most = models.PositiveIntegerField(_("up to"), null=True, blank=True)
    unit = models.CharField(_("unit"), max_length=40, blank=True)
    amount_cents = models.PositiveBigIntegerField(_("amount"), null=True, blank=True)
    made_on = models.DateField(_("promised on"))
    due = models.DateField(_("by"))
    due_hour = models.TimeField(_("hour"), null=True, blank=True)
    collect = models.BooleanField(_("we collect"), default=True)
    delivered = models.PositiveIntegerField(_("delivered"), default=0)
    turn = models.PositiveIntegerField(null=True, editable=False)
    by_rhythm = models.BooleanField(default=False, editable=False)
    settled_on = models.DateField(_("settled on"), null=True, blank=True)
    settled_how = models.CharField(_("how it ended"), max_length=14, choices=Settled, blank=True)

    objects = PromiseQuerySet.as_manager()

    class Meta:
        verbose_name = _("promise")
        default_related_name = "promises"
        ordering = ["due", "id"]
        constraints = [
            *wall("promise", "partner", "ask", "offer", "trade", "visit", "school", "need"),
            models.CheckConstraint(
                condition=Q(at_most=None) | Q(quantity__isnull=False, at_most__gte=F("quantity")),
                name="promise_range_in_order",
                violation_error_message=_("The larger number stands before the smaller one."),
            ),
            models.CheckConstraint(
                condition=Q(settled_on=None, settled_how="") | (Q(settled_on__isnull=False) & ~Q(settled_how="")),
                name="promise_settled_somehow",
            ),
            models.UniqueConstraint(fields=["offer", "turn"], name="promise_turn_once"),
            models.CheckConstraint(
                condition=Q(trade=None, part="") | (Q(trade__isnull=False) & ~Q(part="")),
                name="promise_trade_has_part",
            ),
            models.UniqueConstraint(
                fields=["trade", "part"], condition=Q(part__in=["make", "plain"]), name="promise_part_once"
            ),
        ]
        indexes = [
            models.Index(
                fields=["program", "side", "due", "id"], name="promise_due", condition=Q(settled_on__isnull=True)
            ),
            models.Index(fields=["program", "partner", "due"], name="promise_partner"),
            models.Index(fields=["program", "due", "id"], name="promise_by_day"),
            models.Index(fields=["program", "need"], name="promise_need", condition=Q(need__isnull=False)),
            models.Index(fields=["program", "trade"], name="promise_trade", condition=Q(trade__isnull=False)),
            models.Index(
                fields=["program", "part", "due", "id"],
                name="promise_part_due",
                condition=Q(settled_on__isnull=True, trade__isnull=False),
            ),
        ]

    def __str__(self) -> str:
        return self.what

    def get_absolute_url(self) -> str:
        """A part of a trade is read and settled on the page of its trade."""
        if self.trade_id is not None:
            return reverse("exchanges:trade-detail", args=[self.trade_id])
        return reverse("promises:promise-detail", args=[self.pk])

    @property
    def words(self) -> str:
        """What was promised, with its number or amount."""
        if self.amount_cents is not None:
            return f"{format_cents(self.amount_cents)}, {self.what}"
        return counted(self.quantity, self.unit, self.what, self.at_most)

    def told(self, *, amounts: bool) -> str:
        """`words`; money without its amount where that is not for the person."""
        return self.words if amounts or self.amount_cents is None else self.what

    @property
    def kept_words(self) -> str:
        """What really came, once that was all of it; until then what was promised."""
        return counted(self.kept_quantity, self.unit, self.what) if self.kept_quantity else self.words

    @property
    def kept_quantity(self) -> int | None:
        """How many came where it is settled that they did; None until then, and where nobody counted."""
        return (self.delivered or None) if self.settled_how in (Settled.CAME, Settled.THAT_WAS_ALL) else None

    @property
    def missing(self) -> int | None:
        """How many of the smaller promised number are still to come; None where no number was said."""
        return None if self.quantity is None else max(0, self.quantity - self.delivered)


class Delivery(Row):
    """A part of a promise, brought or collected on one day.

    `went_back`: plain items of the trade that the other side took back unused. Finished ones that went along are the
    `quantity`; where nothing else changed hands it is none, and the promise is that of the plain items.
    """

    promise = models.ForeignKey(Promise, verbose_name=_("of"), on_delete=models.PROTECT)
    day = models.DateField(_("day"))
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    went_back = models.PositiveIntegerField(_("plain items that went back"), default=0)
    note = models.CharField(_("note"), max_length=160, blank=True)

    class Meta:
        verbose_name = _("delivery")
        verbose_name_plural = _("deliveries")
        default_related_name = "deliveries"
        ordering = ["day", "id"]
        constraints = [*wall("delivery", "promise")]
        indexes = [models.Index(fields=["program", "promise"], name="delivery_promise")]

    def __str__(self) -> str:
        return f"{self.promise}, {date_format(self.day, 'DATE_FORMAT')}"
