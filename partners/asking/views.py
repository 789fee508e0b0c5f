"""Logging a visit, and what it became."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_GET, require_http_methods

from partners.asking import visit_page
from partners.asking.actions import log_visit
from partners.asking.forms import VisitForm
from partners.asking.prefill import open_stops
from partners.asking.saved import saved
from partners.ground.plain import PlainError
from partners.program.access import DeskRequest, teachers


@require_http_methods(["GET", "POST"])
@teachers
def visit_new(request: DeskRequest) -> HttpResponse:
    """One screen: where, what happened, and only what the answer asks for."""
    desk = request.desk
    stops = open_stops(desk)
    known = visit_page.known_for(desk, request.GET, stops)
    initial = visit_page.initial(desk, known, request.GET)
    form = VisitForm(request.POST or None, desk=desk, initial=initial, back_on=initial["back_on"])
    if request.method == "POST" and form.is_valid():
        try:
            return redirect(log_visit(desk=desk, said=form.said()))
        except PlainError as error:
            form.add_error(None, gettext(error.sentence) % error.facts)
    fixed = "partner" in request.GET or "stop" in request.GET
    return render(request, "visits/visit_form.html", visit_page.context(desk, form, known, stops, fixed))


@require_GET
@teachers
def visit_saved(request: DeskRequest, pk: int) -> HttpResponse:
    """What the visit wrote down, and what is to be done next."""
    desk = request.desk
    visit = get_object_or_404(desk.visits.select_related("partner", "contact", "stop__outing"), pk=pk)
    return render(request, "asking/visit_saved.html", saved(desk, visit))
