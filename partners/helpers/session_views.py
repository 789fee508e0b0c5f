"""Sessions: planned, changed, called off; whom to ask, what they answered, confirmed, thanked."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.formats import date_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.names import name_key
from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.ground.tables import configured
from partners.helpers import session_actions as actions
from partners.helpers.candidates import proposal, suggestions
from partners.helpers.filters import WHEN, SessionFilter
from partners.helpers.own import own_turns
from partners.helpers.session_forms import SessionForm
from partners.helpers.session_models import Reply, Session, Turn
from partners.helpers.tables import SessionTable, clearance_words, state_words
from partners.helpers.tags import spent
from partners.program.access import DeskRequest, readers, teachers
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import lacking

FOUND = 8
AT_ONCE = 10
PREFILLED = ("show", "job", "place", "school", "day", "needed", "card")


def session_of(request: DeskRequest, pk: int) -> Session:
    rows = request.desk.sessions.select_related("school", "card", "show")
    found: Session = get_object_or_404(rows, pk=pk)
    return found


def turn_of(request: DeskRequest, pk: int) -> Turn:
    """A helper's place in a session of the desk."""
    rows = own_turns(request.desk).select_related("session", "helper")
    found: Turn = get_object_or_404(rows, pk=pk)
    return found


@require_GET
@readers(Opened.HELPERS)
def session_list(request: DeskRequest) -> HttpResponse:
    given = request.GET if "when" in request.GET or "job" in request.GET else {"when": "coming"}
    narrowed = SessionFilter(given, desk=request.desk)
    table = configured(request, SessionTable(narrowed.qs, day=request.desk.day))
    shown = {"times": [*WHEN, ("", _("all"))], "when": given.get("when", ""), "job": given.get("job", "")}
    return render(request, "helpers/session_list.html", {"table": table, "filter": narrowed, **shown})


@require_http_methods(["GET", "POST"])
@teachers
def session_new(request: DeskRequest) -> HttpResponse:
    form = SessionForm(request.POST or None, desk=request.desk, initial=given(request))
    if request.method == "POST" and form.is_valid():
        session = actions.add_session(desk=request.desk, **form.values())
        said(request, _("Planned: %(job)s, %(day)s.") % named(session))
        return redirect(
            "helpers:session-ask" if session.day >= request.desk.day else "helpers:session-check-in", session.pk
        )
    return render(request, "helpers/session_form.html", {"form": form, "heading": _("New session")})


def given(request: DeskRequest) -> dict[str, Any]:
    """What the address says, as a show's page does (show, job, place, school, day, how many); the hours of the last."""
    told: dict[str, Any] = {name: request.GET[name] for name in PREFILLED if name in request.GET}
    last = request.desk.sessions.order_by("-pk").values("starts", "ends").first()
    return {**(last or {}), **told}


@require_http_methods(["GET", "POST"])
@teachers
def session_edit(request: DeskRequest, pk: int) -> HttpResponse:
    session = session_of(request, pk)
    form = SessionForm(request.POST or None, desk=request.desk, instance=session_of(request, pk))
    if request.method == "POST" and form.is_valid():
        before, yes = session.day, session.said_yes
        actions.edit_session(desk=request.desk, session=session, seen=form.version_seen, **form.values())
        words = _("Changed: %(job)s, %(day)s.") % named(session)
        if session.day != before and yes:
            words += " " + _("Who said yes did so for the other day: ask them again.")
        said(request, words)
        return redirect(session)
    return render(
        request, "helpers/session_form.html", {"form": form, "session": session, "heading": _("Change the session")}
    )


