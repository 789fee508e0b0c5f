"""The steps of a grant: handed in, answered, a change agreed, claimed, reported, the rest left."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from partners.funding import grant_actions as actions
from partners.funding.grant_models import Grant, GrantChange, GrantState
from partners.funding.grant_page import context, done_form
from partners.funding.grant_step_forms import AnswerForm, AskForm, ChangeForm
from partners.funding.grant_sums import line_sums
from partners.funding.grant_views import found
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers

# Where they named no day: about as long as small grants take to be answered. Common practice, and only filled in.
ANSWER_TAKES = timedelta(weeks=8)


@require_http_methods(["GET", "POST"])
@teachers
def grant_ask(request: DeskRequest, pk: int) -> HttpResponse:
    """The application went out."""
    grant, desk = found(request, pk), request.desk
    if grant.state != GrantState.PLANNED:
        return not_now(request, grant)
    sums = line_sums(grant)
    planned = [one.planned for one in sums]
    first: dict[str, Any] = {"asked_on": desk.day, "answer_by": grant.answer_by or desk.day + ANSWER_TAKES}
    first["asked_cents"] = grant.asked_cents or sum(planned) or None
    form = AskForm(request.POST or None, desk=desk, instance=grant, line_cents=planned, initial=first)
    if request.method == "POST" and form.is_valid():
        stored = found(request, pk)
        actions.ask_for(desk=desk, grant=stored, seen=form.version_seen, **form.values())
        said(request, _("Asked for. You are reminded when the answer is expected."))
        return redirect(stored)
    return render(request, "funding/grant_ask.html", {"form": form, "grant": found(request, pk)})


@require_http_methods(["GET", "POST"])
@teachers
def grant_answer(request: DeskRequest, pk: int) -> HttpResponse:
    """What they answered; an award can be put right on the same page."""
    grant, desk = found(request, pk), request.desk
    if grant.state not in (GrantState.ASKED, GrantState.AWARDED):
        return not_now(request, grant)
    form = AnswerForm(request.POST or None, desk=desk, instance=grant, initial=as_asked(request, grant))
    if request.method == "POST" and form.is_valid():
        stored = found(request, pk)
        said_now = answered(request, stored, form)
        said(request, said_now)
        return redirect(stored)
    return render(request, "funding/grant_answer.html", {"form": form, "grant": found(request, pk)})


def as_asked(request: DeskRequest, grant: Grant) -> dict[str, Any]:
    """What is filled in before they answer: today, and what was asked for."""
    if grant.state == GrantState.AWARDED:
        return {}
    return {"answered_on": request.desk.day, "awarded_cents": grant.asked_cents, "buy_from": request.desk.day}


def answered(request: DeskRequest, grant: Grant, form: AnswerForm) -> str:
    """Write a valid answer down. Returns what is said about it."""
    desk, seen, values = request.desk, form.version_seen, form.values()
    reason = values.pop("refusal_reason", "")
    if grant.state == GrantState.AWARDED:
        actions.correct_award(desk=desk, grant=grant, seen=seen, **values)
        return _("The award is put right.")
    if form.is_yes:
        actions.award(desk=desk, grant=grant, seen=seen, **values)
        return _("Awarded. Thanks to %(partner)s are on your list.") % {"partner": grant.partner}
    actions.refuse(desk=desk, grant=grant, seen=seen, answered_on=values["answered_on"], reason=reason)
    return _("Written down. %(partner)s rests, and a short note of thanks is on your list.") % {
        "partner": grant.partner
    }


@require_http_methods(["GET", "POST"])
@teachers
def grant_change(request: DeskRequest, pk: int) -> HttpResponse:
    """Somebody at the grantmaker agreed to a change of a line."""
    grant, desk = found(request, pk), request.desk
    if grant.state != GrantState.AWARDED or not grant.lines.exists():
        return not_now(request, grant)
    first = {"agreed_on": desk.day, "line": request.GET.get("line", "")}
    instance = GrantChange(program=desk.program, grant=grant)
    form = ChangeForm(request.POST or None, desk=desk, instance=instance, initial=first)
    if request.method == "POST" and form.is_valid():
        try:
            actions.agree_change(desk=desk, grant=grant, **form.values())
        except PlainError as error:
            form.add_error("moved_cents", _(error.sentence) % error.facts)
        else:
            said(request, _("The change is written down, with who agreed."))
            return redirect(grant)
    return render(request, "funding/grant_change.html", {"form": form, "grant": grant, "sums": line_sums(grant)})


@require_POST
@teachers
def grant_claimed(request: DeskRequest, pk: int) -> HttpResponse:
    return handed_in(request, pk, "claimed", actions.claim, _("Claimed. Keep what they answer with the papers."))


@require_POST
@teachers
def grant_reported(request: DeskRequest, pk: int) -> HttpResponse:
    return handed_in(request, pk, "reported", actions.report, _("The report is handed in."))


@require_POST
@teachers
def grant_rest_back(request: DeskRequest, pk: int) -> HttpResponse:
    """What they had paid in advance and was not spent went back to them."""
    grant = found(request, pk)
    if grant.state != GrantState.AWARDED or not grant.rest_may_go_back:
        return not_now(request, grant)
    form = done_form(request.desk, grant, "rest_back", request.POST)
    if not form.is_valid():
        shown = context(request.desk, grant, rest_back=form, form=form)
        return render(request, "funding/grant_detail.html", shown)
    actions.return_rest(desk=request.desk, grant=grant, day=form.cleaned_data["day"])
    said(request, _("Written down. The report says what went back, and when."))
    return redirect(grant)


def handed_in(request: DeskRequest, pk: int, name: str, verb: Callable[..., object], words: str) -> HttpResponse:
    """The end of a grant, on the day that was typed; said once."""
    grant = found(request, pk)
    if grant.state != GrantState.AWARDED or getattr(grant, f"{name}_on") is not None:
        return not_now(request, grant)
    form = done_form(request.desk, grant, name, request.POST)
    if not form.is_valid():
        shown = context(request.desk, grant, **{name: form, "form": form})
        return render(request, "funding/grant_detail.html", shown)
    verb(desk=request.desk, grant=grant, day=form.cleaned_data["day"])
    said(request, words)
    return redirect(grant)


@require_POST
@teachers
def grant_leave(request: DeskRequest, pk: int) -> HttpResponse:
    """What is left is not spent any more."""
    grant = found(request, pk)
    if grant.state != GrantState.AWARDED or grant.leftover_settled or grant.left_cents <= 0:
        return not_now(request, grant)
    actions.leave_rest(desk=request.desk, grant=grant)
    said(request, _("What is left stays unspent. Say so in the claim and the report."))
    return redirect(grant)


def not_now(request: DeskRequest, grant: Grant) -> HttpResponse:
    """That step is done already, or its turn has not come."""
    messages.info(request, _("That is settled already, or its turn has not come. The page shows how it stands."))
    return redirect(grant)
