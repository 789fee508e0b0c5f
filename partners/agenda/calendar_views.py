"""Changing what days are counted over: the program's figures, its schools, and their calendars.

It stands here because open dates that were counted over them move along.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import timedelta
from typing import TypeVar
from urllib.parse import urlencode

from django.contrib import messages
from django.forms import BaseForm
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.agenda import actions
from partners.agenda.forms import HolidaysForm
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.program.access import DeskRequest, keepers, teachers
from partners.program.desk import Desk
from partners.program.forms import ProgramForm
from partners.program.models import Program
from partners.school.closures import days_between
from partners.school.forms import DaysForm, NewSchoolForm, SchoolForm, YearForm
from partners.school.models import ClosureKind, School, SchoolDays
from partners.school.new_principal import likely_theirs, somebody_else

R = TypeVar("R")


def told(form: BaseForm, carry_out: Callable[[], R]) -> R | None:
    """What the verb returns; None where it refuses, and then the form says why."""
    try:
        return carry_out()
    except PlainError as error:
        form.add_error(None, gettext(error.sentence) % error.facts)
        return None


def moved_words(moved: int) -> str:
    if not moved:
        return _("No open date had to move.")
    return ngettext("%(count)d open date moved.", "%(count)d open dates moved.", moved) % {"count": moved}


@require_http_methods(["GET", "POST"])
@keepers
def settings(request: DeskRequest) -> HttpResponse:
    desk = request.desk
    form = ProgramForm(request.POST or None, instance=Program.fresh(desk.program.pk))
    if request.method == "POST" and form.is_valid():
        values = {name: form.cleaned_data[name] for name in form.Meta.fields}
        seen = form.cleaned_data["seen"]
        done = told(form, lambda: actions.edit_program(desk=desk, seen=seen, **values))
        if done:
            said(request, _("Settings saved. %(moved)s") % {"moved": moved_words(done[1])})
            return redirect("program:settings")
    return render(request, "program/settings.html", {"form": form})


@require_http_methods(["GET", "POST"])
@keepers
def school_new(request: DeskRequest) -> HttpResponse:
    form = NewSchoolForm(request.POST or None, desk=request.desk, instance=School())
    if request.method == "POST" and form.is_valid():
        like = form.cleaned_data.get("district_of")
        school, moved = actions.add_school(desk=request.desk, district_of=like, **form.values())
        said(request, _("%(school)s is in the book. %(moved)s") % {"school": school, "moved": moved_words(moved)})
        return redirect(school)
    return render(request, "school/form.html", {"form": form, "heading": _("A new school")})


@require_http_methods(["GET", "POST"])
@keepers
def school_edit(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    former = school.principal
    form = SchoolForm(request.POST or None, instance=get_object_or_404(request.desk.schools, pk=pk), desk=request.desk)
    if request.method == "POST" and form.is_valid():
        change = {"school": school, "seen": form.version_seen, **form.values()}
        moved = told(form, lambda: actions.edit_school(desk=request.desk, **change))
        if moved is not None:
            said(request, _("Saved. %(moved)s") % {"moved": moved_words(moved)})
            return redirect(after_the_principal(request.desk, school, former))
    return render(request, "school/form.html", {"form": form, "heading": school.name, "back": school})


def after_the_principal(desk: Desk, school: School, former: str) -> str:
    """Where somebody else is principal now: the page that asks which approvals went with the former one."""
    if somebody_else(former, school.principal):
        theirs = desk.approvals.filter(school=school).may_lapse(desk.day)
        if any(likely_theirs(by, former) for by in theirs.values_list("by", flat=True)):
            return reverse("school:approvals-lapse", args=[school.pk]) + "?" + urlencode({"former": former})
    return school.get_absolute_url()


@require_http_methods(["GET", "POST"])
@teachers
def day_new(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    if request.GET.get("kind") == ClosureKind.YEAR:
        return year_new(request, school)
    form = DaysForm(request.POST or None, desk=request.desk, instance=SchoolDays(school=school))
    if request.method == "POST" and form.is_valid():
        typed = form.instance
        moved = told(form, lambda: entered(request.desk, typed))
        if moved is not None:
            said(request, year_words(request.desk, [school], moved, year=typed.kind == ClosureKind.YEAR))
            return redirect(school)
    heading = _("Closed days, or a school year")
    return render(request, "school/form.html", {"form": form, "heading": heading, "back": school})


def entered(desk: Desk, typed: SchoolDays) -> int:
    if typed.kind == ClosureKind.YEAR:
        own = [typed.school]
        return actions.begin_year(desk=desk, schools=own, first=typed.first, last=typed.last, day_one=False)
    stretch = (typed.first, typed.last, typed.kind, typed.title)
    return actions.close_days(desk=desk, school=typed.school, stretches=[stretch])[1]


def year_new(request: DeskRequest, school: School) -> HttpResponse:
    days = SchoolDays(school=school, kind=ClosureKind.YEAR)
    form = YearForm(request.POST or None, desk=request.desk, instance=days)
    if request.method == "POST" and form.is_valid():
        typed = form.cleaned_data
        schools = [school, *typed.get("also_at", ())]
        year = {"first": typed["first"], "last": typed["last"], "day_one": typed.get("day_one", False)}
        moved = told(form, lambda: actions.begin_year(desk=request.desk, schools=schools, **year))
        if moved is not None:
            said(request, year_words(request.desk, schools, moved, year=True))
            return redirect(school)
    heading = _("First and last day of school")
    return render(request, "school/form.html", {"form": form, "heading": heading, "back": school})


def year_words(desk: Desk, schools: Sequence[School], moved: int, *, year: bool) -> str:
    words = _("The calendar is changed. %(moved)s") % {"moved": moved_words(moved)}
    if year and desk.classes.filter(school__in=schools).exists():
        words += " " + _("Are its classes and their numbers still right?")
    return words


@require_POST
@teachers
def day_remove(request: DeskRequest, pk: int) -> HttpResponse:
    days = get_object_or_404(request.desk.school_days.select_related("school"), pk=pk)
    try:
        moved = actions.open_days(desk=request.desk, days=days)
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
    else:
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
    last = first + timedelta(days=365)
    form = HolidaysForm(request.POST or None, desk=request.desk, first=first, last=last, taken=taken)
    if request.method == "POST" and form.is_valid():
        stretches = [(day, day, str(ClosureKind.CLOSED), name[:80]) for day, name in form.chosen()]
        done = told(form, lambda: actions.close_days(desk=request.desk, school=school, stretches=stretches))
        if done:
            said(request, _("The calendar is changed. %(moved)s") % {"moved": moved_words(done[1])})
            return redirect(school)
    return render(request, "school/form.html", {"form": form, "heading": _("Federal holidays"), "back": school})
