"""All handed over or mailed? Which not? Everything but what is ticked is frozen and its thanks are said at once."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.utils.html import format_html
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from outreach.batch_forms import GoneForm
from outreach.batch_page import SHORT, batch_page, streamed, words_url
from outreach.batch_views import how_far
from outreach.batches import BatchSheets, NotLikeThis
from partners.ground.changes import AlreadySaved, ChangedMeanwhile
from partners.ground.said import said
from partners.letters.batch_actions import batch_gone, leave_out
from partners.letters.models import Batch, Letter
from partners.program.access import DeskRequest, teachers


@require_POST
@teachers
def batch_went(request: DeskRequest, pk: int) -> HttpResponseBase:
    """All that is not ticked went out; many at once behind a page that is sent meanwhile."""
    batch = get_object_or_404(request.desk.batches, pk=pk)
    if batch.settled_on is not None:
        return redirect(batch)
    form = GoneForm(request.POST, desk=request.desk, batch=batch)
    if not form.is_valid():
        return page(request, batch, form)
    going = [one for one in BatchSheets(request.desk, batch).letters if one.pk not in form.ticked]
    if not going:
        form.add_error("here", _("Every sheet is ticked as still here, so none went out."))
        return page(request, batch, form)
    if len(going) > SHORT:
        return streamed(request, "outreach/batch_running.html", {"batch": batch}, lines(request, batch, form, going))
    try:
        done = sum(steps(request, batch, form, going))
    except NotLikeThis as refused:
        form.add_error("here", reason(refused))
        return page(request, batch, form)
    said(request, gone_words(done))
    return redirect(batch)


def page(request: DeskRequest, batch: Batch, form: GoneForm) -> HttpResponse:
    return render(request, "outreach/batch_detail.html", batch_page(request.desk, batch, form))


def steps(request: DeskRequest, batch: Batch, form: GoneForm, going: list[Letter]) -> Iterator[int]:
    parts = BatchSheets(request.desk, batch).going(going)
    typed = form.cleaned_data
    return batch_gone(desk=request.desk, batch=batch, parts=parts, state=typed["state"], day=typed["day"])


def lines(request: DeskRequest, batch: Batch, form: GoneForm, going: list[Letter]) -> Iterator[str]:
    """A line for each part that is kept; the last says that all is, or why nothing was."""
    context: dict[str, Any] = {"batch": batch, "failed": _("Something went wrong.")}
    done = 0
    try:
        yield how_far(0, len(going))
        for part in steps(request, batch, form, going):
            done += part
            yield how_far(done, len(going))
        context |= {"failed": "", "words": gone_words(done)}
    except NotLikeThis as refused:
        context["failed"] = reason(refused)
    except AlreadySaved:
        context["failed"] = _("That was saved already, once.")
    except ChangedMeanwhile as changed:
        context["failed"] = str(changed)
    except Exception:
        yield render_to_string("outreach/_batch_end.html", context, request)
        raise
    yield render_to_string("outreach/_batch_end.html", context, request)


def reason(refused: NotLikeThis) -> str:
    """Which sheet must not go out like this, and why, with the way to its words."""
    letter, stop = refused.sheet.letter, refused.sheet.stop
    return format_html('<a href="{}">{}</a>: {}', words_url(letter), letter, stop.words if stop else "")


def gone_words(done: int) -> str:
    words = ngettext(
        "%(count)d sheet is kept in the register as it went out.",
        "%(count)d sheets are kept in the register as they went out.",
        done,
    )
    return words % {"count": done}


@require_POST
@teachers
def batch_leave_out(request: DeskRequest, pk: int) -> HttpResponse:
    """What is ticked does not go out with this batch, or not at all."""
    batch = get_object_or_404(request.desk.batches, pk=pk)
    form = GoneForm(request.POST, desk=request.desk, batch=batch)
    letters = BatchSheets(request.desk, batch).letters
    ticked = [one for one in letters if one.pk in form.ticked]
    if not letters:
        return redirect(batch)
    if not ticked:
        form.is_valid()
        form.add_error("here", _("Tick the sheets that are to leave the batch."))
        return page(request, batch, form)
    count = leave_out(desk=request.desk, batch=batch, letters=ticked)
    words = ngettext("%(count)d sheet is taken out.", "%(count)d sheets are taken out.", count)
    said(request, words % {"count": count})
    return redirect(batch)
