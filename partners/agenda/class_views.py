"""Classes, one by one or pasted as a list, and lessons they lose.

They stand here because the days on which classes have to start move along.
"""

from __future__ import annotations

from hashlib import sha256
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext, gettext_lazy, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.agenda import class_actions as actions
from partners.agenda.calendar_views import moved_words, told
from partners.agenda.pasted import known_schools, lines_of, not_listed, shown_rows
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.school.class_forms import ClassForm, LostLessonForm, PasteForm
from partners.school.class_paste import Paste, read_classes
from partners.school.models import LostLesson, School, SchoolClass

KEPT_FOR_TRADES = gettext_lazy("Class %(label)s counts no more. Its name stays for the old trades it took part in.")


@require_http_methods(["GET", "POST"])
@teachers
def class_new(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    form = ClassForm(request.POST or None, desk=request.desk, instance=SchoolClass(school=school))
    if request.method == "POST" and form.is_valid():
        done = told(form, lambda: actions.add_class(desk=request.desk, school=school, **form.values()))
        if done:
            said(request, _("Class %(label)s is in the book.") % {"label": done[0].label})
            return redirect(school)
    return render(request, "school/form.html", {"form": form, "heading": _("A class"), "back": school})


@require_http_methods(["GET", "POST"])
@teachers
def class_edit(request: DeskRequest, pk: int) -> HttpResponse:
    school_class = get_object_or_404(request.desk.classes.select_related("school"), pk=pk)
    label = school_class.label
    form = ClassForm(request.POST or None, desk=request.desk, instance=school_class)
    if request.method == "POST" and form.is_valid():
        change = {"school_class": school_class, "seen": form.version_seen, **form.values()}
        moved = told(form, lambda: actions.edit_class(desk=request.desk, **change))
        if moved is not None:
            said(request, _("Saved. %(moved)s") % {"moved": moved_words(moved)} if moved else _("Saved."))
            return redirect(school_class.school)
    remove_url = reverse("school:class-remove", args=[school_class.pk])
    context = {"form": form, "heading": label, "back": school_class.school, "remove_url": remove_url}
    return render(request, "school/form.html", context)


@require_POST
@teachers
def class_remove(request: DeskRequest, pk: int) -> HttpResponse:
    school_class = get_object_or_404(request.desk.classes.select_related("school"), pk=pk)
    try:
        gone = actions.remove_class(desk=request.desk, school_class=school_class)
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
    else:
        words = _("Class %(label)s taken out.") if gone else KEPT_FOR_TRADES
        said(request, words % {"label": school_class.label})
    return redirect(school_class.school)


@require_http_methods(["GET", "POST"])
@teachers
def class_paste(request: DeskRequest, pk: int) -> HttpResponse:
    """A list of classes of one school."""
    return paste_page(request, get_object_or_404(request.desk.schools, pk=pk))


@require_http_methods(["GET", "POST"])
@teachers
def classes_paste(request: DeskRequest) -> HttpResponse:
    """A list of classes in which each row names its school."""
    return paste_page(request, None)


def paste_page(request: DeskRequest, school: School | None) -> HttpResponse:
    """First shows what was read, row by row; saves it when it was shown and all of it is right."""
    form = PasteForm(request.POST or None, desk=request.desk)
    paste: Paste | None = None
    if request.method == "POST" and form.is_valid():
        text = form.cleaned_data["rows"]
        known = known_schools(request.desk)
        here = next((one for one in known if school and one.pk == school.pk), None)
        paste = read_classes(text, known, here)
        mark = mark_of(text)
        if paste.is_right and form.cleaned_data["looked_at"] == mark and "look" not in request.POST:
            lines = lines_of(request.desk, paste)
            gone = not_listed(request.desk, paste)[0].filter(pk__in=form.cleaned_data["gone"])
            done = told(form, lambda: actions.save_classes(desk=request.desk, lines=lines, gone=gone))
            if done:
                say_saved(request, *done)
                return redirect(school or "school:school-list")
        form.data = looked = request.POST.copy()
        looked["looked_at"] = mark
    return render(request, "school/class_paste.html", paste_context(request, form, school, paste))


def mark_of(text: str) -> str:
    """Tells whether the text was changed after it was looked at, however a browser sends its line ends."""
    return sha256("\n".join(text.split("\r\n")).encode()).hexdigest()


def paste_context(request: DeskRequest, form: PasteForm, school: School | None, paste: Paste | None) -> dict[str, Any]:
    rows = shown_rows(request.desk, paste) if paste else []
    stays: list[str] = []
    if paste and paste.is_right:
        gone: Any = form.fields["gone"]
        gone.queryset, stays = not_listed(request.desk, paste)
    return {
        "form": form,
        "school": school,
        "schools": request.desk.schools,
        "paste": paste,
        "rows": rows,
        "stays": stays,
        "whole": [gettext(error.sentence) % error.facts for error in paste.wrong] if paste else [],
        "wrong_rows": sum(bool(row["wrong"]) for row in rows),
    }


def say_saved(request: DeskRequest, added: int, changed: int, gone: int, moved: int) -> None:
    if not (added or changed or gone):
        messages.info(request, _("All these classes stand so already. Nothing was changed."))
        return
    parts = []
    if added:
        parts.append(ngettext("%(count)d class added.", "%(count)d classes added.", added) % {"count": added})
    if changed:
        parts.append(ngettext("%(count)d class changed.", "%(count)d classes changed.", changed) % {"count": changed})
    if gone:
        parts.append(ngettext("%(count)d class taken out.", "%(count)d classes taken out.", gone) % {"count": gone})
    if moved:
        parts.append(moved_words(moved))
    said(request, " ".join(parts))


@require_http_methods(["GET", "POST"])
@teachers
def lost_new(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    form = LostLessonForm(request.POST or None, desk=request.desk, instance=LostLesson(school=school))
    if request.method == "POST" and form.is_valid():
        done = told(form, lambda: actions.lose_lessons(desk=request.desk, school=school, **form.values()))
        if done:
            said(request, _("Lost lessons written down. %(moved)s") % {"moved": moved_words(done[1])})
            return redirect(school)
    return render(request, "school/form.html", {"form": form, "heading": _("Lost lessons"), "back": school})


@require_POST
@teachers
def lost_remove(request: DeskRequest, pk: int) -> HttpResponse:
    lost = get_object_or_404(request.desk.lost_lessons.select_related("school"), pk=pk)
    try:
        moved = actions.give_back_lessons(desk=request.desk, lost=lost)
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
    else:
        said(request, _("These lessons take place. %(moved)s") % {"moved": moved_words(moved)})
    return redirect(lost.school)
