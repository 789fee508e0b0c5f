"""Widgets written in Python are those of Django's templates."""

from __future__ import annotations

import re
from datetime import date

import pytest
from django import forms
from django.forms.renderers import TemplatesSetting

from partners.ground.form_renderer import Renderer

HOSTILE = '<b>"Tom\'s" & co'
CHOICES = [("", "---"), (1, HOSTILE), (HOSTILE, [("a", "A"), ("b", "B")]), ("c", "C")]

WIDGETS = [
    (forms.TextInput({"autocomplete": "off", "required": True, "hidden": False, "data-x": HOSTILE}), HOSTILE),
    (forms.NumberInput({"min": 0}), 0),
    (forms.HiddenInput(), None),
    (forms.DateInput({"type": "date"}), date(2027, 6, 9)),
    (forms.CheckboxInput(), True),
    (forms.CheckboxInput(), False),
    (forms.Select({"class": "wide"}, CHOICES), "b"),
    (forms.Select(choices=CHOICES), 1),
]


@pytest.mark.parametrize(("widget", "value"), WIDGETS)
def test_what_is_written_is_what_the_templates_write(widget, value):
    def by(renderer):
        written = widget.render("some[name]", value, {"id": "id_<some>"}, renderer=renderer)
        return re.sub(r"\s*\n\s*", "", written)

    assert by(Renderer()) == by(TemplatesSetting())
