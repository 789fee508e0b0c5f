"""Typing a stack of slips: one row of fields, Enter saves it and opens the next."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from partners.ground.said import said
from partners.helpers import actions
from partners.helpers.forms import SlipForm, StackForm
from partners.helpers.jobs import Job
from partners.helpers.models import Helper, SlipBatch
from partners.helpers.same_helper import likely_helpers
from partners.helpers.short_codes import DAYS, JOBS, PLACES, WAYS
from partners.program.access import DeskRequest, teachers

SHOWN = 8
STACKS_SHOWN = 20


@require_http_methods(["GET", "POST"])
@teachers
def slip_stacks(request: DeskRequest) -> HttpResponse:
    """Begin a stack, or go on with one."""
    form = StackForm(request.POST or None, desk=request.desk)
    if request.method == "POST" and form.is_valid():
        batch = actions.open_batch(desk=request.desk, **form.cleaned_data)
        said(request, _("Write “%(number)d” on the stack.") % {"number": batch.number})
        return redirect("helpers:slips-type", batch.pk)
    stacks = request.desk.slip_batches.select_related("school").order_by("-number")[:STACKS_SHOWN]
    return render(request, "helpers/slip_stacks.html", {"form": form, "stacks": stacks})


@require_http_methods(["GET", "POST"])
@teachers
def slips_type(request: DeskRequest, pk: int) -> HttpResponse:
    batch = get_object_or_404(request.desk.slip_batches.select_related("school"), pk=pk)
    form = SlipForm(request.POST or None, desk=request.desk, batch=batch)
    asks: dict[str, Any] = {}
    if request.method == "POST" and form.is_valid():
        values = form.values()
        asks = questions(request, form, values)
        if not asks:
            said(request, save(request, batch, values))
            return redirect("helpers:slips-type", batch.pk)
    return render(request, "helpers/slips_type.html", {"form": form, **page_of(batch), **asks})


def questions(request: DeskRequest, form: SlipForm, values: dict[str, Any]) -> dict[str, Any]:
    """What is asked back before the slip is saved: a child's name in the class, somebody who is known. None twice."""
    room_is = request.POST.get("room_is", "")
    if form.seems_a_child and room_is not in ("class", "left"):
        return {"child": values["room"]}
    if room_is == "left":
        values["room"] = ""
    if "new_one" in request.POST or "add_to" in request.POST:
        return {}
    likely = likely_helpers(request.desk, **{name: values[name] for name in ("name", "phone", "email")})
    return {"likely": likely, "room_is": room_is} if likely else {}


def save(request: DeskRequest, batch: SlipBatch, values: dict[str, Any]) -> str:
    """The slip as a new helper, or added to the one it is of. Returns what to say."""
    known = request.POST.get("add_to", "")
    if known:
        own = request.desk.helpers.filter(forgotten_on=None)
        helper = get_object_or_404(own, pk=int(known) if known.isdecimal() and len(known) < 18 else 0)
        actions.add_to_helper(desk=request.desk, helper=helper, batch=batch, **values)
        return _("Added to %(helper)s.") % {"helper": helper}
    helper = actions.type_slip(desk=request.desk, batch=batch, **values)
    place = {"place": helper.place_in_batch, "helper": helper.name}
    if helper.unreadable:
        return _("Slip %(place)d is kept for later.") % place
    return _("Slip %(place)d: %(helper)s.") % place


def page_of(batch: SlipBatch) -> dict[str, Any]:
    """The stack so far: what was typed last, and how many wait to be read."""
    typed = batch.helpers.order_by("-place_in_batch")
    return {
        "batch": batch,
        "place": actions.next_place(batch),
        "typed": typed[:SHOWN],
        "unread": typed.filter(unreadable=True).count(),
        "codes": codes(),
    }


def codes() -> list[dict[str, Any]]:
    """The letters and what they stand for, by the field they are typed into."""
    from django.utils.dates import WEEKDAYS

    ways = dict(Helper._meta.get_field("best_way").choices or ())
    jobs = dict(Job.choices)
    places = {"at_school": _("at school"), "from_home": _("from home"), "show_day": _("on show day")}
    return [
        {"title": _("Best way"), "letters": [(key, ways[value]) for key, value in WAYS.items()]},
        {"title": _("Where"), "letters": [(key, places[value]) for key, value in PLACES.items()]},
        {"title": _("Days"), "letters": [(key, WEEKDAYS[day]) for key, day in DAYS.items()]},
        {"title": _("Jobs"), "letters": [(key, jobs[value]) for key, value in JOBS.items()]},
        {
            "title": _("How often"),
            "letters": [("w", _("every week")), ("m", _("every month")), ("o", _("once"))],
        },
        {"title": _("Rules"), "letters": [("y", _("understands the office's sign-in rules"))]},
        {"title": _("Name"), "letters": [("?", _("cannot be read; type what can be read behind it"))]},
    ]
