"""The rules for buying at a school; days that were counted by them move along."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from partners.agenda import actions
from partners.agenda.calendar_views import moved_words, told
from partners.funding.school_buying_form import SchoolBuyingForm
from partners.ground.said import said
from partners.program.access import DeskRequest, keepers


@require_http_methods(["GET", "POST"])
@keepers
def school_buying(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    own = get_object_or_404(request.desk.schools, pk=pk)
    form = SchoolBuyingForm(request.POST or None, instance=own, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        change = {"school": school, "seen": form.version_seen, **form.values()}
        moved = told(form, lambda: actions.edit_school(desk=request.desk, **change))
        if moved is not None:
            said(request, _("Saved. %(moved)s") % {"moved": moved_words(moved)})
            return redirect(school)
    heading = _("Buying at %(school)s") % {"school": school}
    return render(request, "school/form.html", {"form": form, "heading": heading, "back": school})
