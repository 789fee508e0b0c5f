"""The base of every row, and the history of what was changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.wall import SameProgram, wall

if TYPE_CHECKING:
    from partners.program.models import Program, User

SCRUBBED = "scrubbed"


class Row(models.Model):
    """One row of one program's record. `version` grows with every change; whoever saves on an old one is told."""

    # No index of its own. Every index begins with the program instead, since every question names one, and SQLite,
    # which does not know how many rows a value has, would take an index of the program alone for as good as any other.
    # Nobody asks for the rows that somebody wrote, so those two columns have none either.
    program: models.ForeignKey[Program, Program] = models.ForeignKey(
        "partners.Program", on_delete=models.PROTECT, editable=False, db_index=False
    )
    created_at = models.DateTimeField(default=timezone.now, editable=False)
    created_by: models.ForeignKey[User | None, User | None] = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, editable=False, related_name="+", db_index=False
    )
    updated_at = models.DateTimeField(default=timezone.now, editable=False)
    updated_by: models.ForeignKey[User | None, User | None] = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, editable=False, related_name="+", db_index=False
    )
    version = models.PositiveIntegerField(default=1, editable=False)

    class Meta:
        abstract = True


class Event(models.Model):
    """One verb that was carried out: who, when, in which words, and every row as it was before and after.

    `changes` is a list of {"model", "pk", "before", "after"}; before is null for a row that was added, after is null
    for one that was removed. `once` is the form token: a form that is sent twice finds its event and saves nothing.
    """

    program: models.ForeignKey[Program, Program] = models.ForeignKey(
        "partners.Program", on_delete=models.PROTECT, related_name="events", db_index=False
    )
    at = models.DateTimeField(auto_now_add=True)
    by: models.ForeignKey[User | None, User | None] = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+", db_index=False
    )
    words = models.CharField(max_length=200)
    facts = models.JSONField(default=dict, encoder=DjangoJSONEncoder)
    about_model = models.CharField(max_length=40, blank=True)
    about_pk = models.BigIntegerField(null=True)
    changes = models.JSONField(default=list, encoder=DjangoJSONEncoder)
    once = models.CharField(max_length=64, null=True)  # noqa: DJ001 -- null, not "", so that many may have none
    undoes = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="undone_by")

    class Meta:
        verbose_name = _("change")
        constraints = [
            *wall("event", "undoes"),
            models.UniqueConstraint(fields=["program", "once"], name="event_saved_once"),
        ]
        indexes = [
            models.Index(fields=["program", "-at", "-id"], name="event_latest"),
            models.Index(fields=["program", "about_model", "about_pk"], name="event_about"),
        ]

    def __str__(self) -> str:
        words: str = gettext(self.words) % self.facts
        return words

    @property
    def is_scrubbed(self) -> bool:
        """Whether somebody was forgotten in it, or by it: it is no longer whole, and stays as it is."""
        return SCRUBBED in self.facts

    def about(self) -> Any:
        """The row the verb was about, or None where it is gone."""
        from django.apps import apps

        if not self.about_model:
            return None
        model = apps.get_model("partners", self.about_model)
        row: Any = model._base_manager.filter(pk=self.about_pk).first()
        # The program itself belongs to no other.
        return row if row is not None and getattr(row, "program_id", row.pk) == self.program_id else None


class Touched(models.Model):
    """One row that an event is about or changed, as the only one or one of many: by it a row's history is found."""

    program: models.ForeignKey[Program, Program] = models.ForeignKey(
        "partners.Program", on_delete=models.PROTECT, related_name="touched", db_index=False
    )
    event = models.ForeignKey(Event, on_delete=models.CASCADE, related_name="touched", db_index=False)
    model = models.CharField(max_length=40)
    row = models.BigIntegerField()

    class Meta:
        verbose_name = _("row in a change")
        constraints = [SameProgram(field="event", name="touched_event_wall")]
        indexes = [models.Index(fields=["program", "model", "row", "event"], name="touched_row")]

    def __str__(self) -> str:
        return f"{self.model} {self.row}"
