"""Who the program lives on: partners, and the people there."""

from __future__ import annotations

from datetime import date, timedelta

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Prefetch, Q
from django.urls import reverse
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.fields import KeyField
from partners.ground.models import Row
from partners.ground.names import name_key
from partners.ground.wall import wall


class PartnerKind(models.TextChoices):
    BUSINESS = "business", _("Business")
    ARTS_GROUP = "arts_group", _("Arts group")
    LIBRARY = "library", _("Library")
    CIVIC_GROUP = "civic_group", _("Civic group")
    GRANTMAKER = "grantmaker", _("Grantmaker")
    FAMILY_GROUP = "family_group", _("Family group")
    COLLEAGUE = "colleague", _("Colleague")
    PERSON = "person", _("Person")


class BusinessKind(models.TextChoices):
    RESTAURANT = "restaurant", _("Restaurant")
    COFFEE_SHOP = "coffee_shop", _("Coffee shop or bakery")
    GROCER = "grocer", _("Grocer")
    HARDWARE = "hardware", _("Hardware")
    GARDEN = "garden", _("Garden center")
    FLORIST = "florist", _("Florist")
    RETAIL = "retail", _("Other shop")
    BANK = "bank", _("Bank or credit union")
    ACCOUNTANT = "accountant", _("Accountant")
    FRAME_SHOP = "frame_shop", _("Frame shop")
    PRINTER = "printer", _("Printer")
    OTHER = "other", _("Other")


class HowOften(models.TextChoices):
    NO_RULE = "", _("no rule of theirs known")
    CALENDAR_YEAR = "calendar_year", _("once a calendar year")
    FISCAL_YEAR = "fiscal_year", _("once a fiscal year")
    TWO_YEARS = "two_years", _("every other year")


class CountedPer(models.TextChoices):
    SCHOOL = "school", _("each school counts alone")
    DISTRICT = "district", _("the whole district counts as one")


class MayName(models.TextChoices):
    NOT_ASKED = "", _("not asked yet (so: no)")
    YES = "yes", _("yes")
    SCHOOL_ONLY = "school_only", _("in school only")
    NO = "no", _("no")


NAMED_IN_PUBLIC = (MayName.YES,)
NAMED_IN_SCHOOL = (MayName.YES, MayName.SCHOOL_ONLY)


BETWEEN_NAMES = "; "


class PartnerQuerySet(models.QuerySet["Partner"]):
    def search(self, text: str) -> PartnerQuerySet:
        """Partners whose name, or one of whose people, holds every word; accents and case do not matter."""
        found = self
        for word in name_key(text).split():
            found = found.filter(Q(name_key__contains=word) | Q(people_key__contains=word))
        return found

    def beginning(self, letter: str | None) -> PartnerQuerySet:
        """Whose folded name begins with the letter; without one, with none from a to z. Read off the index by name."""
        if letter is None:
            return self.filter(Q(name_key__lt="a") | Q(name_key__gte=chr(ord("z") + 1)))
        return self.filter(name_key__gte=letter, name_key__lt=chr(ord(letter) + 1))

    def gone_quiet_since(self, cut_off: date, day: date) -> PartnerQuerySet:
        """Not heard of since the cut-off, and neither resting nor closed to asking on the day."""
        return self.not_resting_on(day).filter(last_heard_on__lte=cut_off)

    def resting_on(self, day: date) -> PartnerQuerySet:
        return self.filter(never_ask=False, rest_until__gt=day)

    def not_resting_on(self, day: date) -> PartnerQuerySet:
        return self.filter(never_ask=False).exclude(rest_until__gt=day)

    def with_people(self) -> PartnerQuerySet:
        """Each with `present`, the list of the people who are there; one more query for any number of partners."""
        return self.prefetch_related(Prefetch("contacts", Contact.objects.filter(left_on=None), to_attr="present"))

    def never_to_ask(self) -> PartnerQuerySet:
        return self.filter(never_ask=True)


