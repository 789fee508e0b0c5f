"""Forms of job cards and of a school's welcome."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.ground.forms import RowForm
from partners.helpers.job_cards import MOST_STEPS, ReadyCard, caution_names, steps_in
from partners.helpers.show_models import JobCard, Welcome

STEP_LENGTH = 160


class CardForm(RowForm):
    """One card. Steps are typed one a line; a card that is changed becomes the teacher's own."""

    steps = forms.CharField(
        label=gettext_lazy("Steps"),
        help_text=gettext_lazy("One step a line, at most seven. They are numbered on the card."),
        widget=forms.Textarea(attrs={"rows": 8}),
        max_length=2000,
    )
    cautions = forms.MultipleChoiceField(
        label=gettext_lazy("Take care with"),
        help_text=gettext_lazy("What the steps name is printed in any case, and so is: never alone with a child."),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    class Meta:
        model = JobCard
        fields = ["job", "title", "steps", "with_what", "where_it_goes", "looks_done", "cautions"]

    def __init__(self, *args: Any, ready: ReadyCard | None = None, **kwargs: Any) -> None:
        card: JobCard | None = kwargs.get("instance")
        initial: dict[str, Any] = {"steps": "\n".join(card.steps)} if card and card.pk else {}
        if ready is not None:
            copied = ("job", "title", "with_what", "where_it_goes", "looks_done", "cautions")
            initial = {name: getattr(ready, name) for name in copied} | {"steps": "\n".join(ready.steps)}
        kwargs["initial"] = initial | (kwargs.get("initial") or {})
        super().__init__(*args, **kwargs)
        choices: Any = self.fields["cautions"]
        choices.choices = caution_names("en")

    def clean_steps(self) -> list[str]:
        steps = steps_in(self.cleaned_data["steps"])
        if not steps:
            raise ValidationError(_("Type at least one step."), code="none")
        if len(steps) > MOST_STEPS:
            words = ngettext(
                "These are %(count)d steps, %(over)d too many. Make it two cards, or join what belongs together.",
                "These are %(count)d steps, %(over)d too many. Make it two cards, or join what belongs together.",
                len(steps),
            )
            raise ValidationError(words % {"count": len(steps), "over": len(steps) - MOST_STEPS}, code="many")
        long = next((step for step in steps if len(step) > STEP_LENGTH), None)
        if long is not None:
            words = _("A step is read standing: shorten “%(begins)s …” to %(most)d signs.")
            raise ValidationError(words % {"begins": long[:40], "most": STEP_LENGTH}, code="long")
        return steps


class WelcomeForm(RowForm):
    """What stands first on every job card of the school."""

    class Meta:
        model = Welcome
        fields = [
            "sign_in", "room", "toilet", "exits", "whom_to_call", "at_office", "allergies", "rules",
        ]  # fmt: skip
        help_texts = {
            "sign_in": gettext_lazy("Office, badge, which door."),
            "whom_to_call": gettext_lazy("A name and the school's phone."),
            "rules": gettext_lazy("As the office or the district words them. For you; they are not on the card."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        welcome: Welcome | None = kwargs.get("instance")
        if welcome is None or not welcome.pk:
            kwargs["initial"] = {
                "sign_in": _("Sign in at the office and wear the badge."),
                "at_office": _("A small thank-you waits there: factory-sealed, label kept, nut-free."),
                "allergies": _("No food in the art room. Wash your hands when you come."),
                **(kwargs.get("initial") or {}),
            }
        super().__init__(*args, **kwargs)
        self.fields["rules"].widget.attrs["rows"] = 4
