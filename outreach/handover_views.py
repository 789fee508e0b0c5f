"""The letters of whoever takes over: all in one file, and which of them went out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from csp.decorators import csp_exempt
from django.contrib import messages
from django.db.models import QuerySet
from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop, ngettext
from django.views.decorators.http import require_GET, require_http_methods

from outreach.batch_views import pdf
from outreach.batches import parts
from outreach.documents import introduction_letter
from outreach.gathering.own_words import own_words
from outreach.gathering.said_before import read_by
from outreach.prepared import Prepared
from outreach.registry import entry
from outreach.views import let_go
from partners.directory.models import Partner
from partners.ground.changes import change
from partners.ground.said import said
from partners.letters.models import LetterState
from partners.program.access import DeskRequest, teachers
from partners.program.desk import Desk
from partners.school.models import School
from partners.year.handover_actions import former_teacher
from partners.year.introduced import to_introduce
from partners.year.open_things import desk_of

AT_MOST = 500


def school_named(request: DeskRequest) -> School | None:
    named = request.GET.get("school", "")
    found: School | None = (
        request.desk.schools.filter(pk=named).first() if named.isdecimal() and len(named) < 10 else None
    )
    return found


def waiting(request: DeskRequest) -> QuerySet[Partner]:
    """Who has not had the letter of today's teacher yet."""
    gone = request.desk.letters.filter(document=introduction_letter.SLUG).exclude(state=LetterState.DRAFT)
    own = gone.filter(words__teacher=request.desk.program.teacher).order_by().values("partner")
    return to_introduce(desk_of(request.desk, school_named(request))).exclude(pk__in=own)


@require_http_methods(["GET", "POST"])
@teachers
def introductions(request: DeskRequest) -> HttpResponse:
    """One letter or many; all that are not ticked as still here went out."""
    here, partners = request.get_full_path(), list(waiting(request)[:AT_MOST])
    if request.method == "POST":
        here_still = {int(pk) for pk in request.POST.getlist("partner") if pk.isdecimal() and len(pk) < 18}
        count = went_out(request, [one for one in partners if one.pk not in here_still], request.POST.get("state", ""))
        if count:
            said(
                request, ngettext("%(count)d letter went out.", "%(count)d letters went out.", count) % {"count": count}
            )
        else:
            messages.warning(request, _("None went out: leave those unticked that did, and say how."))
        return redirect(here)
    school = school_named(request)
    context = {
        "partners": partners,
        "school": school,
        "former": former_teacher(request.desk),
        "file": reverse("outreach:introductions-file") + (f"?school={school.pk}" if school else ""),
        "states": [LetterState.HANDED_OVER, LetterState.MAILED],
    }
    return render(request, "outreach/introductions.html", context)


def went_out(request: DeskRequest, partners: list[Partner], state: str) -> int:
    """Each is kept in the register as it is printed now; all of them are one change. One that stops is left."""
    if state not in (LetterState.HANDED_OVER, LetterState.MAILED):
        return 0
    count = 0
    with change(request.desk, gettext_noop("Letters of who takes over went out")):
        for prepared in letters(request.desk, partners):
            if not any(gap.stops for gap in prepared.gaps()):
                let_go(request, prepared, state)
                count += 1
    return count


def letters(desk: Desk, partners: Sequence[Partner]) -> Iterator[Prepared]:
    """The letter to each, with the words of its draft; what they are about is fetched together."""
    one, run = entry(introduction_letter.SLUG), replace(desk, kept={})
    own = own_words(run)
    for part in parts(partners):
        pks = [partner.pk for partner in part]
        rows = {row.pk: row for row in one.together(run, run.partners.filter(pk__in=pks))}
        drafts = run.letters.filter(document=one.slug, state=LetterState.DRAFT, partner__in=pks).order_by("pk")
        words = dict(drafts.values_list("partner", "words"))
        gone = read_by(run, "partner", pks)
        for pk in pks:
            yield Prepared(run, one, pk, rows[pk], dict(words.get(pk, {})), own, gone)


@csp_exempt()
@require_GET
@teachers
def introductions_file(request: DeskRequest) -> HttpResponseBase:
    """All that have not gone out yet, in one file, in the order of the list, sent while it is drawn."""
    partners = list(waiting(request)[:AT_MOST])
    if not partners:
        messages.info(request, _("There is nobody left to write to."))
        return redirect("year:handover")
    return pdf(introduction_letter.stream(one.facts for one in letters(request.desk, partners)), "introductions")
