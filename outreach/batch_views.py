"""Letters in one go: making a batch, looking through it, and one file to print in the order of delivery."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from csp.decorators import csp_exempt
from django.contrib import messages
from django.db.models import Count, Q, QuerySet
from django.http import HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from outreach.batch_forms import BatchForm, IntroductionForm, MonthForm, YearEndForm
from outreach.batch_making import make_introductions, make_outing, make_thanks, make_year_end, up_to_date
from outreach.batch_page import batch_page, grouped, streamed
from outreach.batches import BatchSheets, OneSheet
from outreach.documents import envelope
from outreach.gathering.addresses import gather_envelope, partners_of, reachable, schools_of
from outreach.label_forms import envelope_words
from partners.ground.said import said
from partners.letters.batch_actions import edit_batch
from partners.letters.models import Batch, BatchKind, LetterState
from partners.program.access import DeskRequest, teachers
from partners.program.desk import Desk
from partners.year.handover_actions import former_teacher

SHOWN = 30
PART = 20


@require_http_methods(["GET", "POST"])
@teachers
def batch_list(request: DeskRequest) -> HttpResponse:
    """Which letters can be made in one go; those that were made, the latest first."""
    desk, kind = request.desk, request.POST.get("kind", "")
    month = MonthForm(request.POST if kind == BatchKind.THANKS else None, desk=desk, auto_id="thanks-%s")
    year = YearEndForm(request.POST if kind == BatchKind.YEAR_END else None, desk=desk)
    new = IntroductionForm(
        request.POST if kind == BatchKind.INTRODUCTION else None,
        desk=desk,
        initial={"school": request.GET.get("school")},
        auto_id="new-%s",
    )
    if request.method == "POST" and month.is_valid():
        return made(request, make_thanks(desk, *month.span))
    if request.method == "POST" and year.is_valid():
        return made(request, make_year_end(desk, year.span))
    if request.method == "POST" and new.is_valid():
        typed = new.cleaned_data
        return made(request, make_introductions(desk, typed.get("school"), former=typed["former"]))
    rows = batches_of(desk)
    context = {
        "month": month,
        "year": year,
        "new": new,
        "form": next((one for one in (month, new) if one.is_bound), year),
        "open": rows.filter(settled_on=None).exclude(left=0)[:SHOWN],
        "former": former_teacher(desk),
        "through": rows.exclude(settled_on=None)[:SHOWN],
    }
    return render(request, "outreach/batch_list.html", context)


def batches_of(desk: Desk) -> QuerySet[Any]:
    """With how many sheets are in it, and still here; of a teacher of some schools, those that are theirs."""
    own = Q(letters__in=desk.letters.filter(batch__isnull=False)) if desk.school_ids else Q()
    left = Count("letters", filter=own & Q(letters__state=LetterState.DRAFT))
    rows: QuerySet[Any] = desk.batches.annotate(left=left, all=Count("letters", filter=own))
    return (rows.exclude(all=0) if desk.school_ids else rows).order_by("-day", "-pk")


def made(request: DeskRequest, batch: Batch | None) -> HttpResponse:
    if batch is None:
        messages.info(request, _("There is nothing to write: everybody is in a batch already, or was written to."))
        return redirect("outreach:batch-list")
    said(request, _("The sheets are put together: %(title)s") % {"title": batch})
    return redirect(batch)


@require_GET
@teachers
def batch_detail(request: DeskRequest, pk: int) -> HttpResponse:
    batch = get_object_or_404(request.desk.batches.select_related("outing"), pk=pk)
    return render(request, "outreach/batch_detail.html", batch_page(request.desk, batch))


@require_http_methods(["GET", "POST"])
@teachers
def batch_edit(request: DeskRequest, pk: int) -> HttpResponse:
    batch = get_object_or_404(request.desk.batches, pk=pk)
    form = BatchForm(request.POST or None, desk=request.desk, instance=batch)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.batches, pk=pk)
        edit_batch(desk=request.desk, batch=stored, seen=form.version_seen, **form.values())
        said(request, _("%(title)s is changed.") % {"title": stored})
        return redirect(stored)
    return render(request, "outreach/batch_edit.html", {"form": form, "batch": batch})


@require_POST
@teachers
def batch_renew(request: DeskRequest, pk: int) -> HttpResponse:
    """Brings an open batch up to date with the record."""
    batch = get_object_or_404(request.desk.batches.select_related("outing"), pk=pk, settled_on=None)
    renewed = up_to_date(request.desk, batch)
    said(request, _("The batch holds what belongs into it now."))
    return redirect(renewed or batch)


@require_POST
@teachers
def batch_outing(request: DeskRequest, pk: int) -> HttpResponse:
    """The sheets for an outing: its open batch, brought up to date, or a new one."""
    outing = get_object_or_404(request.desk.outings, pk=pk)
    batch = make_outing(request.desk, outing)
    if batch is None:
        messages.warning(request, _("No place on this outing is waiting for a sheet."))
        return redirect(outing)
    return made(request, batch)


@csp_exempt()
@require_GET
@teachers
def batch_file(request: DeskRequest, pk: int) -> HttpResponseBase:
    """Every open sheet in one PDF, in the order of delivery, sent while it is drawn."""
    batch = get_object_or_404(request.desk.batches, pk=pk)
    sheets = BatchSheets(request.desk, batch)
    if not sheets.letters:
        messages.info(request, _("Nothing of this batch is left to print."))
        return redirect(batch)
    return pdf(sheets.file(), f"batch-{pk}")


@csp_exempt()
@require_GET
@teachers
def batch_envelopes(request: DeskRequest, pk: int) -> HttpResponseBase:
    """An envelope for everybody whom the post can reach, in the same order, from the school whose letter is in it."""
    batch = get_object_or_404(request.desk.batches, pk=pk)
    desk, asked = replace(request.desk, kept={}), envelope_words(request.GET)
    schools = schools_of(desk, batch)
    facts = [
        gather_envelope(desk, one, {"school": schools.get(one.pk) or batch.school_id, **asked})
        for one in partners_of(desk, batch)
    ]
    mailed = [one for one in facts if reachable(one.to)]
    if not mailed:
        messages.info(request, _("No place of this batch has a street and a city, so there is no envelope to print."))
        return redirect(batch)
    return pdf(envelope.stream(mailed), f"envelopes-{pk}")


def pdf(chunks: Iterator[bytes], name: str) -> StreamingHttpResponse:
    answer = StreamingHttpResponse(chunks, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return answer


@require_GET
@teachers
def batch_look(request: DeskRequest, pk: int) -> StreamingHttpResponse:
    """What every sheet lacks, on a page that is sent while they are looked through."""
    batch = get_object_or_404(request.desk.batches, pk=pk)
    return streamed(request, "outreach/batch_looking.html", {"batch": batch}, looked_through(request, batch))


def looked_through(request: DeskRequest, batch: Batch) -> Iterator[str]:
    sheets = BatchSheets(request.desk, batch)
    letters = sheets.letters
    lacking: list[OneSheet] = []
    yield how_far(0, len(letters))
    for done, one in enumerate(sheets.looked_at(letters), 1):
        lacking += [one] if one.gaps else []
        if done % PART == 0:
            yield how_far(done, len(letters))
    context = {"batch": batch, "lacking": len(lacking), "missing": grouped(lacking), "count": len(letters)}
    yield render_to_string("outreach/_batch_looked.html", context, request)


def how_far(done: int, todo: int) -> str:
    words = {"done": f"{done:,}", "all": f"{todo:,}", "part": done, "of": max(1, todo)}
    return render_to_string("outreach/_how_far.html", words)
