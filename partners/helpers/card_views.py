"""Job cards, ready ones and the teacher's own; the welcome of each school."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.db.models import ProtectedError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.said import said
from partners.helpers import card_actions as actions
from partners.helpers.card_forms import CardForm, WelcomeForm
from partners.helpers.job_cards import ready_card, ready_cards, unsafe_treat
from partners.helpers.show_models import JobCard, Welcome
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Language, Opened


@require_GET
@readers(Opened.HELPERS)
def card_list(request: DeskRequest) -> HttpResponse:
    """Own cards first; then those to begin with, and for which schools the welcome is written."""
    desk = request.desk
    welcomes = {welcome.school_id: welcome for welcome in desk.welcomes}
    context = {
        "cards": desk.job_cards,
        "ready": ready_cards(language_of(request)),
        "language": language_of(request),
        "languages": Language.choices,
        "schools": [(school, welcomes.get(school.pk)) for school in desk.schools],
    }
    return render(request, "helpers/card_list.html", context)


def language_of(request: DeskRequest) -> str:
    asked = request.GET.get("language", "")
    return asked if asked in Language.values else str(request.desk.program.language)


@require_http_methods(["GET", "POST"])
@teachers
def card_new(request: DeskRequest) -> HttpResponse:
    """An empty card, or a copy of a ready one (`ready` in the address is its job)."""
    ready = ready_card(request.GET.get("ready", ""), language_of(request))
    form = CardForm(request.POST or None, desk=request.desk, instance=JobCard(), ready=ready)
    if request.method == "POST" and form.is_valid():
        card = actions.add_card(desk=request.desk, **form.values())
        said(request, _("Job card saved: %(title)s.") % {"title": card})
        return redirect("helpers:card-list")
    return render(request, "helpers/card_form.html", {"form": form, "ready": ready})


@require_http_methods(["GET", "POST"])
@teachers
def card_edit(request: DeskRequest, pk: int) -> HttpResponse:
    card = get_object_or_404(request.desk.job_cards, pk=pk)
    called = card.title
    form = CardForm(request.POST or None, desk=request.desk, instance=card)
    if request.method == "POST" and form.is_valid():
        actions.edit_card(desk=request.desk, card=card, seen=form.version_seen, **form.values())
        said(request, _("Job card saved: %(title)s.") % {"title": card})
        return redirect("helpers:card-list")
    return render(request, "helpers/card_form.html", {"form": form, "card": card, "called": called})


@require_POST
@teachers
def card_remove(request: DeskRequest, pk: int) -> HttpResponse:
    card = get_object_or_404(request.desk.job_cards, pk=pk)
    try:
        actions.remove_card(desk=request.desk, card=card)
    except ProtectedError:
        messages.warning(request, _("A session uses this card, so it stays."))
    else:
        said(request, _("Job card taken out: %(title)s.") % {"title": card})
    return redirect("helpers:card-list")


@require_http_methods(["GET", "POST"])
@teachers
def welcome_edit(request: DeskRequest, pk: int) -> HttpResponse:
    """Of one school; the first time with words to begin with."""
    desk = request.desk
    school = get_object_or_404(desk.schools, pk=pk)
    welcome = desk.welcomes.filter(school=school).first() or Welcome(school=school)
    form = WelcomeForm(request.POST or None, desk=desk, instance=welcome)
    if request.method == "POST" and form.is_valid():
        values: dict[str, Any] = form.values()
        actions.write_welcome(desk=desk, school=school, seen=form.version_seen, **values)
        if unsafe_treat(values["at_office"]):
            messages.warning(
                request, _("Home-made, or with nuts? Factory-sealed, with its label and nut-free is safer.")
            )
        said(request, _("The welcome of %(school)s is saved.") % {"school": school})
        return redirect("helpers:card-list")
    return render(request, "helpers/welcome_form.html", {"form": form, "school": school})
