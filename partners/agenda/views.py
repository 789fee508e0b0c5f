"""Today, the monthly review, settling lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django.contrib import messages
from django.db.models import QuerySet
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils.dateparse import parse_date
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_POST

from partners.agenda.actions import CannotSettle, Chosen, settle
from partners.agenda.lines import BY_KEY, BY_SLUG, Place
from partners.agenda.review import MANY, review
from partners.agenda.today import today
from partners.ground.due import DueSource
from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.desk import Desk
from partners.program.models import Opened

AT_MOST = 200


@require_GET
@readers(Opened.TODAY)
def today_page(request: DeskRequest) -> HttpResponse:
    return render(request, "agenda/today.html", today(request.desk))


@require_GET
@readers(Opened.TODAY)
def review_page(request: DeskRequest) -> HttpResponse:
    after = Place.read(request.GET.get("after", ""))
    return render(request, "agenda/review.html", review(request.desk, after))


@require_POST
@teachers
def settle_one(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """Carry out the button of one due line."""
    source = BY_SLUG.get(slug)
    if source is None or not whole(request.desk, source).filter(pk=pk).exists():
        raise Http404
    act = request.POST.get("act", "")
    settle_and_say(request, {source: [pk]}, act)
    return redirect(safe_return(request))


@require_POST
@teachers
def settle_many(request: DeskRequest) -> HttpResponse:
    """Carry out one act on every ticked line of the review."""
    ticked: dict[DueSource, list[int]] = {}
    for key in request.POST.getlist("line")[:AT_MOST]:
        slug, _dash, pk = key.rpartition("-")
        if slug not in BY_KEY or not pk.isdecimal():
            raise Http404
        ticked.setdefault(BY_KEY[slug], []).append(int(pk))
    if not ticked:
        messages.warning(request, _("Tick the lines first."))
    else:
        settle_and_say(request, ticked, request.POST.get("do", ""))
    return redirect(safe_return(request, "agenda:review"))


def whole(desk: Desk, source: DueSource) -> QuerySet[Any]:
    """All rows of the source's kind, also those settled already."""
    model = source.rows(desk).model
    return desk.narrowed(model._base_manager.filter(program=desk.program))


def chosen_from(desk: Desk, ticked: Mapping[DueSource, Sequence[int]]) -> list[Chosen]:
    """Those of the ticked rows that are still open."""
    chosen = []
    for source, pks in ticked.items():
        rows = source.rows(desk).filter(pk__in=pks)
        lines = {values[0]: source.line(values, desk.day) for values in rows.values_list(*source.columns)}
        chosen += [Chosen(source, row, lines[row.pk]) for row in rows if row.pk in lines]
    return chosen


def label_of(chosen: Sequence[Chosen], act: str) -> str:
    """The words on the button that was pressed."""
    for code in (one for one in chosen[0].line.acts if one.code == act):
        return str(code.label)
    return next((str(one["label"]) for one in MANY if one["value"] == act), act)


def settle_and_say(request: DeskRequest, ticked: Mapping[DueSource, Sequence[int]], act: str) -> None:
    chosen = chosen_from(request.desk, ticked)
    if not chosen:
        messages.info(request, _("That is settled already."))
        return
    label = label_of(chosen, act)
    try:
        settle(desk=request.desk, chosen=chosen, act=act, label=label, to=parse_day(request.POST.get("day", "")))
    except CannotSettle as reason:
        messages.warning(request, str(reason))
        return
    words = ngettext("%(label)s: %(count)d line.", "%(label)s: %(count)d lines.", len(chosen))
    said(request, words % {"label": label, "count": len(chosen)})


def parse_day(text: str) -> date | None:
    try:
        return parse_date(text)
    except ValueError:
        return None
