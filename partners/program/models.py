"""The program whose record this is, and the people who keep it."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall


class User(AbstractUser):
    """Who signs in. What they may see and change stands in their membership of each program."""

    def __str__(self) -> str:
        return self.get_full_name() or self.username


class Paper(models.TextChoices):
    LETTER = "letter", _("US Letter")
    A4 = "a4", _("A4")


class Language(models.TextChoices):
    ENGLISH = "en", _("English")
    SPANISH = "es", _("Spanish")


class Program(models.Model):
    """One art program: its own schools, partners, promises and letters. Nothing crosses to another program."""

    name = models.CharField(_("name of the program"), max_length=120)
    teacher = models.CharField(
        _("teacher's name"), max_length=120, blank=True, help_text=_("As it stands under letters.")
    )
    title = models.CharField(_("teacher's title"), max_length=120, blank=True, default="Art teacher")
    email = models.EmailField(_("school e-mail"), blank=True)
    phone = models.CharField(_("school phone"), max_length=40, blank=True)
    paper = models.CharField(_("paper size"), max_length=8, choices=Paper, default=Paper.LETTER)
    language = models.CharField(_("language of letters"), max_length=2, choices=Language, default=Language.ENGLISH)
    time_zone = models.CharField(_("time zone"), max_length=60, default="America/New_York")
    intro = models.CharField(
        _("the program in one sentence"),
        max_length=240,
        blank=True,
        help_text=_("For the leave-behind sheet; without it the sheet counts grades and students."),
    )
    fiscal_year_starts = models.PositiveSmallIntegerField(
        _("fiscal year begins in month"), default=7, validators=[MinValueValidator(1), MaxValueValidator(12)]
    )
    follow_up_days = models.PositiveSmallIntegerField(_("first follow-up after (days)"), default=7)
    last_follow_up_days = models.PositiveSmallIntegerField(_("last follow-up after (days)"), default=14)
    thank_within = models.PositiveSmallIntegerField(_("thank within (school days)"), default=5)
    thank_late = models.PositiveSmallIntegerField(_("thanks are late after (school days)"), default=10)
    rest_months_after_gift = models.PositiveSmallIntegerField(_("rest after a gift (months)"), default=12)
    quiet_after_months = models.PositiveSmallIntegerField(_("gone quiet after (months)"), default=12)
    colleague_days = models.PositiveSmallIntegerField(_("leave room after a colleague's ask (days)"), default=30)
    hour_value_cents = models.PositiveIntegerField(
        _("value of a helper's hour"),
        null=True,
        blank=True,
        help_text=_("Only for a summary, never on a receipt; empty: hours alone are told."),
    )
    hour_value_year = models.PositiveSmallIntegerField(_("year of that figure"), null=True, blank=True)
    hour_value_source = models.CharField(_("who published it"), max_length=120, blank=True)
    created_at = models.DateTimeField(auto_now_add=True, editable=False)
    updated_at = models.DateTimeField(auto_now=True, editable=False)
    updated_by = models.ForeignKey(User, null=True, on_delete=models.PROTECT, editable=False, related_name="+")
    version = models.PositiveIntegerField(default=1, editable=False)

    class Meta:
        verbose_name = _("program")

    def __str__(self) -> str:
        return self.name

    @classmethod
    def fresh(cls, pk: int) -> Program:
        """The program as it is stored now; a form changes the object it is given."""
        return cls.objects.get(pk=pk)


class Role(models.TextChoices):
    KEEPER = "keeper", _("Keeper: everything, also members and settings")
    TEACHER = "teacher", _("Teacher: everything but members and settings")
    GUEST = "guest", _("Guest: reads what is opened, never notes")


class Opened(models.TextChoices):
    """What a keeper can open to a guest."""

    TODAY = "today", _("Today and the monthly review")
    PARTNERS = "partners", _("Partners and their stories")
    WISH_LIST = "wish_list", _("Wish list")
    GIFTS = "gifts", _("Gifts and promises")
    TRADES = "trades", _("Trades")
    HELPERS = "helpers", _("Helpers")
    MONEY = "money", _("Grants, buying and free days")
    PROJECTS = "projects", _("Projects")
    LETTERS = "letters", _("Letters and sheets")
    YEAR = "year", _("Year")


def opened_at_first() -> list[str]:
    return [Opened.PARTNERS, Opened.WISH_LIST]


class Membership(Row):
    """What one person may do in one program; `schools` empty means all of them."""

    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="memberships")
    role = models.CharField(max_length=8, choices=Role, default=Role.TEACHER)
    opened = models.JSONField(default=opened_at_first, blank=True)
    school_ids = models.JSONField(default=list, blank=True)
    signs_as = models.CharField(
        _("their name under letters"),
        max_length=120,
        blank=True,
        help_text=_("For a colleague who signs what they print. Empty: it carries the name in the settings."),
    )
    title = models.CharField(_("their title"), max_length=120, blank=True)
    phone = models.CharField(_("their school phone"), max_length=40, blank=True)
    email = models.EmailField(_("their school e-mail"), blank=True)
    calendar_turn = models.PositiveIntegerField(
        default=0, editable=False, help_text=_("Which secret calendar address counts; 0: none was made yet.")
    )

    class Meta:
        verbose_name = _("member")
        default_related_name = "memberships"
        constraints = [
            *wall("membership"),
            models.UniqueConstraint(fields=["program", "user"], name="membership_once"),
        ]

    def __str__(self) -> str:
        return f"{self.user}, {self.get_role_display()}"

    @property
    def has_calendar(self) -> bool:
        """Whether there is a calendar address now: an odd turn has one."""
        return self.calendar_turn % 2 == 1


class Invitation(Row):
    """A link by which one person becomes a member. Only a hash of its secret is kept; it is used once and ends."""

    name = models.CharField(_("name"), max_length=120)
    role = models.CharField(max_length=8, choices=Role, default=Role.TEACHER)
    opened = models.JSONField(default=opened_at_first, blank=True)
    school_ids = models.JSONField(default=list, blank=True)
    secret_hash = models.CharField(max_length=64, unique=True, editable=False)
    ends_on = models.DateField(_("ends on"))
    used_by = models.ForeignKey(User, null=True, on_delete=models.PROTECT, editable=False, related_name="+")
    used_on = models.DateField(_("used on"), null=True, editable=False)

    class Meta:
        verbose_name = _("invitation")
        default_related_name = "invitations"
        constraints = [*wall("invitation")]

    def __str__(self) -> str:
        return self.name


class Device(models.Model):
    """A phone or computer that stays signed in until it is signed out; its session is looked up by its key."""

    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="devices")
    name = models.CharField(_("name of the device"), max_length=60)
    session_key = models.CharField(max_length=40, unique=True, editable=False)
    signed_in_at = models.DateTimeField(_("signed in"))
    seen_on = models.DateField(_("last used on"))

    class Meta:
        verbose_name = _("device")

    def __str__(self) -> str:
        return self.name
