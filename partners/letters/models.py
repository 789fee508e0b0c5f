"""The register of what was handed over or sent, frozen as it was."""

from __future__ import annotations

from hashlib import sha256

from django.db import models
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall

# What stays of a sheet that was removed on request: no bytes.
REMOVED_SHEET = sha256(b"").hexdigest()


class Sheet(Row):
    """The printed bytes, never changed; in the database, so that they and their letter are saved together or not."""

    sha256 = models.CharField(max_length=64, editable=False)
    pdf = models.BinaryField(editable=False)

    class Meta:
        verbose_name = _("frozen sheet")
        default_related_name = "sheets"
        constraints = [*wall("sheet"), models.UniqueConstraint(fields=["program", "sha256"], name="sheet_kept_once")]

    def __str__(self) -> str:
        return self.sha256[:12]


class Wording(Row):
    """The teacher's own words for one part of a sheet in one language. The highest number counts; earlier ones stay.

    Empty words mean: back to those of the house.
    """

    document = models.CharField(_("sheet"), max_length=40)
    language = models.CharField(_("language"), max_length=8, default="en")
    part = models.CharField(_("part of the sheet"), max_length=40)
    number = models.PositiveIntegerField(_("version"), default=1)
    words = models.TextField(_("words"), blank=True)

    class Meta:
        verbose_name = _("own words")
        default_related_name = "wordings"
        ordering = ["document", "language", "part", "-number"]
        constraints = [
            *wall("wording"),
            models.UniqueConstraint(
                fields=["program", "document", "language", "part", "number"], name="wording_version_once"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.document}, {self.part}, {self.number}"

    def get_absolute_url(self) -> str:
        return reverse("outreach:own-words-part", args=[self.document, self.language, self.part])


class BatchKind(models.TextChoices):
    THANKS = "thanks", _("thanks of a month")
    YEAR_END = "year_end", _("year-end notes")
    OUTING = "outing", _("sheets for an outing")
    INTRODUCTION = "intro", _("letters to introduce yourself")


class Batch(Row):
    """Sheets printed in one go, in the order in which they are delivered, until each was handed over or mailed."""

    kind = models.CharField(_("kind"), max_length=8, choices=BatchKind)
    title = models.CharField(_("title"), max_length=120)
    day = models.DateField(_("printed on"))
    first = models.DateField(_("from"), null=True, blank=True)
    last = models.DateField(_("through"), null=True, blank=True)
    outing = models.ForeignKey(
        "partners.Outing", verbose_name=_("outing"), null=True, blank=True, on_delete=models.PROTECT
    )
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    signed = models.BooleanField(
        _("print my signature on all of them"),
        default=False,
        help_text=_("Else there is room to sign each by hand, which is kinder where they are few."),
    )
    settled_on = models.DateField(_("all gone out on"), null=True, blank=True)

    class Meta:
        verbose_name = _("batch of sheets")
        verbose_name_plural = _("batches of sheets")
        default_related_name = "batches"
        ordering = ["-day", "-id"]
        constraints = [*wall("batch", "outing", "school")]
        indexes = [
            models.Index(fields=["program", "-day", "-id"], name="batch_latest"),
            models.Index(
                fields=["program", "day", "id"], name="batch_open", condition=models.Q(settled_on__isnull=True)
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("outreach:batch-detail", args=[self.pk])


class LetterState(models.TextChoices):
    DRAFT = "draft", _("being written")
    HANDED_OVER = "handed_over", _("handed over")
    MAILED = "mailed", _("mailed")
    EMAILED = "emailed", _("e-mailed")


class Letter(Row):
    """One sheet for one receiver. As a draft it holds the teacher's own words; once gone out it is frozen."""

    document = models.CharField(_("sheet"), max_length=40)
    title = models.CharField(_("title"), max_length=200)
    partner = models.ForeignKey(
        "partners.Partner", verbose_name=_("to"), null=True, blank=True, on_delete=models.PROTECT
    )
    gift = models.ForeignKey("partners.Gift", verbose_name=_("about"), null=True, blank=True, on_delete=models.PROTECT)
    thanks = models.ForeignKey("partners.Thanks", null=True, blank=True, on_delete=models.PROTECT)
    trade = models.ForeignKey("partners.Trade", null=True, blank=True, on_delete=models.PROTECT)
    helper = models.ForeignKey("partners.Helper", null=True, blank=True, on_delete=models.PROTECT)
    need = models.ForeignKey("partners.Need", null=True, blank=True, on_delete=models.PROTECT)
    grant = models.ForeignKey("partners.Grant", null=True, blank=True, on_delete=models.PROTECT)
    project = models.ForeignKey("partners.Project", null=True, blank=True, on_delete=models.PROTECT)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, blank=True, on_delete=models.PROTECT
    )
    language = models.CharField(_("language"), max_length=8, default="en")
    words = models.JSONField(_("words"), default=dict, blank=True)
    state = models.CharField(_("state"), max_length=12, choices=LetterState, default=LetterState.DRAFT)
    day = models.DateField(_("day"))
    sheet = models.ForeignKey(Sheet, null=True, blank=True, on_delete=models.PROTECT)
    sent_to = models.EmailField(_("e-mailed to"), blank=True)
    batch = models.ForeignKey(Batch, verbose_name=_("batch"), null=True, blank=True, on_delete=models.PROTECT)
    place = models.PositiveIntegerField(_("place in the batch"), null=True, blank=True)

    class Meta:
        verbose_name = _("letter")
        default_related_name = "letters"
        ordering = ["-day", "-id"]
        constraints = [
            *wall(
                "letter",
                "partner",
                "gift",
                "thanks",
                "trade",
                "helper",
                "need",
                "grant",
                "project",
                "school",
                "sheet",
                "batch",
            ),
            models.CheckConstraint(
                condition=models.Q(state=LetterState.DRAFT) | models.Q(sheet__isnull=False),
                name="letter_gone_is_frozen",
            ),
        ]
        indexes = [
            models.Index(fields=["program", "-day", "-id"], name="letter_latest"),
            models.Index(fields=["program", "partner", "-day"], name="letter_partner"),
            models.Index(
                fields=["program", "batch", "place", "id"],
                name="letter_of_batch",
                condition=models.Q(batch__isnull=False),
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("letters:letter-detail", args=[self.pk])

    @property
    def is_removed(self) -> bool:
        """Gone out, and its sheet was removed since because somebody on it wanted to be forgotten."""
        return self.sheet is not None and self.sheet.sha256 == REMOVED_SHEET
