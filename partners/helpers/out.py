"""Helpers as rows of a file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from django.utils.translation import gettext_lazy as _

from partners.directory.phones import national
from partners.helpers.models import HelperQuerySet
from partners.helpers.tables import clearance_words
from partners.helpers.words import days_words, jobs_words, where_words

HEADER = (_("Name"), _("School"), _("Can help"), _("Jobs"), _("Days"), _("Times"), _("How often"), _("Clearance"))
PRIVATE = (_("Phone"), _("E-mail"), _("Best way"), _("Language"), _("Skills"), _("Note"))


def helper_rows(helpers: HelperQuerySet, day: date, *, private: bool) -> Iterator[list[Any]]:
    rows = helpers.select_related("school").order_by("name_key", "pk").iterator(chunk_size=500)
    for one in rows:
        cells: list[Any] = [
            one.name, str(one.school or ""), where_words(one), jobs_words(one.jobs), days_words(one.days), one.times,
            one.how_often, clearance_words(one, day),
        ]  # fmt: skip
        if private:
            cells += [
                national(one.phone),
                one.email,
                str(one.get_best_way_display()),
                one.language,
                one.skills,
                one.note,
            ]
        yield cells
