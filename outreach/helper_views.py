"""What is printed and mailed for a session or a show, with what each sheet still lacks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from csp.decorators import csp_exempt
from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from outreach.feeds.mail import NoAddress
from outreach.gap import Gap
from outreach.gathering.session import sessions
from outreach.gathering.session_mail import SessionMail, mail_file, session_mail
from outreach.preparing import to_print
from outreach.wording.session_mail import CAME, DAY, SHORT, WEEK
from partners.helpers.session_models import Session
from partners.program.access import DeskRequest, teachers
from partners.program.models import Language

ABOUT_SESSION = ("job-card", "sign-in-sheet", "call-sheet")
ABOUT_SHOW = ("night-before",)


@dataclass(frozen=True)
class SheetLine:
    """One sheet on the page: its title, what it lacks, and its address in each language."""

    title: str
    gaps: tuple[Gap, ...]
    links: tuple[tuple[str, str], ...]
    page: str


@dataclass(frozen=True)
class MailLine:
    title: str
    url: str
    mail: SessionMail


@require_GET
@teachers
def session_sheets(request: DeskRequest, pk: int) -> HttpResponse:
    """Everything that goes on paper or by mail for one session."""
    session = get_object_or_404(sessions(request.desk), pk=pk)
    context = {
        "session": session,
        "sheets": [sheet_line(request, slug, pk) for slug in ABOUT_SESSION],
        "mails": mail_lines(request, session),
        "own_mail": request.desk.signs.email,
    }
    return render(request, "outreach/session_sheets.html", context)


@require_GET
@teachers
def show_sheets(request: DeskRequest, pk: int) -> HttpResponse:
    show = get_object_or_404(request.desk.shows, pk=pk)
    context = {"show": show, "sheets": [sheet_line(request, slug, pk) for slug in ABOUT_SHOW]}
    return render(request, "outreach/show_sheets.html", context)


def sheet_line(request: DeskRequest, slug: str, pk: int) -> SheetLine:
    prepared = to_print(request.desk, slug, pk)
    address = reverse("outreach:document", args=[slug, pk])
    own = request.desk.program.language
    ordered = sorted(Language, key=lambda language: language != own)
    links = tuple((str(language.label), f"{address}?language={language}") for language in ordered)
    page = reverse("outreach:document-page", args=[slug, pk])
    return SheetLine(str(prepared.module.TITLE), prepared.gaps(), links, page)


def mail_lines(request: DeskRequest, session: Session) -> list[MailLine]:
    """The mails that make sense while the session is to come; thanks once it is noted who came."""
    titles: list[tuple[str, Any]] = []
    if session.counted_on is not None:
        titles = [(CAME, _("Thank all who came"))]
    elif session.called_off_on is None and session.day >= request.desk.day:
        titles = [(WEEK, _("Confirm a week before")), (DAY, _("Confirm a day before"))]
        if session.said_yes < session.needed:
            titles.append((SHORT, _("Helpers are still missing")))
    return [
        MailLine(
            title,
            reverse(f"outreach:session-mail-{kind}", args=[session.pk]),
            session_mail(request.desk, session, kind),
        )
        for kind, title in titles
    ]


@csp_exempt()
@require_GET
@teachers
def session_mail_file(request: DeskRequest, pk: int, kind: str) -> HttpResponse:
    """A draft for the teacher's own mail program; nothing is sent from here."""
    session = get_object_or_404(sessions(request.desk), pk=pk)
    if kind == SHORT and session.said_yes >= session.needed:
        messages.info(request, _("Enough helpers said yes: nobody is missing any more."))
        return redirect("outreach:session-sheets", pk=pk)
    if not session_mail(request.desk, session, kind).receivers:
        messages.warning(request, _("Nobody to write to: print the call sheet."))
        return redirect("outreach:session-sheets", pk=pk)
    try:
        file = mail_file(request.desk, session, kind)
    except NoAddress:
        messages.warning(request, _("Fill in your own school e-mail first, under Settings."))
        return redirect("outreach:session-sheets", pk=pk)
    answer = HttpResponse(file, content_type="message/rfc822")
    answer["Content-Disposition"] = f'attachment; filename="session-{pk}-{kind}.eml"'
    return answer
