"""People who help: what their slip says, sessions and who came, kits, job cards, shows."""

from __future__ import annotations

from datetime import date

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.fields import KeyField
from partners.ground.models import Row
from partners.ground.wall import wall


class Job(models.TextChoices):
    CUTTING = "cutting", _("cutting and trimming")
    SORTING = "sorting", _("sorting")
    MOUNTING = "mounting", _("mounting")
    LABELLING = "labelling", _("labelling")
    HANGING = "hanging", _("hanging a show")
    TAKING_DOWN = "taking_down", _("taking a show down")
    PHOTOGRAPHING = "photographing", _("photographing work")
    SEWING = "sewing", _("sewing and kits at home")
    CARRYING = "carrying", _("fetching and delivering")
    OTHER = "other", _("something else")


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


class JobCard(Row):
    """Exactly what to do, on one page: at most seven steps."""

    job = models.CharField(_("job"), max_length=14, choices=Job, default=Job.OTHER)
    title = models.CharField(_("title"), max_length=120)
    steps = models.JSONField(_("steps"), default=list, help_text=_("At most seven."))
    with_what = models.CharField(_("with what"), max_length=300, blank=True)
    where_it_goes = models.CharField(_("where each thing goes"), max_length=300, blank=True)
    looks_done = models.CharField(_("what done looks like"), max_length=300, blank=True)
    cautions = models.JSONField(_("cautions"), default=list, blank=True)

    class Meta:
        verbose_name = _("job card")
        default_related_name = "job_cards"
        ordering = ["title", "id"]
        constraints = [
            *wall("jobcard"),
            models.UniqueConstraint(
                fields=["program", "title"],
                name="jobcard_title_once",
                violation_error_message=_("A card of that title is in the book already."),
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("helpers:card-edit", args=[self.pk])


class Welcome(Row):
    """What a helper must know about a school; printed on every job card there."""

    school = models.OneToOneField("partners.School", verbose_name=_("school"), on_delete=models.PROTECT)
    sign_in = models.CharField(_("where to sign in"), max_length=200, blank=True)
    room = models.CharField(_("the art room is"), max_length=160, blank=True)
    toilet = models.CharField(_("toilet and water"), max_length=160, blank=True)
    exits = models.CharField(_("exits"), max_length=160, blank=True)
    whom_to_call = models.CharField(_("whom to call"), max_length=160, blank=True)
    at_office = models.CharField(
        _("what waits at the office on days nobody can greet them"),
        max_length=200,
        blank=True,
        help_text=_("Factory-sealed, label kept, nut-free."),
    )
    allergies = models.CharField(_("allergy care"), max_length=200, blank=True)
    rules = models.TextField(_("the school's rules for helpers"), blank=True)

    class Meta:
        verbose_name = _("welcome for helpers")
        default_related_name = "welcomes"
        constraints = [*wall("welcome", "school")]

    def __str__(self) -> str:
        return str(self.school)


class Show(Row):
    """A show to hang: how many works, when it opens, and what each job took in the end."""

    title = models.CharField(_("title"), max_length=120)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    project = models.ForeignKey(
        "partners.Project", verbose_name=_("project"), null=True, blank=True, on_delete=models.PROTECT
    )
    place = models.CharField(_("place"), max_length=120, blank=True)
    opens_on = models.DateField(_("opens on"))
    opens_at = models.TimeField(_("hour"), null=True, blank=True)
    closes_on = models.DateField(_("taken down on"), null=True, blank=True)
    works = models.PositiveIntegerField(_("works"), validators=[MinValueValidator(1)])
    works_per_panel = models.PositiveSmallIntegerField(
        _("works on a panel"), default=12, validators=[MinValueValidator(1)]
    )
    first_timers_percent = models.PositiveSmallIntegerField(
        _("more time for first-timers (%)"), default=20, validators=[MaxValueValidator(200)]
    )
    helpers_at_once = models.PositiveSmallIntegerField(
        _("helpers in a session"), default=3, validators=[MinValueValidator(1)]
    )
    session_minutes = models.PositiveSmallIntegerField(
        _("minutes of a session"), default=60, validators=[MinValueValidator(15), MaxValueValidator(12 * 60)]
    )

    class Meta:
        verbose_name = _("show")
        verbose_name_plural = _("shows")
        default_related_name = "shows"
        ordering = ["-opens_on", "-id"]
        constraints = [
            *wall("show", "school", "project"),
            models.CheckConstraint(
                condition=Q(closes_on=None) | Q(closes_on__gte=F("opens_on")),
                name="show_in_order",
                violation_error_message=_("It is taken down before it opens."),
            ),
        ]
        indexes = [models.Index(fields=["program", "-opens_on", "-id"], name="show_latest")]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("helpers:show-detail", args=[self.pk])


class ShowJob(Row):
    """One job of a show: minutes a work as planned, in tenths, and what it really took."""

    show = models.ForeignKey(Show, on_delete=models.PROTECT, related_name="jobs")
    job = models.CharField(_("job"), max_length=14, choices=Job)
    tenths_per_work = models.PositiveSmallIntegerField(_("minutes a work, in tenths"))
    measured = models.BooleanField(
        _("from minutes written down"), default=False, help_text=_("First-timers were among them, so no time is added.")
    )
    works = models.PositiveIntegerField(_("works"))
    real_works = models.PositiveIntegerField(_("works that were done"), null=True, blank=True)
    real_minutes = models.PositiveIntegerField(_("minutes it took, all helpers together"), null=True, blank=True)

    class Meta:
        verbose_name = _("job of a show")
        default_related_name = "show_jobs"
        ordering = ["show", "id"]
        constraints = [
            *wall("showjob", "show"),
            models.UniqueConstraint(fields=["program", "show", "job"], name="showjob_once"),
            models.CheckConstraint(
                condition=Q(real_works=None, real_minutes=None) | Q(real_works__gte=1, real_minutes__isnull=False),
                name="showjob_real_together",
                violation_error_message=_("Say both: how many works were done, and the minutes it took."),
            ),
        ]
        indexes = [models.Index(fields=["program", "job"], name="showjob_job")]

    def __str__(self) -> str:
        return str(self.get_job_display())


class Session(Row):
    """An hour or an afternoon with helpers.

    `week_due` and `day_due` are school days, a week and a day before it; empty where it was planned later than that,
    and once who came is noted. `said_yes` counts the answers. `short_due` is the next of these days, or the day itself,
    while too few said yes; `thanks_due` the day itself, while somebody who came is not thanked.
    """

    day = models.DateField(_("day"))
    starts = models.TimeField(_("from"))
    ends = models.TimeField(_("until"))
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    place = models.CharField(_("place"), max_length=120)
    job = models.CharField(_("job"), max_length=14, choices=Job, default=Job.OTHER)
    card = models.ForeignKey(JobCard, verbose_name=_("job card"), null=True, blank=True, on_delete=models.PROTECT)
    show = models.ForeignKey(Show, verbose_name=_("show"), null=True, blank=True, on_delete=models.PROTECT)
    needed = models.PositiveSmallIntegerField(_("helpers needed"), default=2, validators=[MinValueValidator(1)])
    week_due = models.DateField(_("confirm a week before"), null=True, blank=True, editable=False)
    week_done_on = models.DateField(_("confirmed a week before"), null=True, blank=True, editable=False)
    day_due = models.DateField(_("confirm a day before"), null=True, blank=True, editable=False)
    day_done_on = models.DateField(_("confirmed a day before"), null=True, blank=True, editable=False)
    said_yes = models.PositiveSmallIntegerField(_("said yes"), default=0, editable=False)
    short_due = models.DateField(_("look for more by"), null=True, blank=True, editable=False)
    thanks_due = models.DateField(_("thank by"), null=True, blank=True, editable=False)
    counted_on = models.DateField(_("who came was noted on"), null=True, blank=True, editable=False)
    called_off_on = models.DateField(_("called off on"), null=True, blank=True, editable=False)

    class Meta:
        verbose_name = _("session")
        verbose_name_plural = _("sessions")
        default_related_name = "sessions"
        ordering = ["-day", "-starts", "-id"]
        constraints = [
            *wall("session", "school", "card", "show"),
            models.CheckConstraint(
                condition=Q(ends__gt=F("starts")),
                name="session_in_order",
                violation_error_message=_("It ends before it begins."),
            ),
            models.CheckConstraint(
                condition=~Q(place=""),
                name="session_has_place",
                violation_error_message=_("Say where the helpers shall come."),
            ),
        ]
        indexes = [
            models.Index(fields=["program", "-day", "-id"], name="session_latest"),
            models.Index(
                fields=["program", "week_due", "id"],
                name="session_week_due",
                condition=Q(week_due__isnull=False, week_done_on__isnull=True, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "day_due", "id"],
                name="session_day_due",
                condition=Q(day_due__isnull=False, day_done_on__isnull=True, called_off_on__isnull=True),
            ),
            models.Index(
                fields=["program", "short_due", "id"], name="session_short", condition=Q(short_due__isnull=False)
            ),
            models.Index(
                fields=["program", "thanks_due", "id"], name="session_thanks", condition=Q(thanks_due__isnull=False)
            ),
            models.Index(
                fields=["program", "day", "id"],
                name="session_to_count",
                condition=Q(counted_on__isnull=True, called_off_on__isnull=True),
            ),
        ]

    def __str__(self) -> str:
        return str(self.get_job_display())

    def get_absolute_url(self) -> str:
        return reverse("helpers:session-detail", args=[self.pk])

    @property
    def minutes(self) -> int:
        """How long it lasts."""
        return (self.ends.hour - self.starts.hour) * 60 + self.ends.minute - self.starts.minute


class Reply(models.TextChoices):
    SILENT = "silent", _("no answer yet")
    YES = "yes", _("yes")
    NO = "no", _("no")


class Turn(Row):
    """One helper in one session: asked, answered, came, for how long. `minutes` is the session's length unless put
    right; empty where they did not come.
    """

    session = models.ForeignKey(Session, on_delete=models.PROTECT)
    helper = models.ForeignKey(Helper, verbose_name=_("helper"), on_delete=models.PROTECT)
    reply = models.CharField(_("answer"), max_length=6, choices=Reply, default=Reply.SILENT)
    replied_on = models.DateField(_("answered on"), null=True, blank=True)
    came = models.BooleanField(_("came"), null=True, blank=True)
    minutes = models.PositiveSmallIntegerField(
        _("minutes"), null=True, blank=True, validators=[MaxValueValidator(24 * 60)]
    )
    thanked_on = models.DateField(_("thanked on"), null=True, blank=True)

    class Meta:
        verbose_name = _("helper in a session")
        default_related_name = "turns"
        ordering = ["session", "helper__name_key", "id"]
        constraints = [
            *wall("turn", "session", "helper"),
            models.UniqueConstraint(
                fields=["program", "session", "helper"],
                name="turn_once",
                violation_error_message=_("That helper is in this session already."),
            ),
            models.CheckConstraint(condition=Q(minutes=None) | Q(came=True), name="turn_only_who_came_has_minutes"),
        ]
        indexes = [models.Index(fields=["program", "helper", "session"], name="turn_helper")]

    def __str__(self) -> str:
        return str(self.helper)


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
