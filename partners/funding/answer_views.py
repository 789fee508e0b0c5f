"""Answers of an application, and those that are kept ready for every one."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.funding import answer_actions as actions
from partners.funding.answer_actions import Ready
from partners.funding.answer_forms import ReadyAnswerForm, SeenForm, TakeOverForm, answer_forms
from partners.funding.answer_words import first_answers, for_grant
from partners.funding.grant_models import ReadyAnswer
from partners.funding.grant_views import found
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers


@require_http_methods(["GET", "POST"])
@teachers
def grant_words(request: DeskRequest, pk: int) -> HttpResponse:
    """The application's own answers."""
    grant = found(request, pk)
    answers = answer_forms(request.desk, grant, request.POST or None)
    seen = SeenForm(request.POST or None, desk=request.desk, initial={"seen": grant.version})
    if request.method == "POST" and answers.is_valid() and seen.is_valid():
        actions.keep_answers(desk=request.desk, grant=grant, answers=answers.edits(), **seen.cleaned_data)
        said(request, _("The answers are kept."))
        return redirect("funding:grant-words", pk=pk)
    take = TakeOverForm(desk=request.desk, grant=grant)
    shown = {"grant": grant, "answers": answers, "seen": seen, "take": take}
    return render(request, "funding/grant_words.html", shown)


@require_POST
@teachers
def grant_take_over(request: DeskRequest, pk: int) -> HttpResponse:
    """Copy ready answers into the application."""
    grant = found(request, pk)
    form = TakeOverForm(request.POST, desk=request.desk, grant=grant)
    if form.is_valid():
        picked = [for_grant(grant, Ready(one.question, one.words)) for one in form.cleaned_data["ready"]]
        actions.take_over(desk=request.desk, grant=grant, ready=picked)
        said(request, _("Copied. Change them here as this grantmaker asks."))
    else:
        messages.warning(request, _("Tick the answers first."))
    return redirect("funding:grant-words", pk=pk)


@require_GET
@teachers
def ready_answers(request: DeskRequest) -> HttpResponse:
    kept = request.desk.ready_answers
    offered = [] if kept.exists() else first_answers(request.desk)
    return render(request, "funding/ready_answers.html", {"answers": kept, "offered": offered})


@require_POST
@teachers
def ready_answers_begin(request: DeskRequest) -> HttpResponse:
    """Take the questions that every application asks, answered from the record."""
    if request.desk.ready_answers.exists():
        messages.info(request, _("There are ready answers already."))
    else:
        actions.begin_answers(desk=request.desk, ready=first_answers(request.desk))
        said(request, _("Four answers are there to begin with. Make them your own."))
    return redirect("funding:ready-answers")


@require_http_methods(["GET", "POST"])
@teachers
def ready_answer_new(request: DeskRequest) -> HttpResponse:
    form = ReadyAnswerForm(request.POST or None, desk=request.desk, instance=ReadyAnswer())
    if request.method == "POST" and form.is_valid():
        actions.add_ready(desk=request.desk, **form.values())
        said(request, _("The answer is kept."))
        return redirect("funding:ready-answers")
    return render(request, "funding/ready_answer_form.html", {"form": form})


@require_http_methods(["GET", "POST"])
@teachers
def ready_answer_edit(request: DeskRequest, pk: int) -> HttpResponse:
    answer = get_object_or_404(request.desk.ready_answers, pk=pk)
    form = ReadyAnswerForm(request.POST or None, desk=request.desk, instance=answer)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.ready_answers, pk=pk)
        actions.edit_ready(desk=request.desk, answer=stored, seen=form.version_seen, **form.values())
        said(request, _("The answer is kept."))
        return redirect("funding:ready-answers")
    return render(request, "funding/ready_answer_form.html", {"form": form, "answer": answer})


@require_POST
@teachers
def ready_answer_remove(request: DeskRequest, pk: int) -> HttpResponse:
    answer = get_object_or_404(request.desk.ready_answers, pk=pk)
    actions.remove_ready(desk=request.desk, answer=answer)
    said(request, _("Taken out. Applications keep what they copied."))
    return redirect("funding:ready-answers")
