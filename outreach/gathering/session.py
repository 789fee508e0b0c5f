"""The facts of a session's sheets: job card, sign-in sheet, call sheet."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet

from outreach.documents import call_sheet, job_card, sign_in_sheet
from outreach.documents.call_sheet import Person
from outreach.gathering.school import letterhead
from outreach.wording.helping import job_words
from partners.directory.phones import national
from partners.helpers.job_cards import caution_words
from partners.helpers.models import Helper
from partners.helpers.session_models import Reply, Session, Turn
from partners.helpers.show_models import Welcome
from partners.helpers.show_page import card_for
from partners.program.desk import Desk
from partners.school.models import School

WELCOME = ("sign_in", "room", "toilet", "exits", "whom_to_call", "at_office", "allergies")


def sessions(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.sessions.select_related("school", "card", "show")
    return rows


def gather_card(desk: Desk, session: Session, words: dict[str, Any]) -> job_card.Facts:
    """The session's own card or the one to begin with; the welcome of its school."""
    language = words.get("language") or desk.program.language
    school = school_of(desk, session)
    card = card_for(session, language)
    texts = [*card.steps, card.with_what, card.where_it_goes] if card else [session.get_job_display()]
    return job_card.Facts(
        language=language,
        paper=desk.program.paper,
        title=card.title if card else capital(job_words(session.job, language)),
        day=session.day,
        starts=session.starts,
        ends=session.ends,
        school=school.name if school else "",
        place=session.place,
        **welcome_of(desk, school),
        steps=tuple(card.steps) if card else (),
        with_what=card.with_what if card else "",
        where_it_goes=card.where_it_goes if card else "",
        looks_done=card.looks_done if card else "",
        cautions=caution_words(card.cautions if card else (), texts, language),
        teacher=desk.signs.teacher,
    )


def welcome_of(desk: Desk, school: Any) -> dict[str, str]:
    """What the school's welcome says; without one, the program's phone is whom to call."""
    welcome: Welcome | None = desk.welcomes.filter(school=school).first() if school else None
    if welcome is not None:
        return {name: getattr(welcome, name) for name in WELCOME}
    known = (desk.signs.teacher, (school.phone if school else "") or desk.signs.phone)
    return {"whom_to_call": ", ".join(part for part in known if part) if known[1] else ""}


def gather_sign_in(desk: Desk, session: Session, words: dict[str, Any]) -> sign_in_sheet.Facts:
    """Names of those who said yes; whoever else comes writes on the lines below."""
    school = school_of(desk, session)
    coming = [turn.helper.name for turn in turns_of(desk, session) if turn.reply == Reply.YES]
    return sign_in_sheet.Facts(
        language=words.get("language") or desk.program.language,
        paper=desk.program.paper,
        letterhead=letterhead(school, desk),
        day=session.day,
        starts=session.starts,
        ends=session.ends,
        place=session.place,
        job=session.job,
        names=tuple(name for name in coming if name),
        sign_in=welcome_of(desk, school).get("sign_in", ""),
    )


def gather_calls(desk: Desk, session: Session, words: dict[str, Any]) -> call_sheet.Facts:
    """Only helpers of the schools that are open to whoever prints it."""
    mine = set(desk.helpers.filter(turns__session=session).values_list("pk", flat=True))
    turns = [turn for turn in turns_of(desk, session) if turn.helper_id in mine]
    return call_sheet.Facts(
        language=words.get("language") or desk.program.language,
        paper=desk.program.paper,
        day=session.day,
        starts=session.starts,
        ends=session.ends,
        place=session.place,
        job=session.job,
        needed=session.needed,
        asked=tuple(person(turn.helper, session.day) for turn in turns if turn.reply == Reply.SILENT),
        said_yes=tuple(person(turn.helper, session.day) for turn in turns if turn.reply == Reply.YES),
        teacher=desk.signs.teacher,
        over=session.day < desk.day,
    )


def school_of(desk: Desk, session: Session) -> School | None:
    """The session's school, or the only one there is: the welcome of a wrong school is worse than none."""
    schools = [session.school] if session.school else list(desk.schools[:2])
    return schools[0] if len(schools) == 1 else None


def turns_of(desk: Desk, session: Session) -> list[Turn]:
    """By name; somebody who was forgotten is on no sheet."""
    rows = desk.turns.filter(session=session, helper__forgotten_on=None).select_related("helper")
    return list(rows.order_by("helper__name_key", "pk"))


def person(helper: Helper, day: date) -> Person:
    cleared = helper.is_cleared_on(day)
    until = helper.cleared_until if helper.cleared and not cleared else None
    reached = (national(helper.phone), helper.email, helper.best_way, helper.language)
    return Person(helper.name, *reached, cleared=cleared, cleared_until=until)


def capital(words: str) -> str:
    return words[:1].upper() + words[1:]
