"""Handing over the book, or a school: what stands open, the papers for it, and carrying it out."""

from __future__ import annotations

from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.ground.said import said
from partners.ground.tables import configured
from partners.program.access import DeskRequest, keepers, teachers
from partners.school.models import School
from partners.year.handover_actions import former_teacher, hand_over
from partners.year.handover_forms import HandOverForm, PartForm
from partners.year.handover_page import handover_page
from partners.year.open_things import OPEN, desk_of
from partners.year.tables import RowsTable


def part(request: DeskRequest) -> tuple[PartForm, School | None]:
    """The school that the address names; for anything else, the whole book."""
    form = PartForm(request.GET if "school" in request.GET else None, desk=request.desk)
    form.is_valid()
    return form, getattr(form, "cleaned_data", {}).get("school")


@require_GET
@teachers
def handover(request: DeskRequest) -> HttpResponse:
    form, school = part(request)
    context = {"form": form, "former": former_teacher(request.desk), **handover_page(request.desk, school)}
    return render(request, "year/handover.html", context)


@require_GET
@teachers
def handover_rows(request: DeskRequest) -> HttpResponse:
    """The rows behind one number."""
    kind = OPEN.get(request.GET.get("what", "theirs"))
    if kind is None:
        raise Http404
    school = part(request)[1]
    rows = kind.found(desk_of(request.desk, school))
    table = configured(request, RowsTable(rows, kind=kind, desk=request.desk, empty_text=_("Nothing is open here.")))
    return render(request, "year/handover_rows.html", {"table": table, "kind": kind, "school": school})


@require_http_methods(["GET", "POST"])
@keepers
def handover_carry_out(request: DeskRequest) -> HttpResponse:
    """The name under letters, and approvals that lapse; one change, with its undo."""
    form = HandOverForm(request.POST or None, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        hand_over(desk=request.desk, **form.cleaned_data)
        said(request, _("The book is handed over to %(name)s.") % {"name": form.cleaned_data["teacher"]})
        return redirect("year:handover")
    return render(request, "year/handover_carry_out.html", {"form": form})
