"""What can be done to the wish list."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.program.desk import Desk
from partners.wish_list.models import CannotUse, Need, NeedState


def add_need(*, desk: Desk, what: str, **values: Any) -> Need:
    with change(desk, gettext_noop("On the wish list: %(what)s"), what=what) as book:
        return book.add(Need(what=what, **values))


def edit_need(*, desk: Desk, need: Need, seen: int | None = None, **values: Any) -> Need:
    with change(desk, gettext_noop("Wish list changed: %(what)s"), what=need.what) as book:
        return book.update(need, seen=seen, **values)


def enough(*, desk: Desk, need: Need) -> Need:
    """No more, thank you: it is not asked for any longer."""
    with change(desk, gettext_noop("Enough: %(what)s"), what=need.what) as book:
        return book.update(need, state=NeedState.ENOUGH)


def open_again(*, desk: Desk, need: Need) -> Need:
    with change(desk, gettext_noop("Wanted again: %(what)s"), what=need.what) as book:
        return book.update(need, state=NeedState.OPEN)


def remove_need(*, desk: Desk, need: Need) -> None:
    """Take out a need entered by mistake. Raises ProtectedError where an ask, a promise or a gift is about it."""
    with change(desk, gettext_noop("Off the wish list: %(what)s"), what=need.what) as book:
        book.remove(need)


def add_cannot_use(*, desk: Desk, what: str, why: str = "") -> CannotUse:
    with change(desk, gettext_noop("Cannot use: %(what)s"), what=what) as book:
        return book.add(CannotUse(what=what, why=why))


def add_often_refused(*, desk: Desk, things: Iterable[tuple[str, str]]) -> list[CannotUse]:
    """What is often refused and its reason, all in one."""
    with change(desk, gettext_noop("Cannot use: what is often refused")) as book:
        return [book.add(CannotUse(what=what, why=why)) for what, why in things]


def remove_cannot_use(*, desk: Desk, thing: CannotUse) -> None:
    with change(desk, gettext_noop("No longer on the cannot-use list: %(what)s"), what=thing.what) as book:
        book.remove(thing)
