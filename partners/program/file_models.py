"""Pictures and papers that were handed in: receipts, award letters, what a project became; pictures on letters."""

from __future__ import annotations

from django.db import models
from django.urls import reverse
from django.utils.translation import gettext_lazy as _

from partners.ground.models import Row
from partners.ground.wall import wall


class FileKind(models.TextChoices):
    PICTURE = "picture", _("picture")
    PDF = "pdf", _("PDF")


class KeptFile(Row):
    """The bytes as they were made anew from what was sent, kept once; never changed."""

    sha256 = models.CharField(max_length=64, editable=False)
    kind = models.CharField(max_length=7, choices=FileKind, default=FileKind.PICTURE, editable=False)
    content = models.BinaryField(editable=False)

    class Meta:
        verbose_name = _("kept file")
        default_related_name = "kept_files"
        constraints = [
            *wall("keptfile"),
            models.UniqueConstraint(fields=["program", "sha256"], name="keptfile_once"),
        ]

    def __str__(self) -> str:
        return self.sha256[:12]


class Attachment(Row):
    """A picture or a PDF that belongs to one grant, purchase, project, approval or certificate.

    `shows_no_child` is the tick without which a picture is printed nowhere: no child can be recognised in it, or the
    school holds a release for each who can.
    """

    file = models.ForeignKey(KeptFile, on_delete=models.PROTECT, related_name="attachments")
    title = models.CharField(_("what it is"), max_length=120)
    day = models.DateField(_("kept since"))
    shows_no_child = models.BooleanField(
        _("no child can be recognised, or the school holds a release for each"), default=False
    )
    grant = models.ForeignKey("partners.Grant", null=True, blank=True, on_delete=models.PROTECT)
    purchase = models.ForeignKey("partners.Purchase", null=True, blank=True, on_delete=models.PROTECT)
    project = models.ForeignKey("partners.Project", null=True, blank=True, on_delete=models.PROTECT)
    approval = models.ForeignKey("partners.Approval", null=True, blank=True, on_delete=models.PROTECT)
    certificate = models.ForeignKey("partners.Certificate", null=True, blank=True, on_delete=models.PROTECT)

    class Meta:
        verbose_name = _("picture or paper")
        verbose_name_plural = _("pictures and papers")
        default_related_name = "attachments"
        ordering = ["day", "id"]
        constraints = [*wall("attachment", "file", "grant", "purchase", "project", "approval", "certificate")]

    def __str__(self) -> str:
        return self.title

    def get_absolute_url(self) -> str:
        return reverse("funding:attachment", args=[self.pk])


class LetterUse(models.TextChoices):
    LETTERHEAD = "letterhead", _("letterhead picture")
    SIGNATURE = "signature", _("signature picture")


class LetterPicture(Row):
    """What letters carry: the letterhead picture of the program, or of one school, and the signature.

    `alone` stands for a letterhead that holds the school's name and address itself. `name` is whose signature it is,
    one for each: under another name it is not printed.
    """

    use = models.CharField(_("what it is"), max_length=10, choices=LetterUse, editable=False)
    school = models.ForeignKey(
        "partners.School", verbose_name=_("school"), null=True, on_delete=models.PROTECT, editable=False
    )
    file = models.ForeignKey(KeptFile, verbose_name=_("picture"), on_delete=models.PROTECT, editable=False)
    alone = models.BooleanField(_("it holds the school's name and address"), default=False)
    name = models.CharField(_("whose signature"), max_length=120, blank=True, editable=False)

    class Meta:
        verbose_name = _("picture on letters")
        verbose_name_plural = _("pictures on letters")
        default_related_name = "letter_pictures"
        constraints = [
            *wall("letterpicture", "school", "file"),
            models.UniqueConstraint(
                fields=["program", "use", "name"], condition=models.Q(school__isnull=True), name="letterpicture_once"
            ),
            models.UniqueConstraint(fields=["program", "use", "school"], name="letterpicture_school_once"),
            models.CheckConstraint(
                condition=models.Q(use=LetterUse.LETTERHEAD) | models.Q(school__isnull=True),
                name="letterpicture_signature",
                violation_error_message=_("A signature belongs to no school."),
            ),
        ]

    def __str__(self) -> str:
        return str(self.get_use_display())
