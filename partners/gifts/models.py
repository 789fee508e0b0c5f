"""What came, who accepted it, and the thanks that are owed."""

from __future__ import annotations

from datetime import date
from functools import cache

from django.db import models
from django.db.models import Exists, OuterRef, Q, Subquery
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.money import format_cents
from partners.ground.names import name_key
from partners.ground.wall import wall
from partners.promises.counted import counted

MOST_WORDS = 20


class Source(models.TextChoices):
    PARTNER = "partner", _("a partner")
    FAMILIES = "families", _("families (no names)")
    UNKNOWN = "unknown", _("unknown")


class Form(models.TextChoices):
    GOODS = "goods", _("goods")
    MONEY = "money", _("money")
    SERVICE = "service", _("a service")
    SPACE = "space", _("use of a space")
    DISCOUNT = "discount", _("a discount")
    LOAN = "loan", _("a loan")


class MoneyKind(models.TextChoices):
    CHECK = "check", _("check")
    CASH = "cash", _("cash")
    CARD = "card", _("gift card")


class GiftQuerySet(models.QuerySet["Gift"]):
    def from_partners(self) -> GiftQuerySet:
        return self.filter(source=Source.PARTNER)

    def to_accept(self) -> GiftQuerySet:
        return self.filter(accept_due__isnull=False, accepted_on=None)

    def to_return(self) -> GiftQuerySet:
        return self.filter(return_on__isnull=False, returned_on=None)

    def to_hand_in(self) -> GiftQuerySet:
        return self.filter(hand_in_due__isnull=False, handed_in_on=None)

    def families_to_thank(self, since: date = date.min) -> GiftQuerySet:
        return self.filter(families_due__isnull=False, families_due__gte=since, families_thanked_on=None)

    def of_the_same_school(self) -> GiftQuerySet:
        """As the gift of the query around it."""
        return self.filter(program=OuterRef("program"), school=OuterRef("school")).order_by()

    def first_of_each_school(self, since: date = date.min) -> GiftQuerySet:
        """Of what families are still to be thanked for, what its school is to thank for first."""
        sooner = Q(families_due__lt=OuterRef("families_due"))
        sooner |= Q(families_due=OuterRef("families_due"), pk__lt=OuterRef("pk"))
        beside = Gift.objects.families_to_thank(since).of_the_same_school()
        return self.families_to_thank(since).filter(~Exists(beside.filter(sooner)))

    def search(self, text: str) -> GiftQuerySet:
        """Every word stands in the giver's name, where accents do not matter, or in one of the things."""
        found = self
        for word in text.split()[:MOST_WORDS]:
            things = GiftLine.objects.filter(gift=OuterRef("pk"), description__icontains=word)
            given_by = Q(partner__name_key__contains=key) if (key := name_key(word)) else Q(pk__in=[])
            found = found.filter(given_by | Exists(things))
        return found

    def with_first_line(self) -> GiftQuerySet:
        """`first_line` holds the first thing of the gift, for lists that do not fetch all of them."""
        return self.annotate(first_line=first_line("pk"))


