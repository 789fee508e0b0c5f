"""Two rows of one person, side by side, and put together."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from partners.asking.address import number
from partners.ground.said import said
from partners.helpers.tables import clearance_words
from partners.program.access import DeskRequest, teachers
from partners.story.merge_people import merge_contacts, merge_helpers


@require_http_methods(["GET", "POST"])
@teachers
def helper_merge(request: DeskRequest, pk: int) -> HttpResponse:
    rows = request.desk.helpers.filter(forgotten_on=None).select_related("school")
    kept, other = two_of(request, rows, pk)
    if request.method == "POST":
        merge_helpers(desk=request.desk, kept=kept, other=other)
        return one_now(request, kept, other, kept)
    shown = side_by_side(kept, other, ("school", "room", "phone", "email", "language", "skills", "note", "stopped_on"))
    cleared = [clearance_words(helper, request.desk.day, today=True) for helper in (kept, other)]
    shown["told"].append((_("Clearance (the longer one holds)"), *cleared))
    return render(request, "story/person_merge.html", shown)


@require_http_methods(["GET", "POST"])
@teachers
def contact_merge(request: DeskRequest, pk: int) -> HttpResponse:
    """Both have to stand at one partner."""
    kept, other = two_of(request, request.desk.contacts.select_related("partner"), pk)
    if kept.partner_id != other.partner_id:
        raise Http404
    if request.method == "POST":
        merge_contacts(desk=request.desk, kept=kept, other=other)
        return one_now(request, kept, other, kept.partner)
    return render(request, "story/person_merge.html", side_by_side(kept, other, ("role", "phone", "email", "since")))


def two_of(request: DeskRequest, rows: Any, pk: int) -> tuple[Any, Any]:
    """The row that stays, and the one that the form or the address names."""
    asked = request.POST.get("other") or request.GET.get("other", "")
    if not asked.isdecimal() or number(asked) == pk:
        raise Http404
    return get_object_or_404(rows, pk=pk), get_object_or_404(rows, pk=number(asked))


def one_now(request: DeskRequest, kept: Any, other: Any, page: Any) -> HttpResponse:
    said(request, _("%(person)s and %(other)s are one now.") % {"person": kept, "other": other})
    return redirect(page)


def side_by_side(kept: Any, other: Any, names: tuple[str, ...]) -> dict[str, Any]:
    """The context of story/person_merge.html: what either says of these columns."""
    labels = [(str(kept._meta.get_field(name).verbose_name).capitalize(), name) for name in names]
    told = [(label, getattr(kept, name) or "", getattr(other, name) or "") for label, name in labels]
    return {"kept": kept, "other": other, "told": [one for one in told if one[1] or one[2]]}
