"""What an action says afterwards, with its Undo."""

from __future__ import annotations

from typing import Any

from django.contrib import messages

from partners.ground.models import Event

UNDO = "undo-"


def said(request: Any, text: str) -> None:
    """A message on the next page. Its Undo takes back the newest event of this person in this program."""
    desk = request.desk
    event = Event.objects.filter(program=desk.program, by=desk.user).order_by("-pk").first()
    messages.success(request, text, extra_tags=f"{UNDO}{event.pk}" if event else "")
