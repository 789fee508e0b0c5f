"""A letter by e-mail: a draft with the sheet, a link, sending where a server is set; and the register."""

from __future__ import annotations

from smtplib import SMTPException
from typing import Any

from csp.decorators import csp_exempt
from django.conf import settings
from django.contrib import messages
from django.core.mail import EmailMessage
from django.db import transaction
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from outreach.feeds.mail import NoAddress, address, mailbox, one_line
from outreach.gathering.letter_mail import LetterMail, Receiver, draft_file, letter_mail, link, receivers
from outreach.gathering.session_mail import can_be_mailed
from outreach.prepared import Prepared
from outreach.preparing import prepare
from outreach.views import let_go
from partners.ground.said import said
from partners.letters.models import LetterState
from partners.program.access import DeskRequest, teachers
from partners.program.desk import Desk


def chosen(prepared: Prepared, typed: str) -> Receiver:
    """Nobody can be written to but who stands with the letter's partner."""
    for one in receivers(prepared):
        if one.address == typed:
            return one
    raise Http404


@require_http_methods(["GET", "POST"])
@teachers
def document_mail(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """Who can get the letter by e-mail; a POST sends it, or writes down that it was sent."""
    prepared = prepare(request.desk, slug, pk)
    stops = [gap for gap in prepared.gaps() if gap.stops]
    if request.method == "POST":
        return go_out(request, prepared, stops)
    mail = letter_mail(prepared)
    own = can_be_mailed(request.desk.signs.email)
    context = {
        "prepared": prepared,
        "stops": stops,
        "mail": mail,
        "own_mail": own,
        "rows": [(one, link(mail, one)) for one in receivers(prepared)],
        "sends": bool(settings.EMAIL_HOST) and own,
    }
    return render(request, "outreach/document_mail.html", context)


def go_out(request: DeskRequest, prepared: Prepared, stops: list[Any]) -> HttpResponse:
    to = chosen(prepared, request.POST.get("to", ""))
    sends = "send" in request.POST and bool(settings.EMAIL_HOST)
    if stops:
        messages.warning(request, str(stops[0].words))
        return redirect("outreach:document-mail", slug=prepared.slug, pk=prepared.pk)
    mail = letter_mail(prepared)
    try:
        with transaction.atomic():
            letter = let_go(request, prepared, LetterState.EMAILED, to.address)
            if sends:
                send(request.desk, mail, to)
    except (NoAddress, SMTPException, OSError):
        messages.warning(request, _("The mail server did not take it, so nothing was sent or written down. Try later."))
        return redirect("outreach:document-mail", slug=prepared.slug, pk=prepared.pk)
    words = (
        _("Sent to %(name)s, and kept in the register.") if sends else _("Kept in the register as sent to %(name)s.")
    )
    said(request, words % {"name": to.name})
    return redirect(letter)


def send(desk: Desk, mail: LetterMail, to: Receiver) -> None:
    """One mail to one receiver."""
    sender = mailbox(address(desk.signs.email), desk.signs.teacher).replace("\r\n", "")
    message = EmailMessage(one_line(mail.subject), mail.body, sender, [address(to.address)])
    message.attach(mail.file_name, mail.sheet, "application/pdf")
    message.send()


@csp_exempt()
@require_GET
@teachers
def document_draft(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """A draft for the teacher's own mail program; nothing is sent from here."""
    prepared = prepare(request.desk, slug, pk)
    to = chosen(prepared, request.GET.get("to", ""))
    stops = [gap for gap in prepared.gaps() if gap.stops]
    try:
        file = draft_file(request.desk, letter_mail(prepared), to)
    except NoAddress:
        messages.warning(request, _("Fill in your own school e-mail first, under Settings."))
        return redirect("outreach:document-mail", slug=slug, pk=pk)
    if stops:
        messages.warning(request, str(stops[0].words))
        return redirect("outreach:document-mail", slug=slug, pk=pk)
    answer = HttpResponse(file, content_type="message/rfc822")
    answer["Content-Disposition"] = f'attachment; filename="{slug}-{pk}.eml"'
    return answer
