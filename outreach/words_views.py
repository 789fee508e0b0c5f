"""The teacher's own words: which sheets there are, their parts, wording one, and going back to an earlier version."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from outreach.trying import LONGEST, refusals
from outreach.worded import Worded
from outreach.wording.own_words import Part, house_words
from outreach.words_forms import AgainForm, OwnWordsForm
from outreach.words_page import always, part_lines, part_or_404, part_page, sheet_lines, sheet_or_404, tried
from partners.ground.said import said
from partners.letters.own_words import reword, versions
from partners.program.access import DeskRequest, teachers
from partners.program.models import Language


@require_GET
@teachers
def own_words_list(request: DeskRequest) -> HttpResponse:
    return render(request, "outreach/own_words_list.html", {"lines": sheet_lines(request.desk)})


@require_GET
@teachers
def own_words_sheet(request: DeskRequest, sheet: str, language: str) -> HttpResponse:
    """The parts of a sheet as they are said now."""
    one = sheet_or_404(sheet, language)
    context = {
        "sheet": one,
        "spoken": language,
        "spoken_name": dict(Language.choices)[language],
        "others": [(code, name) for code, name in Language.choices if code != language],
        "lines": part_lines(request.desk, one, language),
        "always": always(one, language),
    }
    return render(request, "outreach/own_words_sheet.html", context)


@require_http_methods(["GET", "POST"])
@teachers
def own_words_part(request: DeskRequest, sheet: str, language: str, part: str) -> HttpResponse:
    """One part: the house's words, blanks to choose from, an example, what stood there before."""
    one = sheet_or_404(sheet, language)
    piece = part_or_404(one, part)
    page = part_page(request.desk, one, language, piece)
    standing = page["own"].words if page["own"] else page["house"]
    first = {"words": standing, "seen": page["now"].number if page["now"] else 0}
    form = OwnWordsForm(request.POST or None, desk=request.desk, sheet=one, spoken=language, part=piece, initial=first)
    looks = "look" in request.POST
    if request.method == "POST" and form.is_valid() and not looks:
        return kept(request, one, language, piece, form.cleaned_data["words"], form.cleaned_data["seen"])
    typed = request.POST.get("words", standing)[: 2 * LONGEST]
    context = {**page, "form": form, **tried(request.desk, one, language, piece, typed)}
    return render(request, "outreach/own_words_part.html", context)


def kept(request: DeskRequest, sheet: Worded, language: str, part: Part, words: str, seen: int) -> HttpResponse:
    """Saved as a new version, where it says anything new; the house's own words are not kept twice."""
    desk = request.desk
    now = versions(desk, sheet.name, language, part.path).first()
    words = "" if words == house_words(sheet.tables[language], part.path) else words
    if words == (now.words if now else ""):
        messages.info(request, _("It stands so already. Nothing was changed."))
    else:
        title = f"{sheet.title}, {part.label}"
        reword(desk=desk, document=sheet.name, language=language, part=part.path, title=title, words=words, seen=seen)
        told = _("Your words are kept. Sheets are worded so from now on.")
        said(request, told if words else _("Partner Book’s words stand there again."))
    return redirect("outreach:own-words-part", sheet=sheet.name, language=language, part=part.path)


@require_GET
@teachers
def own_words_try(request: DeskRequest, sheet: str, language: str, part: str) -> HttpResponse:
    """What is being typed, as a sheet would say it."""
    one = sheet_or_404(sheet, language)
    piece = part_or_404(one, part)
    typed = request.GET.get("words", "")[: 2 * LONGEST]
    return render(request, "outreach/_own_words_tried.html", tried(request.desk, one, language, piece, typed))


@require_POST
@teachers
def own_words_again(request: DeskRequest, sheet: str, language: str, part: str) -> HttpResponse:
    """An earlier version once more, as the newest one; number 0 are the house's words."""
    one = sheet_or_404(sheet, language)
    piece = part_or_404(one, part)
    form = AgainForm(request.POST, desk=request.desk)
    if not form.is_valid():
        raise Http404
    number, words = form.cleaned_data["number"], ""
    if number:
        words = get_object_or_404(versions(request.desk, one.name, language, piece.path), number=number).words
    wrong = refusals(one, language, piece, words) if words else []
    if wrong:
        messages.warning(request, str(wrong[0]))
        return redirect("outreach:own-words-part", sheet=one.name, language=language, part=piece.path)
    return kept(request, one, language, piece, words, form.cleaned_data["seen"])
