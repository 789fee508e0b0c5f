"""The Year page, the rows behind its numbers, what is due on a day, and what may be said of the arts."""

from __future__ import annotations

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.utils.dateparse import parse_date
from django.views.decorators.http import require_GET

from partners.ground.tables import configured
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened
from partners.year.due_days import due_on
from partners.year.evidence import in_language, shelf
from partners.year.page import year_page
from partners.year.rows import ROWS
from partners.year.span import chosen, spans
from partners.year.tables import RowsTable


@require_GET
@readers(Opened.YEAR)
def year(request: DeskRequest) -> HttpResponse:
    return render(request, "year/year.html", year_page(request.desk, request.GET.get("year", "")))


@require_GET
@readers(Opened.YEAR)
def rows(request: DeskRequest) -> HttpResponse:
    """The rows behind one number; what they are decides whether a guest may read them."""
    desk, given = request.desk, request.GET.dict()
    kind = ROWS.get(given.get("what", "gifts"))
    if kind is None:
        raise Http404
    if not desk.reads(kind.opened):
        raise PermissionDenied
    span = chosen(desk, spans(desk), given.get("year", ""))
    table = configured(request, RowsTable(kind.found(desk, span, given), kind=kind, desk=desk))
    return render(request, "year/rows.html", {"table": table, "kind": kind, "span": span})


@require_GET
@readers(Opened.TODAY)
def due(request: DeskRequest) -> HttpResponse:
    """What is due on one day; on today where none is named."""
    try:
        day = parse_date(request.GET.get("day", "")) or request.desk.day
    except ValueError:
        raise Http404 from None
    return render(request, "year/due.html", {"day": day, "lines": due_on(request.desk, day)})


@require_GET
@readers(Opened.YEAR)
def evidence(request: DeskRequest) -> HttpResponse:
    return render(request, "year/evidence.html", {"shelf": [in_language(one, "en") for one in shelf()]})
