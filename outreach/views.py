"""From the screen to paper: a sheet's words and gaps, its PDF, handing it over."""

from __future__ import annotations

from typing import Any

from csp.decorators import csp_exempt
from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from outreach.gathering.family import copies_shown, standing_shown
from outreach.mending import way
from outreach.page import overhear
from outreach.prepared import Prepared
from outreach.preparing import entry_or_404, number_of, prepare, to_print
from outreach.reading import readings, typed_names
from outreach.sheet_page import shown
from outreach.worded import worded_by
from partners.ground.changes import change
from partners.ground.said import said
from partners.letters.actions import gone_out, keep_words
from partners.letters.for_guests import may_open
from partners.letters.models import Letter, LetterState
from partners.program.access import DeskRequest, readers_of, teachers
from partners.program.desk import Desk


@require_http_methods(["GET", "POST"])
@teachers
def document_prepare(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """What is missing, the words to change, and the way to paper."""
    prepared = prepare(request.desk, slug, pk, asked=request.GET)
    form = prepared.form(request.POST or None)
    if request.method == "POST" and form.is_valid() and not stopped(prepared, form):
        keep(request, prepared, form.words(prepared))
        said(request, _("The words are kept."))
        return redirect("outreach:document-prepare", slug=slug, pk=pk)
    context = {
        "prepared": prepared,
        "form": form,
        "gaps": [(gap, way(prepared, gap, form.fields)) for gap in prepared.gaps()],
        "readings": readings(prepared),
        "typed_names": typed_names(prepared),
        "worded": [(one.name, one.title) for one in worded_by(slug, prepared.row)],
        "spoken": prepared.facts.language,
        "copies": copies_shown(prepared),
        "standing": standing_shown(prepared),
        "query": f"?year={prepared.words['year']}" if "year" in request.GET and "year" in prepared.words else "",
        "states": [state for state in LetterState if state != LetterState.DRAFT],
    }
    return render(request, "outreach/document_prepare.html", context)


@require_GET
@teachers
def document_reading(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """How hard the words are to read, with those that are being typed."""
    prepared = prepare(request.desk, slug, pk)
    typed = {name: request.GET[name] for name in typed_names(prepared) if name in request.GET}
    return render(request, "outreach/_reading.html", {"readings": readings(prepared, typed)})


def stopped(prepared: Prepared, form: Any) -> bool:
    """What must never stand in such a letter is an error at its field, with the reason."""
    facts = prepared.gather(form.words(prepared))
    stops = [gap for gap in prepared.gaps(facts) if gap.stops and not gap.going_only]
    for gap in stops:
        form.add_error(next((name for name in (gap.field, "body") if name in form.fields), None), gap.words)
    return bool(stops)


def keep(request: DeskRequest, prepared: Prepared, words: dict[str, Any]) -> Any:
    language = words.get("language") or request.desk.program.language
    return keep_words(
        desk=request.desk,
        document=prepared.slug,
        title=prepared.title,
        words=words,
        language=language,
        key=prepared.entry.column,
        **prepared.about,
    )


@require_GET
@teachers
def letter_words(request: DeskRequest, pk: int) -> HttpResponse:
    """From a letter of the register to the page that its words are changed on."""
    letter = get_object_or_404(request.desk.letters, pk=pk)
    return redirect("outreach:document-prepare", slug=letter.document, pk=number_of(letter))


def drawn(desk: Desk, prepared: Prepared) -> bytes:
    """PermissionDenied where the sheet is not for the person."""
    pdf: bytes = prepared.module.draw(prepared.facts)
    if not may_open(desk, pdf):
        raise PermissionDenied
    return pdf


@csp_exempt()
@require_GET
@readers_of(lambda slug, pk: entry_or_404(slug).opened)
def document(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """The sheet itself. A PDF is no page, and browsers' readers do not open under the pages' policy."""
    prepared = to_print(request.desk, slug, pk, request.GET)
    answer = HttpResponse(drawn(request.desk, prepared), content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{slug}-{pk}.pdf"'
    return answer


@require_GET
@readers_of(lambda slug, pk: entry_or_404(slug).opened)
def document_page(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """The same sheet as a page, for who reads it on a phone or has it read."""
    prepared = to_print(request.desk, slug, pk, request.GET)
    if not request.desk.reads_amounts:
        # What is overheard is no file that can be read back.
        drawn(request.desk, prepared)
    sheets = overhear(lambda: prepared.module.draw(prepared.facts))
    context = {"prepared": prepared, "sheets": [shown(sheet) for sheet in sheets]}
    return render(request, "outreach/document_page.html", context)


@require_POST
@teachers
def document_hand_over(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """It went out: kept in the register as it is now, and thanks that were owed are said."""
    prepared = prepare(request.desk, slug, pk, asked=request.GET)
    state = request.POST.get("state", "")
    stops = [gap for gap in prepared.gaps() if gap.stops]
    if state not in LetterState.values or state == LetterState.DRAFT or stops:
        reason = stops[0].words if stops else _("Say how it went out.")
        messages.warning(request, str(reason))
        return redirect("outreach:document-prepare", slug=slug, pk=pk)
    letter = let_go(request, prepared, state)
    said(request, _("Kept in the register: %(title)s") % {"title": prepared.title})
    return redirect(letter)


def let_go(request: DeskRequest, prepared: Prepared, state: str, sent_to: str = "") -> Letter:
    """Everything that follows when the sheet goes out, as one change."""
    desk = request.desk
    with change(desk, gettext_noop("Gone out: %(title)s"), title=prepared.title):
        letter = keep(request, prepared, prepared.words_gone)
        pdf = prepared.module.draw(prepared.facts)
        given: dict[str, Any] = {"state": state, "day": desk.day, "pdf": pdf, "sent_to": sent_to}
        gone: Letter = gone_out(desk=desk, letter=letter, thanks=prepared.thanks, **given)
        prepared.entry.handed(desk, prepared.row, prepared.facts)
    return gone
