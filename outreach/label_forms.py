"""The measures of a sheet of labels, as an address remembers them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.label_measures import LENGTHS, READY, UNITS, Measures, grid_of
from outreach.page.label_grid import SMALLEST_HIGH, SMALLEST_WIDE
from partners.program.models import Paper

MOST = {"columns": 12, "rows": 40}
LONGEST = 600


class LabelForm(forms.Form):
    """Plain numbers, read off the box or measured with a ruler."""

    start = forms.IntegerField(
        label=_("Begin at label"),
        help_text=_("On a sheet that was begun, counted line by line."),
        min_value=1,
    )
    paper = forms.ChoiceField(label=_("Paper"), choices=Paper)
    unit = forms.ChoiceField(label=_("Lengths in"), choices=[("in", _("inches")), ("mm", _("millimeters"))])
    columns = forms.IntegerField(label=_("Labels across"), min_value=1, max_value=MOST["columns"])
    rows = forms.IntegerField(label=_("Labels down"), min_value=1, max_value=MOST["rows"])
    width = forms.FloatField(label=_("One label: how wide"), min_value=0.2, max_value=LONGEST)
    height = forms.FloatField(label=_("One label: how high"), min_value=0.2, max_value=LONGEST)
    left = forms.FloatField(label=_("Margin at the left"), min_value=0, max_value=LONGEST)
    top = forms.FloatField(label=_("Margin at the top"), min_value=0, max_value=LONGEST)
    gap_across = forms.FloatField(label=_("Gap between columns"), min_value=0, max_value=LONGEST)
    gap_down = forms.FloatField(label=_("Gap between rows"), min_value=0, max_value=LONGEST)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in LENGTHS:
            self.fields[name].widget.attrs |= {"step": "any", "class": "short"}

    def clean(self) -> dict[str, Any]:
        typed = self.cleaned_data
        if self.errors:
            return typed
        grid = grid_of(self.measures)
        if grid.width < SMALLEST_WIDE or grid.height < SMALLEST_HIGH:
            name = "width" if grid.width < SMALLEST_WIDE else "height"
            self.add_error(name, _("On so small a label nothing can be read."))
        for name, over in (("columns", grid.too_wide), ("rows", grid.too_high)):
            if over:
                more = _("That is %(over).2f %(unit)s more than the paper has.")
                unit = typed["unit"]
                self.add_error(name, more % {"over": over / UNITS[unit], "unit": unit})
        if typed["start"] > grid.count:
            self.add_error("start", _("A sheet has %(count)s labels.") % {"count": grid.count})
        return typed

    @property
    def measures(self) -> Measures:
        typed = self.cleaned_data
        return Measures(**{name: typed[name] for name in ("paper", "unit", "columns", "rows", *LENGTHS)})


def first_values(paper: str, ready: int = 0, start: int = 1) -> dict[str, Any]:
    """What the form shows before anything was typed: a ready-made sheet, begun at `start` where it has so many."""
    known = READY[paper]
    one = known[ready] if 0 <= ready < len(known) else known[0]
    start = start if start <= one.columns * one.rows else 1
    lengths = {name: f"{getattr(one, name):.4f}".rstrip("0").rstrip(".") for name in LENGTHS}
    return {"paper": paper, "unit": one.unit, "columns": one.columns, "rows": one.rows, **lengths, "start": start}


def label_words(asked: Mapping[str, str]) -> dict[str, Any]:
    """What an address may say of labels: whom they are for, the measures, where they begin. Wrong measures are none."""
    form = LabelForm(asked)
    words: dict[str, Any] = {"of": asked.get("of", ""), "list": asked, "check": "check" in asked}
    batch = asked.get("batch", "")
    if batch.isascii() and batch.isdigit() and len(batch) < 19:
        words["batch"] = int(batch)
    if form.is_valid():
        words |= {"grid": grid_of(form.measures), "start": form.cleaned_data["start"]}
    return words


def envelope_words(asked: Mapping[str, str]) -> dict[str, Any]:
    school = asked.get("school", "")
    return {"school": int(school)} if school.isascii() and school.isdigit() and len(school) < 19 else {}