@require_GET
@readers(Opened.HELPERS)
def session_detail(request: DeskRequest, pk: int) -> HttpResponse:
    session = session_of(request, pk)
    turns = turns_of(request.desk, session)
    context = {
        "session": session,
        "turns": turns,
        "state": state_words(session),
        "is_open": session.called_off_on is None and session.counted_on is None,
        "is_today": session.day <= request.desk.day,
        "is_over": session.day < request.desk.day,
        "short": max(0, session.needed - session.said_yes) if session.short_due else 0,
        "hours": spent(sum(turn["minutes"] or 0 for turn in turns)),
        "to_thank": [turn for turn in turns if turn["came"] and not turn["thanked_on"]],
        "standing": lacking(request.desk, session.school, ApprovalFor.HELPERS, session.day),
        "rules": request.desk.welcomes.filter(school=session.school_id).exclude(rules="").first(),
    }
    return render(request, "helpers/session_detail.html", context)


def turns_of(desk: Desk, session: Session) -> list[dict[str, Any]]:
    """Who is asked, by name; how to reach them only for who writes, and only helpers of the desk's own schools."""
    mine = set(desk.helpers.filter(turns__session=session).values_list("pk", flat=True))
    rows = session.turns.select_related("helper").order_by("helper__name_key", "pk")
    return [
        {
            "turn": turn,
            "helper": turn.helper,
            "phone": turn.helper.phone if desk.writes and turn.helper_id in mine else "",
            "url": turn.helper.get_absolute_url() if turn.helper_id in mine else "",
            "answer": turn.get_reply_display(),
            "reply": turn.reply,
            "came": turn.came,
            "minutes": turn.minutes,
            "hours": spent(turn.minutes) if turn.minutes else "",
            "thanked_on": turn.thanked_on,
            "warn": "" if turn.helper.is_cleared_on(session.day) else clearance_words(turn.helper, session.day),
        }
        for turn in rows
    ]


@require_POST
@teachers
def session_call_off(request: DeskRequest, pk: int) -> HttpResponse:
    session = session_of(request, pk)
    if session.called_off_on is None and session.counted_on is None:
        actions.call_off(desk=request.desk, session=session, day=request.desk.day)
        words = _("Called off: %(job)s, %(day)s.") % named(session)
        if session.said_yes:
            more = ngettext("Tell the %(count)d who said yes.", "Tell the %(count)d who said yes.", session.said_yes)
            words += " " + more % {"count": session.said_yes}
        said(request, words)
    return redirect(session)


@require_http_methods(["GET", "POST"])
@teachers
def session_ask(request: DeskRequest, pk: int) -> HttpResponse:
    """Who fits and why; whoever is ticked is asked. A missing clearance is warned of and stops nobody."""
    session = session_of(request, pk)
    if request.method == "POST":
        asked = list(request.desk.helpers.active().filter(pk__in=numbers(request.POST.getlist("helper"))))
        asked = [one for one in asked if not session.turns.filter(helper=one).exists()]
        if not asked:
            messages.warning(request, _("Tick somebody who is not in this session yet."))
            return redirect("helpers:session-ask", session.pk)
        actions.ask_helpers(desk=request.desk, session=session, helpers=asked)
        said(request, asked_words(asked, session))
        return redirect(session)
    found = by_name(request.desk, session, request.GET.get("q", ""))
    context = {"session": session, "found": found, "suggestions": suggestions(request.desk, session)}
    return render(request, "helpers/session_ask.html", context)


def asked_words(asked: list[Any], session: Session) -> str:
    words = _("Asked: %(names)s. Their answers are still to come.") % {
        "names": get_text_list(list(map(str, asked)), _("and"))
    }
    unclear = [str(one) for one in asked if not one.is_cleared_on(session.day)]
    if unclear:
        names = get_text_list(unclear, _("and"))
        words += " " + _("Not cleared for that day: %(names)s. Ask the office before they come.") % {"names": names}
    return words


def by_name(desk: Desk, session: Session, typed: str) -> list[dict[str, Any]]:
    """Helpers of that name, with how they stand to the session."""
    words = name_key(typed).split()
    if not words:
        return []
    helpers = desk.helpers.active()
    for word in words:
        helpers = helpers.filter(name_key__contains=word)
    inside = set(session.turns.values_list("helper_id", flat=True))
    return [
        {"helper": one, "inside": one.pk in inside, "clearance": clearance_words(one, session.day)}
        for one in helpers.order_by("name_key", "pk")[:FOUND]
    ]