class Partner(Row):
    name = models.CharField(_("name"), max_length=120)
    name_key = KeyField()
    also_called = models.CharField(
        _("also called"), max_length=600, blank=True, help_text=_("Other names they were written under.")
    )
    people_key = KeyField(max_length=600)
    kind = models.CharField(_("kind"), max_length=14, choices=PartnerKind, default=PartnerKind.BUSINESS)
    business_kind = models.CharField(_("business"), max_length=14, choices=BusinessKind, blank=True)
    branch = models.BooleanField(_("a branch; headquarters may decide"), default=False)
    street = models.CharField(_("street"), max_length=160, blank=True)
    city = models.CharField(_("city"), max_length=80, blank=True)
    state = models.CharField(_("state"), max_length=40, blank=True)
    postal_code = models.CharField(_("ZIP code"), max_length=20, blank=True)
    address_key = KeyField()
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    phone_key = KeyField()
    email = models.EmailField(_("e-mail"), blank=True)
    web = models.CharField(_("web"), max_length=200, blank=True)
    web_key = KeyField()
    best_time = models.CharField(_("best time to visit"), max_length=120, blank=True)
    lead_days = models.PositiveSmallIntegerField(
        _("ask this many days ahead"), null=True, blank=True, validators=[MaxValueValidator(730)]
    )
    how_often = models.CharField(_("how often they give"), max_length=14, choices=HowOften, blank=True)
    counted_per = models.CharField(_("how they count"), max_length=8, choices=CountedPer, default=CountedPer.SCHOOL)
    fiscal_year_starts = models.PositiveSmallIntegerField(
        _("their fiscal year begins in month"), default=1, validators=[MinValueValidator(1), MaxValueValidator(12)]
    )
    decides = models.CharField(_("when and how they decide"), max_length=160, blank=True)
    wants = models.CharField(_("how they want to be asked, papers wanted"), max_length=160, blank=True)
    rest_until = models.DateField(_("don't ask before"), null=True, blank=True)
    rest_why = models.CharField(_("why"), max_length=160, blank=True)
    never_ask = models.BooleanField(_("never ask"), default=False)
    may_name = models.CharField(_("may we name you"), max_length=12, choices=MayName, blank=True)
    may_name_asked_on = models.DateField(_("asked on"), null=True, blank=True)
    notes = models.TextField(
        _("notes"), blank=True, help_text=_("Write what the owner may read; records can be requested.")
    )
    last_heard_on = models.DateField(null=True, editable=False)

    objects = PartnerQuerySet.as_manager()

    class Meta:
        verbose_name = _("partner")
        verbose_name_plural = _("partners")
        default_related_name = "partners"
        ordering = ["name_key", "id"]
        constraints = [
            *wall("partner"),
            models.CheckConstraint(condition=~Q(name=""), name="partner_has_name"),
        ]
        indexes = [
            # With the people's key a search that finds nobody reads this index alone: 15 ms instead of 130 at 40,000.
            models.Index(fields=["program", "name_key", "id", "people_key"], name="partner_by_name"),
            models.Index(fields=["program", "last_heard_on", "id"], name="partner_by_last_heard"),
            models.Index(fields=["program", "phone_key"], name="partner_phone", condition=~Q(phone_key="")),
            models.Index(fields=["program", "address_key"], name="partner_address", condition=~Q(address_key="")),
            models.Index(fields=["program", "web_key"], name="partner_web", condition=~Q(web_key="")),
            models.Index(fields=["program", "id"], name="partner_otherwise", condition=~Q(also_called="")),
        ]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("directory:partner-detail", args=[self.pk])

    @property
    def other_names(self) -> list[str]:
        """The names it was also written down under."""
        return [name for name in self.also_called.split(BETWEEN_NAMES) if name]

    def rests_on(self, day: date) -> bool:
        return self.never_ask or (self.rest_until is not None and self.rest_until > day)

    def send_by(self, needed_by: date) -> date | None:
        """The last day to ask for something needed by a day: their lead time and one week of our own before it."""
        return None if self.lead_days is None else needed_by - timedelta(days=self.lead_days + 7)


class FormerPartner(Row):
    """The number under which a partner stood before it was put together with another: old addresses lead on."""

    partner = models.ForeignKey(Partner, verbose_name=_("partner"), on_delete=models.PROTECT)
    was = models.BigIntegerField(_("number before"))

    class Meta:
        verbose_name = _("former number of a partner")
        default_related_name = "former_partners"
        constraints = [
            *wall("formerpartner", "partner"),
            models.UniqueConstraint(fields=["program", "was"], name="formerpartner_once"),
        ]

    def __str__(self) -> str:
        return str(self.was)


class NotSame(Row):
    """Two partners that look like one and were said to be two: they are not shown as a likely pair again."""

    partner = models.ForeignKey(Partner, verbose_name=_("partner"), on_delete=models.PROTECT)
    other = models.ForeignKey(
        Partner, verbose_name=_("the other one"), on_delete=models.PROTECT, related_name="not_same_as"
    )

    class Meta:
        verbose_name = _("two partners that are not one")
        verbose_name_plural = _("partners that are not one")
        default_related_name = "not_same"
        constraints = wall("notsame", "partner", "other")

    def __str__(self) -> str:
        return gettext("%(partner)s and %(other)s are two") % {"partner": self.partner, "other": self.other}


class Contact(Row):
    """A person at a partner, the name as they write it."""

    partner = models.ForeignKey(Partner, verbose_name=_("partner"), on_delete=models.PROTECT)
    name = models.CharField(_("name, as they write it"), max_length=120)
    name_key = KeyField()
    role = models.CharField(_("role"), max_length=80, blank=True)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("e-mail"), blank=True)
    decides = models.BooleanField(_("decides"), default=False)
    since = models.DateField(_("since"), null=True, blank=True)
    left_on = models.DateField(_("left on"), null=True, blank=True)

    class Meta:
        verbose_name = _("contact")
        default_related_name = "contacts"
        ordering = ["-decides", "name_key", "id"]
        constraints = [
            *wall("contact", "partner"),
            models.CheckConstraint(condition=~Q(name=""), name="contact_has_name"),
        ]

    def __str__(self) -> str:
        return self.name
