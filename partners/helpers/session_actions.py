"""Verbs on sessions: planned, who is asked, what they answered, confirmed, who came, thanked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import Change, change
from partners.ground.plain import PlainError
from partners.helpers.models import Helper
from partners.helpers.session_facts import days_to_confirm, kept_ready, short_due
from partners.helpers.session_models import Reply, Session, Turn
from partners.program.desk import Desk
from partners.school.clock import clock


class TwiceInSession(PlainError):
    """The helper is in the session already."""


def add_session(*, desk: Desk, day: date, **values: Any) -> Session:
    """A session is planned; `values` are further columns of Session by name."""
    row = Session(day=day, **values)
    with change(desk, gettext_noop("Session planned for %(day)s: %(job)s"), day=day, job=row) as book:
        for name, due in _confirm(desk, row).items():
            setattr(row, name, due)
        row.short_due = short_due(row, 0)
        return book.add(row)


def edit_session(*, desk: Desk, session: Session, seen: int | None = None, **values: Any) -> Session:
    """Something of it is changed. Whoever said yes said so to a day: on another day they are asked again.

    Minutes that were the session's length stay so; minutes that were put right stay as they are.
    """
    with change(desk, gettext_noop("Session changed, %(day)s: %(job)s"), **_named(session)) as book:
        before_day, before_minutes, counted_over = session.day, session.minutes, (session.day, session.school_id)
        book.update(session, seen=seen, **values)
        if session.day != before_day:
            book.update_many(session.turns.exclude(reply=Reply.SILENT), reply=Reply.SILENT, replied_on=None)
            book.update(session, week_done_on=None, day_done_on=None)
        if session.minutes != before_minutes:
            book.update_many(session.turns.filter(minutes=before_minutes), minutes=session.minutes)
        if session.counted_on is None and (session.day, session.school_id) != counted_over:
            book.update(session, **_confirm(desk, session))
        _keep_ready(book, session)
        return session


def call_off(*, desk: Desk, session: Session, day: date) -> Session:
    with change(desk, gettext_noop("Session called off, %(day)s: %(job)s"), **_named(session)) as book:
        book.update(session, called_off_on=day)
        _keep_ready(book, session)
        return session


def ask_helpers(*, desk: Desk, session: Session, helpers: Sequence[Helper]) -> list[Turn]:
    """They are asked for the session, and have not answered yet. Raises TwiceInSession."""
    names = ", ".join(str(helper) for helper in helpers)[:120]
    with change(desk, gettext_noop("Asked for %(day)s, %(job)s: %(names)s"), names=names, **_named(session)) as book:
        book.about(session)
        return [_turn(book, session, helper) for helper in helpers]


def fill_sessions(*, desk: Desk, asked: Iterable[tuple[Session, Sequence[Helper]]]) -> int:
    """Helpers asked for several sessions in one go. Returns how many were asked."""
    with change(desk, gettext_noop("Helpers asked for several sessions")) as book:
        turns = [_turn(book, session, helper) for session, helpers in asked for helper in helpers]
        return len(turns)


def reply(*, desk: Desk, turn: Turn, answer: str, day: date) -> Turn:
    """Yes, no, or silent again."""
    session = turn.session
    with change(desk, gettext_noop("%(helper)s answered for %(day)s"), helper=turn.helper, day=session.day) as book:
        book.update(turn, reply=answer, replied_on=None if answer == Reply.SILENT else day)
        book.about(session)
        _keep_ready(book, session)
        return turn


def leave_out(*, desk: Desk, turn: Turn) -> None:
    """They are not asked for this session after all."""
    session = turn.session
    with change(desk, gettext_noop("Not asked for %(day)s: %(helper)s"), helper=turn.helper, day=session.day) as book:
        book.about(session)
        book.remove(turn)
        _keep_ready(book, session)


def confirm_week(*, desk: Desk, session: Session, day: date) -> Session:
    """A week before: all who said yes know when and where."""
    with change(desk, gettext_noop("Confirmed a week before, %(day)s: %(job)s"), **_named(session)) as book:
        return book.update(session, week_done_on=day)


def confirm_day(*, desk: Desk, session: Session, day: date) -> Session:
    """A day before; that a week before is then past."""
    done: dict[str, Any] = {"day_done_on": day, "week_done_on": session.week_done_on or day}
    with change(desk, gettext_noop("Confirmed a day before, %(day)s: %(job)s"), **_named(session)) as book:
        return book.update(session, **done)


def came(*, desk: Desk, turn: Turn, minutes: int | None = None) -> Turn:
    """They came, for the session's length unless `minutes` says otherwise."""
    session = turn.session
    with change(desk, gettext_noop("%(helper)s came on %(day)s"), helper=turn.helper, day=session.day) as book:
        book.update(turn, came=True, minutes=session.minutes if minutes is None else minutes)
        book.about(session)
        _keep_ready(book, session)
        return turn


