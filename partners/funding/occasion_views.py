"""Free days: which come next, what each asks for, and what we got."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

from partners.funding import occasion_actions as actions
from partners.funding.occasion_forms import OccasionForm, WentForm
from partners.funding.occasion_models import Occasion, OccasionDay
from partners.funding.occasion_words import day_words
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened

SHOWN, OVER_SHOWN, TIMES_SHOWN = 40, 20, 30


@require_GET
@readers(Opened.MONEY)
def occasion_list(request: DeskRequest) -> HttpResponse:
    """Those that come again, the next first; then what is over."""
    rows = request.desk.occasions.select_related("partner")
    coming = rows.filter(next_on__isnull=False, ended_on=None).order_by("next_on", "pk")
    page = LazyPaginator(coming, SHOWN).get_page(request.GET.get("page"))
    over = rows.filter(next_on=None).order_by("-pk")[:OVER_SHOWN]
    return render(request, "funding/occasion_list.html", {"page": page, "over": over})


@require_GET
@readers(Opened.MONEY)
def occasion_detail(request: DeskRequest, pk: int) -> HttpResponse:
    occasion = get_object_or_404(request.desk.occasions.select_related("partner"), pk=pk)
    next_on = occasion.next_on
    context = {
        "occasion": occasion,
        "times": occasion.days.all()[:TIMES_SHOWN],
        "last": occasion.days.filter(went=True).exclude(got="").first(),
        "has_come": next_on is not None and next_on <= request.desk.day,
        "is_past": next_on is not None and next_on < request.desk.day,
        "call_now": occasion.confirm_by is not None and occasion.confirm_by <= request.desk.day,
    }
    return render(request, "funding/occasion_detail.html", context)


@require_http_methods(["GET", "POST"])
@teachers
def occasion_new(request: DeskRequest) -> HttpResponse:
    first = {"partner": request.GET.get("partner", "")}
    form = OccasionForm(request.POST or None, desk=request.desk, instance=Occasion(), initial=first)
    if request.method == "POST" and form.is_valid():
        occasion = actions.add_occasion(desk=request.desk, **form.values())
        said(request, _("Free day saved: %(title)s. The next time is %(day)s.") % named(occasion))
        return redirect(occasion)
    return render(request, "funding/occasion_form.html", {"form": form})


@require_http_methods(["GET", "POST"])
@teachers
def occasion_edit(request: DeskRequest, pk: int) -> HttpResponse:
    occasion = get_object_or_404(request.desk.occasions, pk=pk, ended_on=None)
    called = occasion.title
    form = OccasionForm(request.POST or None, desk=request.desk, instance=occasion)
    if request.method == "POST" and form.is_valid():
        actions.edit_occasion(desk=request.desk, occasion=occasion, seen=form.version_seen, **form.values())
        said(request, _("Free day changed: %(title)s.") % named(occasion))
        return redirect(occasion)
    return render(request, "funding/occasion_form.html", {"form": form, "occasion": occasion, "called": called})


def named(occasion: Occasion) -> dict[str, str]:
    return {"title": str(occasion), "day": day_words(occasion.next_on) if occasion.next_on else _("not known")}


@require_POST
@teachers
def occasion_confirm(request: DeskRequest, pk: int) -> HttpResponse:
    """They said whether the next time takes place."""
    occasion = get_object_or_404(request.desk.occasions, pk=pk)
    desk = request.desk
    if occasion.next_on is None:
        messages.info(request, _("It does not come again, so there is nothing to confirm."))
    elif request.POST.get("held") == "no":
        actions.not_this_time(desk=desk, occasion=occasion, day=desk.day)
        said(request, _("Not this time: %(title)s. The next time is %(day)s.") % named(occasion))
    elif occasion.confirmed_on is not None:
        messages.info(request, _("That is confirmed already."))
    else:
        actions.confirm(desk=desk, occasion=occasion, day=desk.day)
        said(request, _("Confirmed: %(title)s takes place on %(day)s.") % named(occasion))
    return redirect(occasion)


@require_http_methods(["GET", "POST"])
@teachers
def occasion_went(request: DeskRequest, pk: int) -> HttpResponse:
    """What became of one time, the last that came or an earlier one."""
    desk = request.desk
    occasion = get_object_or_404(desk.occasions, pk=pk)
    has_come = occasion.next_on is not None and occasion.next_on <= desk.day
    first = {"day": occasion.next_on, "went": "yes"} if has_come else {}
    form = WentForm(request.POST or None, desk=desk, instance=OccasionDay(occasion=occasion), initial=first)
    if request.method == "POST" and form.is_valid():
        told = form.cleaned_data
        values = {"held_on": told["day"], "went": told["went"], "got": told["got"]}
        actions.tell(desk=desk, occasion=occasion, day=desk.day, **values)
        said(request, _("Written down: %(title)s. The next time is %(day)s.") % named(occasion))
        return redirect(occasion)
    return render(request, "funding/occasion_went.html", {"form": form, "occasion": occasion})


@require_POST
@teachers
def occasion_end(request: DeskRequest, pk: int) -> HttpResponse:
    occasion = get_object_or_404(request.desk.occasions, pk=pk)
    if occasion.ended_on is not None:
        messages.info(request, _("That is settled already."))
    else:
        actions.end_occasion(desk=request.desk, occasion=occasion, day=request.desk.day)
        said(request, _("No longer held: %(title)s. Nothing of it is due any more.") % named(occasion))
    return redirect(occasion)