class Gift(Row):
    """Something that came on one day from one giver. What families gave names nobody."""

    source = models.CharField(_("from"), max_length=8, choices=Source, default=Source.PARTNER)
    partner = models.ForeignKey(
        "partners.Partner", verbose_name=_("partner"), null=True, blank=True, on_delete=models.PROTECT
    )
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    day = models.DateField(_("came on"))
    form = models.CharField(_("form"), max_length=8, choices=Form, default=Form.GOODS)
    amount_cents = models.PositiveBigIntegerField(_("amount"), null=True, blank=True)
    money_kind = models.CharField(_("money as"), max_length=8, choices=MoneyKind, blank=True)
    given_value_cents = models.PositiveBigIntegerField(
        _("the giver's own figure"), null=True, blank=True, help_text=_("Private; never printed.")
    )
    gave_back = models.CharField(_("what we gave back"), max_length=160, blank=True)
    gave_back_cents = models.PositiveBigIntegerField(_("its estimated value"), null=True, blank=True)
    trade = models.BooleanField(_("part of a trade"), default=False)
    purpose = models.CharField(_("purpose the giver named"), max_length=160, blank=True)
    received_by = models.CharField(_("received by"), max_length=120, blank=True)
    place = models.CharField(_("where it is (room, shelf)"), max_length=120, blank=True)
    label_readable = models.BooleanField(_("label readable"), null=True, blank=True)
    fit_for_youngest = models.BooleanField(_("fit for the youngest grade"), null=True, blank=True)
    is_clean = models.BooleanField(_("clean"), null=True, blank=True)
    accept_by_whom = models.CharField(_("who must accept it"), max_length=120, blank=True)
    accept_due = models.DateField(_("acceptance due"), null=True, blank=True)
    accept_day_named = models.BooleanField(default=False, editable=False)
    accepted_on = models.DateField(_("accepted on"), null=True, blank=True)
    return_on = models.DateField(_("return the loan by"), null=True, blank=True)
    returned_on = models.DateField(_("returned on"), null=True, blank=True)
    hand_in_due = models.DateField(_("hand in by"), null=True, blank=True)
    handed_in_on = models.DateField(_("handed to the office on"), null=True, blank=True)
    receipt_number = models.CharField(_("receipt number"), max_length=40, blank=True)
    families_due = models.DateField(_("families thanked by"), null=True, blank=True)
    families_day_named = models.BooleanField(default=False, editable=False)
    families_thanked_on = models.DateField(_("families thanked on"), null=True, blank=True)

    objects = GiftQuerySet.as_manager()

    class Meta:
        verbose_name = _("gift")
        default_related_name = "gifts"
        ordering = ["-day", "-id"]
        constraints = [
            *wall("gift", "partner", "school", "project"),
            models.CheckConstraint(
                condition=Q(source=Source.PARTNER, partner__isnull=False)
                | (~Q(source=Source.PARTNER) & Q(partner=None)),
                name="gift_families_unnamed",
                violation_error_message=_("A gift from families or from nobody known names no partner."),
            ),
            models.CheckConstraint(
                condition=Q(form=Form.MONEY, amount_cents__isnull=False, amount_cents__gt=0)
                | (~Q(form=Form.MONEY) & Q(amount_cents=None)),
                name="gift_amount_is_money",
                violation_error_message=_("Money needs its amount; anything else has none, only a description."),
            ),
            models.CheckConstraint(
                condition=Q(form=Form.LOAN) | Q(return_on=None, returned_on=None),
                name="gift_only_loans_return",
                violation_error_message=_("Only a loan has a day to return it."),
            ),
            models.CheckConstraint(
                condition=Q(source=Source.FAMILIES) | Q(families_due=None, families_thanked_on=None),
                name="gift_families_thanked_as_one",
                violation_error_message=_("Only what families gave is thanked for all together."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "partner", "-day", "-id"], name="gift_latest"),
            models.Index(fields=["program", "-day", "-id"], name="gift_by_day"),
            models.Index(
                fields=["program", "accept_due", "id"],
                name="gift_to_accept",
                condition=Q(accept_due__isnull=False, accepted_on__isnull=True),
            ),
            models.Index(
                fields=["program", "return_on", "id"],
                name="gift_to_return",
                condition=Q(return_on__isnull=False, returned_on__isnull=True),
            ),
            models.Index(
                fields=["program", "hand_in_due", "id"],
                name="gift_to_hand_in",
                condition=Q(hand_in_due__isnull=False, handed_in_on__isnull=True),
            ),
            models.Index(
                fields=["program", "families_due", "id"],
                name="gift_families_to_thank",
                condition=Q(families_due__isnull=False, families_thanked_on__isnull=True),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.giver}, {date_format(self.day, 'DATE_FORMAT')}"

    def get_absolute_url(self) -> str:
        return reverse("gifts:gift-detail", args=[self.pk])

    @property
    def giver(self) -> str:
        return str(self.partner if self.partner_id else self.get_source_display())

    @property
    def what(self) -> str:
        """What came, in words: the amount, or how many of what."""
        if self.amount_cents is not None:
            return format_cents(self.amount_cents)
        return ", ".join(line.words for line in self.lines.all()) or str(self.get_form_display())

    def told(self, *, amounts: bool) -> str:
        """`what`; money without its amount where that is not for the person."""
        return self.what if amounts or self.amount_cents is None else str(self.get_form_display())


class Risk(models.TextChoices):
    """What needs the three ticks before children use it."""

    NONE = "", _("nothing of these")
    PAINT = "paint", _("paint, dye or ink")
    GLUE = "glue", _("glue")
    CLAY = "clay", _("clay or glaze")
    FOOD = "food", _("food containers")
    UNKNOWN = "unknown", _("not sure what it is")


class GiftLine(Row):
    gift = models.ForeignKey(Gift, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField(default=1)
    need = models.ForeignKey("partners.Need", verbose_name=_("need"), null=True, blank=True, on_delete=models.PROTECT)
    delivery = models.OneToOneField(
        "partners.Delivery", null=True, blank=True, on_delete=models.PROTECT, related_name="gift_line"
    )
    description = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    unit = models.CharField(_("unit"), max_length=40, blank=True)
    condition = models.CharField(_("condition"), max_length=80, blank=True)
    risk = models.CharField(_("is it one of these"), max_length=8, choices=Risk, blank=True)

    class Meta:
        verbose_name = _("line of a gift")
        default_related_name = "gift_lines"
        ordering = ["gift", "position", "id"]
        constraints = [*wall("giftline", "gift", "need", "delivery")]
        indexes = [models.Index(fields=["program", "need"], name="giftline_need", condition=Q(need__isnull=False))]

    def __str__(self) -> str:
        return self.description

    @property
    def words(self) -> str:
        return counted(self.quantity, self.unit, self.description)


@cache
def first_line(gift: str) -> Subquery:
    """The description of the first line of the gift that the column `gift` names."""
    return Subquery(GiftLine.objects.filter(gift=OuterRef(gift), position=1).order_by("pk").values("description")[:1])


class ThanksFor(models.TextChoices):
    PROMISE = "promise", _("for the promise")
    GIFT = "gift", _("for what came")
    CONSIDERING = "considering", _("for considering it")
    GRANT = "grant", _("for the grant")


class ThanksQuerySet(models.QuerySet["Thanks"]):
    def owed(self) -> ThanksQuerySet:
        return self.filter(done_on=None)

    def with_first_line(self) -> ThanksQuerySet:
        """`first_line` holds the first thing of the gift that is thanked for."""
        return self.annotate(first_line=first_line("gift"))


class Thanks(Row):
    """Thanks owed, from the day it arises until it was said. `due` and `late_from` are counted in school days."""

    partner = models.ForeignKey("partners.Partner", verbose_name=_("to"), on_delete=models.PROTECT)
    reason = models.CharField(_("for what"), max_length=12, choices=ThanksFor)
    gift = models.OneToOneField(Gift, null=True, blank=True, on_delete=models.PROTECT)
    promise = models.ForeignKey("partners.Promise", null=True, blank=True, on_delete=models.PROTECT)
    ask = models.ForeignKey("partners.Ask", null=True, blank=True, on_delete=models.PROTECT)
    grant = models.ForeignKey("partners.Grant", null=True, blank=True, on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    base = models.DateField(_("counted from"))
    due = models.DateField(_("due"))
    late_from = models.DateField(_("late from"))
    done_on = models.DateField(_("said on"), null=True, blank=True)
    how = models.CharField(_("how"), max_length=80, blank=True)

    objects = ThanksQuerySet.as_manager()

    class Meta:
        verbose_name = _("thanks")
        verbose_name_plural = _("thanks")
        default_related_name = "thanks"
        ordering = ["due", "id"]
        constraints = [*wall("thanks", "partner", "gift", "promise", "ask", "grant", "school")]
        indexes = [
            models.Index(fields=["program", "due", "id"], name="thanks_due", condition=Q(done_on__isnull=True)),
            models.Index(fields=["program", "partner", "due"], name="thanks_partner"),
            models.Index(fields=["program", "base", "id"], name="thanks_by_day"),
            models.Index(fields=["program", "done_on", "id"], name="thanks_said", condition=Q(done_on__isnull=False)),
        ]

    def __str__(self) -> str:
        return str(self.get_reason_display())
