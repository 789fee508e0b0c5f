"""Verbs: the teacher's own job cards, and what a helper must know about a school."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.helpers.show_models import JobCard, Welcome
from partners.program.desk import Desk
from partners.school.models import School


def add_card(*, desk: Desk, title: str, steps: Sequence[str], **values: Any) -> JobCard:
    with change(desk, gettext_noop("Job card %(title)s added"), title=title) as book:
        return book.add(JobCard(title=title, steps=list(steps), **values))


def edit_card(*, desk: Desk, card: JobCard, seen: int | None = None, **values: Any) -> JobCard:
    with change(desk, gettext_noop("Job card %(title)s changed"), title=card.title) as book:
        return book.update(card, seen=seen, **values)


def remove_card(*, desk: Desk, card: JobCard) -> None:
    """Raises ProtectedError where a session uses it."""
    with change(desk, gettext_noop("Job card %(title)s taken out"), title=card.title) as book:
        book.remove(card)


def write_welcome(*, desk: Desk, school: School, seen: int | None = None, **values: Any) -> Welcome:
    """What every job card of the school says first."""
    with change(desk, gettext_noop("Welcome for helpers, %(school)s"), school=school) as book:
        book.about(school)
        stored: Welcome | None = Welcome.objects.filter(school=school).first()
        if stored is None:
            return book.add(Welcome(school=school, **values))
        return book.update(stored, seen=seen, **values)
