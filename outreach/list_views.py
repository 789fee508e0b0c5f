"""The lists of a year for the office and the board: which school, which year, what they hold, and print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_GET

from outreach.gap import Gap
from outreach.list_forms import YearForm
from outreach.preparing import to_print
from outreach.registry import entry
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened

LISTS = ("board-gifts", "places-asked")


@dataclass(frozen=True)
class ListLine:
    """One list on the page: what it would say in one sentence, what it lacks, and which sheet it is."""

    title: str
    about: Any
    summary: str
    gaps: tuple[Gap, ...]
    slug: str
    pk: int
    query: str


ABOUT = {
    "board-gifts": _(
        "What came, from whom, and who accepted it. Givers who asked not to be named are not; families never are. "
        "Goods are described, never valued."
    ),
    "places-asked": _(
        "Every place by name, also those that said no, and grants. Some rules want everybody disclosed who was asked."
    ),
}


@require_GET
@readers(Opened.LETTERS)
def year_lists(request: DeskRequest) -> HttpResponse:
    """Choosing is an address; what it names and cannot be is taken as if it had not been said."""
    form = YearForm(request.GET if request.GET else None, desk=request.desk)
    form.is_valid()
    told = getattr(form, "cleaned_data", {})
    school, year = told.get("school"), told.get("year") or ""
    pk = school.pk if school else 0
    lines = [list_line(request, slug, pk, str(year)) for slug in LISTS if request.desk.reads(entry(slug).opened)]
    return render(request, "outreach/year_lists.html", {"form": form, "lists": lines})


def list_line(request: DeskRequest, slug: str, pk: int, year: str) -> ListLine:
    prepared = to_print(request.desk, slug, pk, {"year": year})
    module, query = prepared.module, f"?year={year}" if year else ""
    # Two of the same name lack the same.
    gaps = tuple({str(gap.words): gap for gap in prepared.gaps()}.values())
    return ListLine(str(module.TITLE), ABOUT[slug], module.summary(prepared.facts), gaps, slug, pk, query)
