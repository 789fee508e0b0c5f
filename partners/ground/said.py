"""What an action says afterwards, with its Undo."""

from __future__ import annotations

from typing import Any

from django.contrib import messages

from partners.ground.models import Event

UNDO = "undo-"


def said(request: Any, text: str) -> None:
    """A message on the next page. Its Undo takes back what this form did, or the newest event of this person here.

    A form that changed nothing has no event of its own, and so nothing to take back.
    """
    desk = request.desk
    events = Event.objects.filter(program=desk.program, by=desk.user)
    events = events.filter(once=desk.once) if desk.once else events
    event = events.order_by("-pk").first()
    messages.success(request, text, extra_tags=f"{UNDO}{event.pk}" if event else "")
