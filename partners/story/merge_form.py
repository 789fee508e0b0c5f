"""The form that puts two rows of one partner together: whose word counts, where they do not say the same."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.formats import date_format
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.directory.merging import BOTH, KEPT, OTHER, PARTS, differing, proposed
from partners.directory.models import Partner
from partners.directory.partner_field import PartnerField
from partners.directory.phones import national
from partners.ground.forms import DeskForm
from partners.story.merge import of

LABELS = {
    "name": _("Name; the other one stays as “also called”"),
    "kind": _("What they are"),
    "address": _("Address"),
    "phone": _("Phone"),
    "email": _("E-mail"),
    "web": _("Web"),
    "best_time": _("Best time to visit"),
    "lead_days": _("Ask this many days ahead"),
    "giving": _("How often they give"),
    "decides": _("When and how they decide"),
    "wants": _("How they want to be asked"),
    "rest": _("Don't ask before"),
    "never_ask": _("Never ask"),
    "may_name": _("May we name them"),
    "notes": _("Notes"),
}


class OtherForm(DeskForm):
    """Which partner this one may be."""

    other = PartnerField(label=_("The same as"), required=True)


class MergeForm(DeskForm):
    """A choice for each part in which the two differ; made with both, as they are stored."""

    other = forms.IntegerField(required=False, widget=forms.HiddenInput)
    seen = forms.IntegerField(required=False, widget=forms.HiddenInput)
    other_seen = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def __init__(self, *args: Any, kept: Partner, other: Partner, **kwargs: Any) -> None:
        kwargs["initial"] = {"other": other.pk, "seen": kept.version, "other_seen": other.version}
        super().__init__(*args, **kwargs)
        one, two = of(kept), of(other)
        # A phone written in two ways says the same.
        self.parts = [part for part in differing(one, two) if part_words(kept, part) != part_words(other, part)]
        for part in self.parts:
            choices = [(KEPT, part_words(kept, part)), (OTHER, part_words(other, part))]
            if part == "notes" and one["notes"] and two["notes"]:
                choices.append((BOTH, gettext("both, one below the other")))
            self.initial[part] = proposed(part, one, two)
            self.fields[part] = forms.ChoiceField(
                label=LABELS[part], choices=choices, required=False, widget=forms.RadioSelect
            )

    def choices(self) -> dict[str, str]:
        return {part: self.cleaned_data[part] for part in self.parts}


def part_words(partner: Partner, part: str) -> str:
    """What the row says there, in words."""
    said = [column_words(partner, name) for name in PARTS[part]]
    return ", ".join(filter(None, said)) or gettext("nothing")


def column_words(partner: Partner, name: str) -> str:
    value = getattr(partner, name)
    if name == "phone":
        return national(value)
    if name == "fiscal_year_starts":
        return gettext("their fiscal year begins in month %(month)d") % {"month": value} if partner.how_often else ""
    if name == "counted_per":
        return str(partner.get_counted_per_display()) if partner.how_often else ""
    if name in ("branch", "never_ask"):
        words = {"branch": gettext("a branch"), "never_ask": gettext("never ask")}
        return words[name] if value else ""
    if hasattr(value, "year"):
        return date_format(value, "DATE_FORMAT")
    display = getattr(partner, f"get_{name}_display", None)
    return str(display()) if display and value else str(value if value is not None else "")
