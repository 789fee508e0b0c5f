"""Set-up of an empty book; schools.

Schools, their calendars and their classes are changed in the agenda room, because dates that were counted over them
move along. Who must say yes to what is in approval_views.
"""

from __future__ import annotations

from typing import Any

from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.program.actions import set_up
from partners.program.forms import SetUpForm
from partners.program.models import User
from partners.school import actions
from partners.school.approval_page import yes_table
from partners.school.class_forms import CountForm
from partners.school.class_words import days_words, short_grade
from partners.school.models import ClosureKind, School, SchoolClass


@require_http_methods(["GET", "POST"])
@login_not_required
def begin(request: HttpRequest) -> HttpResponse:
    """Name and one school; open only while nobody can sign in yet."""
    if User.objects.exists():
        return redirect("program:sign-in")
    form = SetUpForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        with transaction.atomic():
            desk, password = set_up(name=form.cleaned_data["name"], program_name="", day=timezone.localdate())
            actions.add_school(desk=desk, name=form.cleaned_data["school"])
        assert desk.user is not None  # noqa: S101 -- set_up makes it
        login(request, desk.user, backend="django.contrib.auth.backends.ModelBackend")
        return render(request, "school/begun.html", {"password": password, "username": desk.user.username})
    return render(request, "school/begin.html", {"form": form})


@require_GET
@teachers
def school_list(request: DeskRequest) -> HttpResponse:
    return render(request, "school/school_list.html", {"schools": request.desk.schools})


@require_GET
@teachers
def school_detail(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    lost = school.lost_lessons.select_related("school_class")
    context = {
        "school": school,
        "days": list(school.school_days.filter(last__gte=request.desk.day)),
        "year_known": school.school_days.filter(kind=ClosureKind.YEAR, last__gte=request.desk.day).exists(),
        "past_days": school.school_days.filter(last__lt=request.desk.day).order_by("-first")[:20],
        **yes_table(request.desk, school),
        **classes_of(school),
        "lost": lost.filter(last__gte=request.desk.day),
        "past_lost": lost.filter(last__lt=request.desk.day).order_by("-first")[:20],
    }
    return render(request, "school/school_detail.html", context)


def classes_of(school: School) -> dict[str, Any]:
    """Its classes, how many students they have together, and what is kept of earlier school years."""
    rows = list(school.classes.all())
    return {
        "classes": [shown_class(row, school) for row in rows if row.students],
        "classes_gone": [row for row in rows if not row.students],
        "students": sum(row.students for row in rows),
        "earlier": list(school.class_counts.order_by("-year")),
    }


@require_http_methods(["GET", "POST"])
@teachers
def count_edit(request: DeskRequest, pk: int) -> HttpResponse:
    """What was kept of an earlier school year, put right by hand."""
    count = get_object_or_404(request.desk.class_counts.select_related("school"), pk=pk)
    form = CountForm(request.POST or None, desk=request.desk, instance=count)
    if request.method == "POST" and form.is_valid():
        actions.correct_count(desk=request.desk, count=count, seen=form.version_seen, **form.values())
        said(request, _("Saved. The summary of %(year)s tells it so.") % {"year": count.called})
        return redirect(count.school)
    heading = _("Classes and students of %(year)s") % {"year": count.called}
    return render(request, "school/form.html", {"form": form, "heading": heading, "back": count.school})


def shown_class(row: SchoolClass, school: School) -> dict[str, Any]:
    return {"row": row, "grade": short_grade(row.grade), "days": days_words(row.meets_on, school.cycle_length)}
