"""The facts of a note of thanks to one helper: this school year's hours and what they were for."""

from __future__ import annotations

from typing import Any

from django.db.models import Sum

from outreach.documents.helper_note import Facts
from outreach.gathering.school import letterhead, only_school
from outreach.wording.helping import job_words, show_words, speaks_spanish
from partners.helpers.figures import school_year
from partners.helpers.hours import sessions_and_kits
from partners.helpers.models import Helper
from partners.helpers.session_models import Session
from partners.program.desk import Desk

MOST_JOBS = 6


def gather(desk: Desk, helper: Helper, words: dict[str, Any]) -> Facts:
    """`words` are the teacher's own; the language is the helper's, where it is one of ours."""
    language = words.get("language") or language_of(desk, helper)
    year = school_year(desk.day, desk.program.fiscal_year_starts)
    turns, kits = (rows.filter(helper=helper) for rows in sessions_and_kits(desk, year))
    minutes = sum(rows.aggregate(total=Sum("minutes"))["total"] or 0 for rows in (turns, kits))
    sessions = desk.sessions.filter(turns__in=turns).select_related("show").order_by("day", "pk")
    at_home = [job_words("sewing", language)] if kits.exists() else []
    named = dict.fromkeys([*(job_of(session, language) for session in sessions), *at_home])
    return Facts(
        language=language,
        paper=desk.program.paper,
        letterhead=letterhead(helper.school or only_school(desk), desk),
        day=desk.day,
        helper=helper.name,
        teacher=desk.signs.teacher,
        role=desk.signs.title,
        minutes=minutes,
        jobs=tuple(named)[:MOST_JOBS],
        text=tuple(words.get("paragraphs", ())),
        enclosures=tuple(words.get("enclosures", ())),
    )


def job_of(session: Session, language: str) -> str:
    """What was done in the session; a show by its title."""
    if session.show is not None and session.job in ("hanging", "taking_down"):
        return show_words(session.job, session.show.title, language)
    return job_words(session.job, language)


def language_of(desk: Desk, helper: Helper) -> str:
    if not helper.language:
        return str(desk.program.language)
    return "es" if speaks_spanish(helper.language) else "en"
