"""Pictures and papers: adding one, opening it, the tick, taking it away."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.funding.file_forms import AttachmentForm
from partners.ground.said import said
from partners.program import file_actions
from partners.program.access import DeskRequest, readers, teachers
from partners.program.file_models import FileKind
from partners.program.files import OWNERS, owner_of, shown
from partners.program.models import Opened


def page_of(owner: Any) -> Any:
    """The page on which the row stands: its own, or its school's."""
    return owner if hasattr(owner, "get_absolute_url") else owner.school


@require_GET
@readers(Opened.PROJECTS)
def attachment(request: DeskRequest, pk: int) -> HttpResponse:
    """The bytes: a picture in the page, a PDF as a download, and never as anything else."""
    kept = shown(request.desk).filter(pk=pk).select_related("file").first()
    if kept is None:
        if not request.desk.writes:
            raise PermissionDenied
        raise Http404
    is_picture = kept.file.kind == FileKind.PICTURE
    answer = HttpResponse(bytes(kept.file.content), content_type="image/jpeg" if is_picture else "application/pdf")
    name = f"{slugify(kept.title) or kept.pk}.{'jpg' if is_picture else 'pdf'}"
    answer["Content-Disposition"] = f'{"inline" if is_picture else "attachment"}; filename="{name}"'
    answer["X-Content-Type-Options"] = "nosniff"
    answer["Cache-Control"] = "private, no-store"
    return answer


@require_http_methods(["GET", "POST"])
@teachers
def attachment_new(request: DeskRequest, owner: str, pk: int) -> HttpResponse:
    if owner not in OWNERS:
        raise Http404
    row = get_object_or_404(getattr(request.desk, OWNERS[owner]), pk=pk)
    form = AttachmentForm(request.POST or None, request.FILES or None, desk=request.desk, owner=owner)
    if request.method == "POST" and form.is_valid():
        kept = file_actions.attach(desk=request.desk, **form.cleaned_data, **{owner: row})
        said(request, _("Kept: %(title)s.") % {"title": kept.title})
        return redirect(page_of(row))
    return render(request, "funding/attachment_form.html", {"form": form, "row": row, "back": page_of(row)})


@require_POST
@teachers
def attachment_tick(request: DeskRequest, pk: int) -> HttpResponse:
    kept = get_object_or_404(shown(request.desk), pk=pk, file__kind=FileKind.PICTURE)
    ticked = request.POST.get("shows_no_child") == "on"
    file_actions.tick(desk=request.desk, attachment=kept, shows_no_child=ticked)
    said(request, _("It may be printed now.") if ticked else _("It is printed nowhere now."))
    return redirect(page_of(owner_of(kept)))


@require_http_methods(["GET", "POST"])
@teachers
def attachment_remove(request: DeskRequest, pk: int) -> HttpResponse:
    kept = get_object_or_404(shown(request.desk).select_related("file").defer("file__content"), pk=pk)
    back = page_of(owner_of(kept))
    if request.method == "POST":
        file_actions.take_away(desk=request.desk, attachment=kept)
        said(request, _("Taken away: %(title)s.") % {"title": kept.title})
        return redirect(back)
    others = shown(request.desk).filter(file=kept.file).exclude(pk=kept.pk).count()
    return render(request, "funding/attachment_remove.html", {"kept": kept, "back": back, "others": others})


@require_POST
@teachers
def attachment_destroy(request: DeskRequest, pk: int) -> HttpResponse:
    """For a picture that should never have been taken: nothing of it stays."""
    kept = get_object_or_404(shown(request.desk).select_related("file"), pk=pk)
    back = page_of(owner_of(kept))
    file_actions.destroy(desk=request.desk, attachment=kept)
    said(request, _("Destroyed: %(title)s. Nothing of it is left in the book.") % {"title": kept.title})
    return redirect(back)