def did_not_come(*, desk: Desk, turn: Turn) -> Turn:
    session = turn.session
    words = gettext_noop("%(helper)s did not come on %(day)s")
    with change(desk, words, helper=turn.helper, day=session.day) as book:
        book.update(turn, came=False, minutes=None, thanked_on=None)
        book.about(session)
        _keep_ready(book, session)
        return turn


def walked_in(*, desk: Desk, session: Session, helper: Helper) -> Turn:
    """Somebody came whom nobody had asked. Raises TwiceInSession."""
    with change(desk, gettext_noop("%(helper)s came on %(day)s"), helper=helper, day=session.day) as book:
        book.about(session)
        turn = _turn(book, session, helper)
        return came(desk=desk, turn=turn)


def all_came(*, desk: Desk, session: Session) -> int:
    """Everybody who said yes came, where nothing else is noted. Returns how many."""
    with change(desk, gettext_noop("All who said yes came, %(day)s: %(job)s"), **_named(session)) as book:
        expected = session.turns.filter(reply=Reply.YES, came=None)
        found = book.update_many(expected, came=True, minutes=session.minutes)
        book.about(session)
        _keep_ready(book, session)
        return found


def count(*, desk: Desk, session: Session, day: date) -> Session:
    """Who came is noted. Whoever said yes and was not seen did not come; nothing is left to confirm."""
    with change(desk, gettext_noop("Who came is noted, %(day)s: %(job)s"), **_named(session)) as book:
        book.update_many(session.turns.filter(reply=Reply.YES, came=None), came=False)
        book.update(session, counted_on=day, week_due=None, day_due=None)
        _keep_ready(book, session)
        return session


def thank(*, desk: Desk, session: Session, day: date, turns: Iterable[Turn] | None = None) -> int:
    """Thanks said to all who came and were not thanked, or to some of them. Returns to how many."""
    with change(desk, gettext_noop("Thanked the helpers of %(day)s, %(job)s"), **_named(session)) as book:
        owed = session.turns.filter(came=True, thanked_on=None)
        if turns is not None:
            owed = owed.filter(pk__in=[turn.pk for turn in turns])
        found = book.update_many(owed, thanked_on=day)
        book.about(session)
        _keep_ready(book, session)
        return found


def _named(session: Session) -> dict[str, Any]:
    return {"day": session.day, "job": session.get_job_display()}


def _confirm(desk: Desk, session: Session) -> dict[str, Any]:
    return days_to_confirm(clock(desk.program, session.school_id), session.day, desk.day)


def _turn(book: Change, session: Session, helper: Helper) -> Turn:
    if session.turns.filter(helper=helper).exists():
        sentence = gettext_noop("%(helper)s is in this session already.")
        raise TwiceInSession("twice", sentence, helper=str(helper))
    return book.add(Turn(session=session, helper=helper))


def _keep_ready(book: Change, session: Session) -> None:
    changed = {name: value for name, value in kept_ready(session).items() if getattr(session, name) != value}
    if changed:
        book.update(session, **changed)
