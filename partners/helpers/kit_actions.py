"""Verbs on kits: taken home, moved to another day, back, thanked."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.helpers.models import Helper, Kit
from partners.program.desk import Desk


def take_home(*, desk: Desk, helper: Helper, what: str, out_on: date, due: date, **values: Any) -> Kit:
    """A kit goes home with a helper; `values` are further columns of Kit by name."""
    with change(desk, gettext_noop("Taken home by %(helper)s: %(what)s"), helper=helper, what=what) as book:
        return book.add(Kit(helper=helper, what=what, out_on=out_on, due=due, **values))


def move_kit(*, desk: Desk, kit: Kit, due: date) -> Kit:
    with change(desk, gettext_noop("Kit moved, %(helper)s: %(what)s"), **_named(kit)) as book:
        return book.update(kit, due=due)


def kit_back(*, desk: Desk, kit: Kit, day: date, quantity_back: int | None = None, minutes: int | None = None) -> Kit:
    """It came back: how many of it, and how long it took them, where they said so."""
    with change(desk, gettext_noop("Kit is back from %(helper)s: %(what)s"), **_named(kit)) as book:
        quantity = kit.quantity if quantity_back is None else quantity_back
        return book.update(kit, back_on=day, quantity_back=quantity, minutes=minutes)


def thank_for_kit(*, desk: Desk, kit: Kit, day: date) -> Kit:
    with change(desk, gettext_noop("Thanked %(helper)s for %(what)s"), **_named(kit)) as book:
        return book.update(kit, thanked_on=day)


def _named(kit: Kit) -> dict[str, Any]:
    return {"helper": kit.helper, "what": kit.what}
