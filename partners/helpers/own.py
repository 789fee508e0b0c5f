"""Turns as one person may see them: a turn has no school of its own, its session has."""

from __future__ import annotations

from typing import Any

from django.db.models import Q, QuerySet

from partners.program.desk import Desk


def own_turns(desk: Desk) -> QuerySet[Any]:
    """Turns of the sessions that the desk sees; joined, so that one helper's turns do not lead through all sessions."""
    turns: QuerySet[Any] = desk.turns
    if desk.school_ids:
        turns = turns.filter(Q(session__school__in=desk.school_ids) | Q(session__school=None))
    return turns
