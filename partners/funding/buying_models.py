"""Buying: the slip before it, the receipt, tax, and how the money comes back."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall


class CertificateQuerySet(models.QuerySet["Certificate"]):
    def ending(self) -> CertificateQuerySet:
        return self.filter(valid_until__isnull=False, renewed=False)


class Certificate(Row):
    """A school's exemption certificate, as the shop is shown it."""

    school = models.ForeignKey("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    state = models.CharField(_("state (two letters)"), max_length=2)
    number = models.CharField(_("certificate number"), max_length=60)
    holder = models.CharField(
        _("made out to"), max_length=160, blank=True, help_text=_("The legal name, usually the district's.")
    )
    valid_from = models.DateField(_("valid from"), null=True, blank=True)
    valid_until = models.DateField(_("valid until"), null=True, blank=True)
    paper_held = models.CharField(_("where the paper lies"), max_length=120, blank=True)
    renewed = models.BooleanField(_("followed by another, or not needed again"), default=False, editable=False)

    objects = CertificateQuerySet.as_manager()

    class Meta:
        verbose_name = _("exemption certificate")
        default_related_name = "certificates"
        ordering = ["school", "state", "-valid_until", "-id"]
        constraints = [
            *wall("certificate", "school"),
            models.CheckConstraint(
                condition=Q(valid_from=None) | Q(valid_until=None) | Q(valid_until__gte=F("valid_from")),
                name="certificate_in_order",
                violation_error_message=_("It ends before it begins."),
            ),
        ]
        indexes = [
            models.Index(
                fields=["program", "valid_until", "id"],
                name="certificate_ends",
                condition=Q(valid_until__isnull=False, renewed=False),
            )
        ]

    def __str__(self) -> str:
        return f"{self.number} ({self.state})"

    def get_absolute_url(self) -> str:
        return reverse("funding:certificate-edit", args=[self.pk])

    def is_valid_on(self, day: date) -> bool:
        began = self.valid_from is None or self.valid_from <= day
        return began and (self.valid_until is None or day <= self.valid_until)


class Payer(models.TextChoices):
    ORDER = "order", _("the school, by purchase order")
    SCHOOL_CARD = "school_card", _("the school's own card or account")
    PETTY_CASH = "petty_cash", _("petty cash of the office")
    OWN = "own", _("my own money")


class PurchaseQuerySet(models.QuerySet["Purchase"]):
    def bought(self) -> PurchaseQuerySet:
        return self.filter(bought_on__isnull=False)

    def out_of_pocket(self) -> PurchaseQuerySet:
        """Paid by the teacher, and not repaid."""
        return self.bought().filter(payer=Payer.OWN, repaid_on=None)

    def to_hand_in(self) -> PurchaseQuerySet:
        return self.filter(claim_due__isnull=False, handed_in_on=None, not_claimed=False)

    def to_repay(self) -> PurchaseQuerySet:
        return self.filter(repay_due__isnull=False, repaid_on=None, not_claimed=False)

    def tax_to_ask_back(self) -> PurchaseQuerySet:
        return self.filter(tax_back_due__isnull=False, tax_back_on=None, tax_let_go=False)


class Purchase(Row):
    """One purchase from the slip before it to the money back.

    `total_cents`, `tax_cents` and `tax_saved_cents` follow from the receipt's lines; `claim_due` and `repay_due` are
    the days until which the receipt is handed in and the money expected. Money that is not asked back, or tax that is
    let go, is `not_claimed` and `tax_let_go`.
    """

    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    vendor = models.CharField(_("shop"), max_length=120)
    partner = models.ForeignKey(
        "partners.Partner", verbose_name=_("the shop as a partner"), null=True, blank=True, on_delete=models.PROTECT
    )
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    grant = models.ForeignKey(
        "partners.Grant", verbose_name=_("from the grant"), null=True, blank=True, on_delete=models.PROTECT
    )
    what = models.CharField(_("what"), max_length=160)
    slip_on = models.DateField(_("slip written on"))
    estimate_cents = models.PositiveBigIntegerField(_("about"), null=True, blank=True)
    approved_by = models.CharField(_("approved by"), max_length=120, blank=True)
    approved_on = models.DateField(_("approved on"), null=True, blank=True)
    order_number = models.CharField(_("purchase order number"), max_length=40, blank=True)
    payer = models.CharField(_("who pays"), max_length=11, choices=Payer, default=Payer.ORDER)
    authorised_agent = models.BooleanField(_("the school has authorised me in writing to buy for it"), default=False)
    certificate = models.ForeignKey(
        Certificate, verbose_name=_("certificate shown"), null=True, blank=True, on_delete=models.PROTECT
    )
    state = models.CharField(_("bought in (two letters)"), max_length=2, blank=True)
    bought_on = models.DateField(_("bought on"), null=True, blank=True)
    receipt_number = models.CharField(_("receipt number"), max_length=40, blank=True)
    total_cents = models.PositiveBigIntegerField(_("total on the receipt"), null=True, blank=True)
    tax_cents = models.PositiveBigIntegerField(_("tax charged"), default=0, editable=False)
    tax_saved_cents = models.PositiveBigIntegerField(_("tax saved"), default=0, editable=False)
    tax_rate = models.PositiveIntegerField(_("sales tax"), null=True, blank=True)
    tax_per_item = models.BooleanField(_("tax is rounded for each item"), default=False)
    tax_back_due = models.DateField(_("ask the tax back by"), null=True, blank=True)
    tax_back_on = models.DateField(_("tax came back on"), null=True, blank=True)
    tax_back_cents = models.PositiveBigIntegerField(_("tax that came back"), null=True, blank=True)
    tax_let_go = models.BooleanField(_("the tax is let go"), default=False, editable=False)
    claim_due = models.DateField(_("hand in the receipt by"), null=True, blank=True)
    claim_day_named = models.BooleanField(default=False, editable=False)
    handed_in_on = models.DateField(_("handed in on"), null=True, blank=True)
    repay_due = models.DateField(_("repaid by"), null=True, blank=True)
    repay_day_named = models.BooleanField(default=False, editable=False)
    repaid_on = models.DateField(_("repaid on"), null=True, blank=True)
    repaid_cents = models.PositiveBigIntegerField(_("repaid"), null=True, blank=True)
    not_claimed = models.BooleanField(_("not asked back"), default=False, editable=False)
    called_off_on = models.DateField(_("not bought after all"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    objects = PurchaseQuerySet.as_manager()

    class Meta:
        verbose_name = _("purchase")
        default_related_name = "purchases"
        ordering = ["-slip_on", "-id"]
        constraints = [
            *wall("purchase", "school", "partner", "project", "grant", "certificate"),
            models.CheckConstraint(
                condition=Q(bought_on=None, total_cents=None) | Q(bought_on__isnull=False, total_cents__isnull=False),
                name="purchase_bought_has_total",
                violation_error_message=_("Say both: the day it was bought, and the total on the receipt."),
            ),
            models.CheckConstraint(
                condition=Q(repaid_on=None, repaid_cents=None) | Q(repaid_on__isnull=False, repaid_cents__isnull=False),
                name="purchase_repaid_has_amount",
                violation_error_message=_("Say both: the day it was repaid, and how much."),
            ),
            models.CheckConstraint(
                condition=Q(bought_on=None) | Q(called_off_on=None),
                name="purchase_bought_or_not",
                violation_error_message=_("It was bought, so it cannot be called off."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "-slip_on", "-id"], name="purchase_latest"),
            models.Index(fields=["program", "partner"], name="purchase_of_partner", condition=Q(partner__isnull=False)),
            models.Index(fields=["program", "bought_on"], name="purchase_bought"),
            models.Index(fields=["program", "grant"], name="purchase_of_grant", condition=Q(grant__isnull=False)),
            models.Index(
                fields=["program", "claim_due", "id"],
                name="purchase_to_hand_in",
                condition=Q(claim_due__isnull=False, handed_in_on__isnull=True, not_claimed=False),
            ),
            models.Index(
                fields=["program", "repay_due", "id"],
                name="purchase_to_repay",
                condition=Q(repay_due__isnull=False, repaid_on__isnull=True, not_claimed=False),
            ),
            models.Index(
                fields=["program", "tax_back_due", "id"],
                name="purchase_tax_back",
                condition=Q(tax_back_due__isnull=False, tax_back_on__isnull=True, tax_let_go=False),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.vendor}: {self.what}"

    @property
    def own_cents(self) -> int:
        """What it cost who paid: the total, less the tax that the shop gave back."""
        return (self.total_cents or 0) - (self.tax_back_cents or 0)

    def get_absolute_url(self) -> str:
        return reverse("funding:purchase-detail", args=[self.pk])


class LineKind(models.TextChoices):
    ITEM = "item", _("item")
    SHIPPING = "shipping", _("shipping")
    TAX = "tax", _("tax")
    DISCOUNT = "discount", _("discount")


class PurchaseLine(Row):
    """One line of a receipt. A discount is below zero; all lines together are the total."""

    purchase = models.ForeignKey(Purchase, on_delete=models.PROTECT, related_name="lines")
    position = models.PositiveSmallIntegerField(default=1)
    kind = models.CharField(_("kind"), max_length=8, choices=LineKind, default=LineKind.ITEM)
    what = models.CharField(_("what"), max_length=160)
    quantity = models.PositiveIntegerField(_("how many"), null=True, blank=True)
    cents = models.BigIntegerField(_("amount"))
    taxable = models.BooleanField(_("taxable"), default=True)
    need = models.ForeignKey("partners.Need", verbose_name=_("need"), null=True, blank=True, on_delete=models.PROTECT)
    grant_line = models.ForeignKey(
        "partners.GrantLine", verbose_name=_("line of the grant"), null=True, blank=True, on_delete=models.PROTECT
    )

    class Meta:
        verbose_name = _("line of a receipt")
        default_related_name = "purchase_lines"
        ordering = ["purchase", "position", "id"]
        constraints = [
            *wall("purchaseline", "purchase", "need", "grant_line"),
            models.CheckConstraint(
                condition=Q(kind="discount", cents__lte=0) | (~Q(kind="discount") & Q(cents__gte=0)),
                name="purchaseline_sign",
            ),
        ]
        indexes = [
            models.Index(
                fields=["program", "grant_line"], name="purchaseline_grant", condition=Q(grant_line__isnull=False)
            ),
            models.Index(fields=["program", "need"], name="purchaseline_need", condition=Q(need__isnull=False)),
        ]

    def __str__(self) -> str:
        return self.what
