"""The register of letters and sheets."""

from __future__ import annotations

from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from partners.ground.said import said
from partners.ground.tables import configured
from partners.letters.actions import ABOUT, throw_away
from partners.letters.for_guests import may_open
from partners.letters.models import Letter, LetterState
from partners.letters.tables import LetterTable
from partners.program.access import DeskRequest, readers, teachers
from partners.program.desk import Desk
from partners.program.models import Opened


def shown(desk: Desk) -> QuerySet[Letter]:
    """What is still being written nobody reads but who writes."""
    rows: QuerySet[Letter] = desk.letters.all()
    return rows if desk.writes else rows.exclude(state=LetterState.DRAFT)


@require_GET
@readers(Opened.LETTERS)
def letter_list(request: DeskRequest) -> HttpResponse:
    table = LetterTable(shown(request.desk).select_related("partner"), desk=request.desk)
    return render(request, "letters/letter_list.html", {"table": configured(request, table)})


@require_GET
@readers(Opened.LETTERS)
def letter_detail(request: DeskRequest, pk: int) -> HttpResponse:
    rows = shown(request.desk).select_related(*ABOUT, "sheet").defer("sheet__pdf")
    letter = get_object_or_404(rows, pk=pk)
    # Its bytes are read for them alone to whom it may be closed.
    opens = request.desk.reads_amounts or letter.sheet is None or may_open(request.desk, bytes(letter.sheet.pdf))
    return render(request, "letters/letter_detail.html", {"letter": letter, "opens": opens})


@require_GET
@readers(Opened.LETTERS)
def letter_pdf(request: DeskRequest, pk: int) -> HttpResponse:
    """The sheet exactly as it went out."""
    letter = get_object_or_404(request.desk.letters.select_related("sheet"), pk=pk)
    if letter.sheet is None or letter.is_removed:
        raise Http404
    if not may_open(request.desk, bytes(letter.sheet.pdf)):
        raise PermissionDenied
    answer = HttpResponse(bytes(letter.sheet.pdf), content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{letter.document}-{letter.pk}.pdf"'
    return answer


@require_POST
@teachers
def letter_throw_away(request: DeskRequest, pk: int) -> HttpResponse:
    """A draft that nobody received is taken out."""
    letter = get_object_or_404(request.desk.letters, pk=pk, state=LetterState.DRAFT)
    throw_away(desk=request.desk, letter=letter)
    said(request, _("The draft is thrown away."))
    return redirect("letters:letter-list")
