"""On the day, phone in hand: who is here, for how long, and that was all."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.helpers import session_actions as actions
from partners.helpers.session_forms import MinutesForm
from partners.helpers.session_models import Reply, Session, Turn
from partners.helpers.session_views import by_name, numbers, session_of, turn_of, turns_of
from partners.helpers.tags import spent
from partners.program.access import DeskRequest, teachers


def too_early(request: DeskRequest, session: Session) -> HttpResponse | None:
    """Back to a session whose day is still to come: hours nobody gave yet are not written down."""
    if session.day <= request.desk.day:
        return None
    day = {"day": date_format(session.day)}
    messages.warning(request, _("Who is here is noted on the day itself, %(day)s. Nothing was changed.") % day)
    return redirect(session)


@require_GET
@teachers
def session_check_in(request: DeskRequest, pk: int) -> HttpResponse:
    session = session_of(request, pk)
    if early := too_early(request, session):
        return early
    turns = turns_of(request.desk, session)
    expected = [one for one in turns if one["reply"] == Reply.YES or one["came"] is not None]
    context = {
        "session": session,
        "expected": expected,
        "others": [one for one in turns if one not in expected],
        "here": sum(one["came"] is True for one in turns),
        "waiting": sum(one["came"] is None for one in expected),
        "found": by_name(request.desk, session, request.GET.get("q", "")),
        "length": spent(session.minutes),
        "minutes": session.minutes,
    }
    return render(request, "helpers/session_check_in.html", context)


def at_helper(turn: Turn) -> str:
    """The check-in page, at the helper's own line."""
    return f"{reverse('helpers:session-check-in', args=[turn.session_id])}#turn-{turn.pk}"


@require_POST
@teachers
def turn_came(request: DeskRequest, pk: int) -> HttpResponse:
    """They are here, or not; or the minutes are put right."""
    turn = turn_of(request, pk)
    if early := too_early(request, turn.session):
        return early
    if request.POST.get("came") == "no":
        actions.did_not_come(desk=request.desk, turn=turn)
        said(request, _("%(helper)s did not come.") % {"helper": turn.helper})
        return redirect(at_helper(turn))
    form = MinutesForm(request.POST, desk=request.desk)
    if not form.is_valid():
        messages.warning(request, " ".join(map(str, form.errors["minutes"])) + " " + _("Nothing was changed."))
        return redirect(at_helper(turn))
    actions.came(desk=request.desk, turn=turn, minutes=form.cleaned_data["minutes"])
    said(request, _("%(helper)s: %(hours)s.") % {"helper": turn.helper, "hours": spent(turn.minutes or 0)})
    return redirect(at_helper(turn))


@require_POST
@teachers
def session_walk_in(request: DeskRequest, pk: int) -> HttpResponse:
    """Somebody came whom nobody had asked."""
    session = session_of(request, pk)
    if early := too_early(request, session):
        return early
    asked = (numbers([request.POST.get("helper", "")]) or [0])[0]
    helper = get_object_or_404(request.desk.helpers.active(), pk=asked)
    try:
        actions.walked_in(desk=request.desk, session=session, helper=helper)
    except PlainError as error:
        messages.warning(request, gettext(error.sentence) % error.facts)
    else:
        said(request, _("%(helper)s is here.") % {"helper": helper})
    return redirect("helpers:session-check-in", session.pk)


@require_POST
@teachers
def session_all_came(request: DeskRequest, pk: int) -> HttpResponse:
    session = session_of(request, pk)
    if early := too_early(request, session):
        return early
    count = actions.all_came(desk=request.desk, session=session)
    if count:
        said(request, ngettext("%(count)d came.", "%(count)d came.", count) % {"count": count})
    else:
        messages.info(request, _("Nobody is waited for."))
    return redirect("helpers:session-check-in", session.pk)


@require_POST
@teachers
def session_count(request: DeskRequest, pk: int) -> HttpResponse:
    """That was all: whoever said yes and was not seen did not come."""
    session = session_of(request, pk)
    if early := too_early(request, session):
        return early
    if session.counted_on is None:
        actions.count(desk=request.desk, session=session, day=request.desk.day)
        said(request, _("Who came is noted. Say thank you while they are there."))
    return redirect(session)
