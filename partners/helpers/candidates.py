"""What the fitting of helpers is fed: who may be asked, how often they came this school year, who is busy that day."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Count, Q
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.helpers.figures import school_year, year_days
from partners.helpers.fitting import Candidate, Fit, Wanted, filled, suggested
from partners.helpers.jobs import Job
from partners.helpers.own import own_turns
from partners.helpers.session_models import Reply, Session
from partners.program.desk import Desk

COLUMNS = ("pk", "name", "jobs", "days", "at_school", "from_home", "show_day", "cleared", "cleared_until")
SHOW_JOBS = frozenset({Job.HANGING, Job.TAKING_DOWN})


@dataclass(frozen=True)
class Suggestion:
    """A helper who fits, and why in words; `warn` where the office has not cleared them for that day."""

    pk: int
    name: str
    why: list[str]
    warn: str
    best: bool = False


def candidates(desk: Desk, school_id: int | None, days: Sequence[date]) -> list[Candidate]:
    """Everybody of the desk who may be asked for the school, in four queries."""
    helpers = desk.helpers.active()
    if school_id is not None:
        helpers = helpers.filter(Q(school=school_id) | Q(school=None))
    first, _next = year_days(school_year(desk.day, desk.program.fiscal_year_starts), desk.program.fiscal_year_starts)
    own = own_turns(desk).filter(session__day__gte=first, session__called_off_on=None)
    counted = own.filter(Q(came=True) | Q(came=None, reply=Reply.YES))
    turns = Counter(dict(counted.order_by().values_list("helper").annotate(count=Count("pk"))))
    busy: dict[int, set[date]] = defaultdict(set)
    taken = own.filter(session__day__in=list(days)).exclude(reply=Reply.NO)
    for helper, day in taken.order_by().values_list("helper", "session__day"):
        busy[helper].add(day)
    rows = helpers.order_by().values_list(*COLUMNS)
    return [_candidate(row, turns, busy) for row in rows]


def _candidate(row: tuple[Any, ...], turns: Counter[int], busy: dict[int, set[date]]) -> Candidate:
    one = dict(zip(COLUMNS, row, strict=True))
    # Whoever ticked nothing about the place has not said that they cannot come.
    said_where = one["at_school"] or one["from_home"] or one["show_day"]
    return Candidate(
        pk=one["pk"],
        name=one["name"],
        jobs=frozenset(one["jobs"]),
        days=frozenset(one["days"]),
        at_school=one["at_school"] or not said_where,
        show_day=one["show_day"],
        cleared=one["cleared"],
        cleared_until=one["cleared_until"],
        turns=turns[one["pk"]],
        busy=frozenset(busy.get(one["pk"], ())),
    )


def wanted(session: Session) -> Wanted:
    """What the session still needs. Whoever said no leaves a place; whoever is silent may still say yes."""
    replies = dict(session.turns.values_list("helper_id", "reply"))
    hoped = sum(reply != Reply.NO for reply in replies.values())
    return Wanted(
        pk=session.pk,
        day=session.day,
        job=session.job,
        places=max(0, session.needed - hoped),
        is_show=session.show_id is not None or session.job in SHOW_JOBS,
        asked=frozenset(replies),
    )


def suggestions(desk: Desk, session: Session, at_most: int = 12) -> list[Suggestion]:
    """Who fits the session, the best first; `best` are those to ask for the places that are free."""
    task = wanted(session)
    found = suggested(candidates(desk, session.school_id, [session.day]), task, at_most)
    return [_in_words(one, task.day, place < task.places) for place, one in enumerate(found)]


def proposal(desk: Desk, sessions: Sequence[Session]) -> list[tuple[Session, list[Suggestion]]]:
    """For each session whom to ask, nobody for two of them. Sessions of several schools are filled school by school."""
    found: dict[int, list[Fit]] = {}
    days = [session.day for session in sessions]
    used: set[int] = set()
    for school_id in dict.fromkeys(session.school_id for session in sessions):
        own = [session for session in sessions if session.school_id == school_id]
        free = [one for one in candidates(desk, school_id, days) if one.pk not in used]
        for session, fits in zip(own, filled(free, [wanted(one) for one in own]), strict=True):
            found[session.pk] = fits
            used |= {one.candidate.pk for one in fits}
    return [(one, [_in_words(fit, one.day, True) for fit in found[one.pk]]) for one in sessions]


def _in_words(one: Fit, day: date, best: bool) -> Suggestion:
    person = one.candidate
    words = {
        "said_job": _("said they can do this job"),
        "any_job": _("named no jobs"),
        "other_job": _("named other jobs"),
        "said_day": _("can come on that day of the week"),
        "any_day": _("named no days"),
        "show_day": _("offered to help on show day"),
        "cleared": _("cleared"),
        "no_turn_yet": _("has not had a turn this school year"),
        "turns": ngettext("%(count)d turn this school year", "%(count)d turns this school year", person.turns)
        % {"count": person.turns},
    }
    warn = ""
    if "not_cleared" in one.why:
        warn = _("not cleared: ask the office first")
    elif "runs_out" in one.why and person.cleared_until is not None:
        until = date_format(person.cleared_until, "DATE_FORMAT")
        warn = _("cleared only until %(day)s: ask the office first") % {"day": until}
    return Suggestion(person.pk, person.name, [words[why] for why in one.why if why in words], warn, best)