def numbers(texts: list[str]) -> list[int]:
    return [int(text) for text in texts[:200] if text.isascii() and text.isdecimal() and len(text) <= 18]


@require_http_methods(["GET", "POST"])
@teachers
def session_fill(request: DeskRequest) -> HttpResponse:
    """Whom to ask for several sessions at once, nobody for two; whoever stays ticked is asked."""
    coming = request.desk.sessions.filter(day__gte=request.desk.day, short_due__isnull=False)
    sessions = list(coming.select_related("school").order_by("day", "pk")[:AT_ONCE])
    if request.method == "POST":
        asked = chosen_pairs(request, sessions)
        count = actions.fill_sessions(desk=request.desk, asked=asked) if asked else 0
        if count:
            said(request, ngettext("%(count)d helper asked.", "%(count)d helpers asked.", count) % {"count": count})
            return redirect("helpers:session-list")
        messages.warning(request, _("Nobody was ticked, so nobody was asked."))
        return redirect("helpers:session-fill")
    plan = [
        {"session": one, "found": found, "missing": max(0, one.needed - one.said_yes - len(found))}
        for one, found in proposal(request.desk, sessions)
    ]
    context = {"plan": plan, "anybody": any(one["found"] for one in plan)}
    return render(request, "helpers/session_fill.html", context)


def chosen_pairs(request: DeskRequest, sessions: list[Session]) -> list[tuple[Session, list[Any]]]:
    found = []
    for session in sessions:
        wanted = numbers(request.POST.getlist(f"ask-{session.pk}"))
        inside = session.turns.values("helper")
        helpers = list(request.desk.helpers.active().filter(pk__in=wanted).exclude(pk__in=inside))
        if helpers:
            found.append((session, helpers))
    return found


@require_POST
@teachers
def session_confirm(request: DeskRequest, pk: int) -> HttpResponse:
    """All who said yes know: a week before or a day before, as the button says."""
    session = session_of(request, pk)
    verbs = {"week": actions.confirm_week, "day": actions.confirm_day}
    if request.POST.get("which") not in verbs:
        raise Http404
    verbs[request.POST["which"]](desk=request.desk, session=session, day=request.desk.day)
    said(request, _("Confirmed: %(job)s, %(day)s.") % named(session))
    return redirect(session)


@require_POST
@teachers
def session_thank(request: DeskRequest, pk: int) -> HttpResponse:
    """Thanks said: to all who came, or to the one whose button was pressed."""
    session = session_of(request, pk)
    one = numbers(request.POST.getlist("turn"))
    turns = list(session.turns.filter(pk__in=one)) if one else None
    count = actions.thank(desk=request.desk, session=session, day=request.desk.day, turns=turns)
    if count:
        said(request, ngettext("%(count)d helper thanked.", "%(count)d helpers thanked.", count) % {"count": count})
    else:
        messages.info(request, _("Nobody is waiting for thanks here."))
    return redirect(safe_return(request, session.get_absolute_url()))


@require_POST
@teachers
def turn_reply(request: DeskRequest, pk: int) -> HttpResponse:
    turn = turn_of(request, pk)
    answer = request.POST.get("answer", "")
    if answer not in Reply.values:
        raise Http404
    actions.reply(desk=request.desk, turn=turn, answer=answer, day=request.desk.day)
    said(request, f"{turn.helper}: {turn.get_reply_display()}.")
    return redirect(turn.session)


@require_POST
@teachers
def turn_leave_out(request: DeskRequest, pk: int) -> HttpResponse:
    turn = turn_of(request, pk)
    session, helper = turn.session, turn.helper
    actions.leave_out(desk=request.desk, turn=turn)
    said(request, _("%(helper)s is not asked for this session.") % {"helper": helper})
    return redirect(session)


def named(session: Session) -> dict[str, Any]:
    return {"job": session.get_job_display(), "day": date_format(session.day, "DATE_FORMAT")}
