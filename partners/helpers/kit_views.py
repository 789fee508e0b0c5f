"""Kits that helpers take home."""

from __future__ import annotations

from datetime import timedelta

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.helpers import kit_actions as actions
from partners.helpers.models import Kit
from partners.helpers.session_forms import KitBackForm, KitForm
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened
from partners.school.clock import clock

SHOWN = 40
BACK_SHOWN = 20
# Common practice: two weeks at home.
AT_HOME = timedelta(days=14)


@require_GET
@readers(Opened.HELPERS)
def kit_list(request: DeskRequest) -> HttpResponse:
    kits = request.desk.kits.select_related("helper", "school")
    page = LazyPaginator(kits.filter(back_on=None).order_by("due", "pk"), SHOWN).get_page(request.GET.get("page"))
    back = kits.filter(back_on__isnull=False).order_by("-out_on", "-pk")[:BACK_SHOWN]
    return render(request, "helpers/kit_list.html", {"page": page, "back": back})


@require_http_methods(["GET", "POST"])
@teachers
def kit_new(request: DeskRequest, pk: int) -> HttpResponse:
    """A kit for this helper."""
    desk = request.desk
    helper = get_object_or_404(desk.helpers.active(), pk=pk)
    due = clock(desk.program, helper.school_id).on_or_after(desk.day + AT_HOME)
    first = {"out_on": desk.day, "due": due, "school": helper.school_id}
    form = KitForm(request.POST or None, desk=desk, initial=first)
    if request.method == "POST" and form.is_valid():
        actions.take_home(desk=desk, helper=helper, **form.values())
        said(request, _("%(helper)s takes it home.") % {"helper": helper})
        return redirect(helper)
    return render(request, "helpers/kit_form.html", {"form": form, "helper": helper})


@require_http_methods(["GET", "POST"])
@teachers
def kit_back(request: DeskRequest, pk: int) -> HttpResponse:
    kit = get_object_or_404(request.desk.kits.select_related("helper"), pk=pk)
    if kit.back_on is not None:
        messages.info(request, _("That is back already."))
        return redirect(kit.helper)
    form = KitBackForm(request.POST or None, desk=request.desk, initial={"quantity_back": kit.quantity})
    if request.method == "POST" and form.is_valid():
        actions.kit_back(desk=request.desk, kit=kit, day=request.desk.day, **form.cleaned_data)
        said(request, back_words(kit))
        return redirect(kit.helper)
    return render(request, "helpers/kit_back.html", {"form": form, "kit": kit})


def back_words(kit: Kit) -> str:
    words = _("%(what)s is back from %(helper)s. Say thank you.") % {"what": kit, "helper": kit.helper}
    missing = (kit.quantity or 0) - (kit.quantity_back or 0)
    return words + " " + _("%(count)d are missing.") % {"count": missing} if missing > 0 else words


@require_POST
@teachers
def kit_thank(request: DeskRequest, pk: int) -> HttpResponse:
    kit = get_object_or_404(request.desk.kits.select_related("helper"), pk=pk, back_on__isnull=False)
    if kit.thanked_on is None:
        actions.thank_for_kit(desk=request.desk, kit=kit, day=request.desk.day)
        said(request, _("Thanked: %(helper)s.") % {"helper": kit.helper})
    return redirect(safe_return(request, kit.helper.get_absolute_url()))
