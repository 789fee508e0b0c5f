"""Somebody was forgotten while a form was open, or kept on a phone: what was typed there may still tell who it was."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Any

from django.utils.translation import gettext as _

from partners.directory.models import Partner
from partners.ground.models import SCRUBBED
from partners.ground.traces import REMOVED

LONGEST_SECONDS = 10


def refuse_the_forgotten(form: Any, partner: Any, typed: Iterable[Any]) -> None:
    """Nothing is written down for who was forgotten, and what was typed before that is looked through once more.

    The page says when it was `opened`; the one that answers says so anew, so that the second time is taken.
    """
    if isinstance(partner, Partner) and partner.name == REMOVED:
        form.add_error("partner", _("They asked to be forgotten, so nothing is written down for them any more."))
    elif any(typed) and forgotten_since(form.desk, form.data.get("opened", "")):
        form.add_error(
            None,
            _(
                "Somebody asked to be forgotten since this page was opened. Look whether what you typed names them, and"
                " take that out; then save once more."
            ),
        )


def forgotten_since(desk: Any, opened: str) -> bool:
    if not (opened.isascii() and opened.isdecimal() and len(opened) <= LONGEST_SECONDS):
        return False
    since = datetime.fromtimestamp(int(opened), tz=UTC)
    return bool(desk.program.events.filter(at__gt=since, **{f"facts__{SCRUBBED}": "yes"}).exists())
