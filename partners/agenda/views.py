"""Today, the monthly review, settling lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from django.contrib import messages
from django.db.models import QuerySet
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils.dateparse import parse_date
from django.utils.text import capfirst
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from partners.agenda.actions import CannotSettle, Chosen, code_of, no_way, settle
from partners.agenda.hands import hand_of
from partners.agenda.lines import BY_KEY, BY_SLUG, Place
from partners.agenda.review import MANY_LABELS, review
from partners.agenda.today import today
from partners.ground.due import DueLine, DueSource, line_key
from partners.ground.plain import PlainError
from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.desk import Desk
from partners.program.models import Opened

# More than a page holds.
AT_MOST = 200


@require_GET
@readers(Opened.TODAY)
def today_page(request: DeskRequest) -> HttpResponse:
    return render(request, "agenda/today.html", today(request.desk))


@require_GET
@readers(Opened.TODAY)
def review_page(request: DeskRequest) -> HttpResponse:
    after = Place.read(request.GET.get("after", ""))
    return render(request, "agenda/review.html", review(request.desk, after, hand_of(request.GET.get("hand", ""))))


@require_POST
@teachers
def settle_one(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """Carry out the button of one due line."""
    source = BY_SLUG.get(slug)
    if source is None or not whole(request.desk, source).filter(pk=pk).exists():
        raise Http404
    act = request.POST.get("act", "")
    if code_of(act) not in source.settle:
        raise Http404
    settle_and_say(request, {source: [pk]}, act)
    return redirect(to_line(safe_return(request, "agenda:review"), line_key(slug, pk)))


@require_POST
@teachers
def settle_many(request: DeskRequest) -> HttpResponse:
    """Carry out one act on every ticked line of the review."""
    act = request.POST.get("do", "")
    if act not in MANY_LABELS:
        raise Http404
    ticked: dict[DueSource, list[int]] = {}
    # A tick stands for all lines of an errand.
    keys = [key for tick in request.POST.getlist("line") for key in tick.split(" ")]
    for key in keys[:AT_MOST]:
        slug, _dash, pk = key.rpartition("-")
        if slug not in BY_KEY or not pk.isdecimal() or not pk.isascii() or len(pk) > 18:
            raise Http404
        ticked.setdefault(BY_KEY[slug], []).append(int(pk))
    if not ticked:
        messages.warning(request, _("Tick the lines first."))
    else:
        settle_and_say(request, ticked, act)
    return redirect(safe_return(request, "agenda:review"))


def to_line(page: str, key: str) -> str:
    """The page's address, at the line where it names no place itself: also without script the eye finds it again."""
    address = resolve_url(page)
    return address if "#" in address else f"{address}#line-{key}"


def whole(desk: Desk, source: DueSource) -> QuerySet[Any]:
    """All rows of the source's kind, also those settled already."""
    model = source.rows(desk).model
    return desk.narrowed(model._base_manager.filter(program=desk.program))


def chosen_from(desk: Desk, ticked: Mapping[DueSource, Sequence[int]], act: str) -> list[Chosen]:
    """The ticked rows that are still open, with what is settled along, each with the words on its own button."""
    lines = [
        (source, source.line(values, desk.day))
        for source, pks in ticked.items()
        for values in source.rows(desk).filter(pk__in=with_those_along(source, pks)).values_list(*source.columns)
    ]
    return [Chosen(source, line, label_of(line, act)) for source, line in lines]


def with_those_along(source: DueSource, pks: Sequence[int]) -> Sequence[int]:
    return [*pks, *source.along(pks)] if source.along else pks


def label_of(line: DueLine, act: str) -> str:
    return next((str(one.label) for one in line.acts if one.code == act), str(MANY_LABELS.get(act, act)))


def settle_and_say(request: DeskRequest, ticked: Mapping[DueSource, Sequence[int]], act: str) -> None:
    chosen = chosen_from(request.desk, ticked, act)
    if not chosen:
        messages.info(request, _("That is settled already."))
        return
    fit = [one for one in chosen if one.takes(act)]
    if len(fit) < len(chosen):
        messages.warning(request, no_way(chosen, act, str(MANY_LABELS[act])))
    if fit:
        settle_these(request, fit, act)


def settle_these(request: DeskRequest, chosen: Sequence[Chosen], act: str) -> None:
    labels = {one.label for one in chosen}
    label = labels.pop() if len(labels) == 1 else str(MANY_LABELS[act])
    to = parse_day(request.POST.get("day", ""))
    try:
        event = settle(desk=request.desk, chosen=chosen, act=act, label=label, to=to)
    except CannotSettle as reason:
        messages.warning(request, str(reason))
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
    else:
        if event.pk is None:
            messages.info(request, _("It stands so already. Nothing was changed."))
        else:
            said(request, words_after(chosen, label, event.facts["lines"]))


def words_after(chosen: Sequence[Chosen], label: str, settled: Sequence[Mapping[str, Any]]) -> str:
    """What was settled, and how: "Riverbend, 60 pots: Done", "12 lines: Done"."""
    if len(chosen) == 1:
        return _("%(what)s: %(label)s") % {"what": capfirst(chosen[0].heading), "label": settled[0]["settled"]}
    words = ngettext("%(count)d line: %(label)s", "%(count)d lines: %(label)s", len(settled))
    return words % {"count": len(settled), "label": label}


def parse_day(text: str) -> date | None:
    try:
        return parse_date(text)
    except ValueError:
        return None
