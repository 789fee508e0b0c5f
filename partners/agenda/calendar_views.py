"""Changing a school's calendar. It stands here because open dates that were counted over it move along."""

from __future__ import annotations

from datetime import timedelta

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from partners.agenda.actions import close_days, open_days
from partners.agenda.forms import HolidaysForm
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.school.closures import days_between
from partners.school.forms import DaysForm
from partners.school.models import ClosureKind, SchoolDays


def moved_words(moved: int) -> str:
    if not moved:
        return _("No open date had to move.")
    return ngettext("%(count)d open date moved.", "%(count)d open dates moved.", moved) % {"count": moved}


@require_http_methods(["GET", "POST"])
@teachers
def day_new(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    form = DaysForm(request.POST or None, desk=request.desk, instance=SchoolDays(school=school))
    if request.method == "POST" and form.is_valid():
        typed = form.cleaned_data
        stretch = (typed["first"], typed["last"], typed["kind"], typed["title"])
        _entered, moved = close_days(desk=request.desk, school=school, stretches=[stretch])
        said(request, _("The calendar is changed. %(moved)s") % {"moved": moved_words(moved)})
        return redirect(school)
    context = {"form": form, "heading": _("Closed days, or a school year"), "back": school}
    return render(request, "school/form.html", context)


@require_POST
@teachers
def day_remove(request: DeskRequest, pk: int) -> HttpResponse:
    days = get_object_or_404(request.desk.school_days.select_related("school"), pk=pk)
    moved = open_days(desk=request.desk, days=days)
    said(request, _("Taken out of the calendar. %(moved)s") % {"moved": moved_words(moved)})
    return redirect(days.school)


@require_http_methods(["GET", "POST"])
@teachers
def holidays(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    taken = {
        day
        for first, last in school.school_days.exclude(kind=ClosureKind.YEAR).values_list("first", "last")
        for day in days_between(first, last)
    }
    first = request.desk.day
    span = {"first": first, "last": first + timedelta(days=365), "taken": taken}
    form = HolidaysForm(request.POST or None, desk=request.desk, **span)
    if request.method == "POST" and form.is_valid():
        stretches = [(day, day, str(ClosureKind.CLOSED), name[:80]) for day, name in form.chosen()]
        _entered, moved = close_days(desk=request.desk, school=school, stretches=stretches)
        said(request, _("The calendar is changed. %(moved)s") % {"moved": moved_words(moved)})
        return redirect(school)
    return render(request, "school/form.html", {"form": form, "heading": _("Federal holidays"), "back": school})
