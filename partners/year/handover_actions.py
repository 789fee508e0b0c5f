"""Carrying out a hand-over: the name under letters, and approvals that were the former teacher's."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.ground.models import Event
from partners.program import actions as program_actions
from partners.program.desk import Desk
from partners.program.models import Program
from partners.school.approval_models import Approval

WORDS = gettext_noop("Handed over by %(former)s to %(now)s")


def hand_over(
    *, desk: Desk, teacher: str, approvals: Iterable[Approval] = (), seen: int | None = None, **told: Any
) -> Program:
    """The book goes on under another name. `told` are the title, e-mail and phone under letters; `approvals` no longer
    hold from today on. Promises, gifts and everything else stay as they are: they are the program's.
    """
    with change(desk, WORDS, former=desk.program.teacher, now=teacher) as book:
        program = program_actions.edit_program(desk=desk, seen=seen, teacher=teacher, **told)
        book.update_many(approvals, lapsed_on=desk.day)
        book.about(program)
        return program


def former_teacher(desk: Desk, teacher: str = "") -> str:
    """From whom the teacher (of today, unless another is named) took the book over; empty where nobody did, or it was
    taken back.
    """
    teacher = teacher or desk.program.teacher
    events = Event.objects.filter(program=desk.program, words=WORDS).order_by("-pk")
    facts = (event.facts for event in events)
    return next((str(one.get("former", "")) for one in facts if one.get("now") == teacher), "")
