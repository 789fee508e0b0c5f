"""Verbs: free days, their next time confirmed, gone to or left out, and ended."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.funding.occasion_facts import kept_ready, told_of
from partners.funding.occasion_models import Occasion, OccasionDay
from partners.ground.changes import Change, change
from partners.program.desk import Desk


def add_occasion(*, desk: Desk, **values: Any) -> Occasion:
    """A free day as the form gives it: `values` by the columns' names, with a `first_on` that its rule holds."""
    with change(desk, gettext_noop("Free day added: %(title)s"), title=values["title"]) as book:
        row = Occasion(**values)
        for name, day in kept_ready(row, ()).items():
            setattr(row, name, day)
        return book.add(row)


def edit_occasion(*, desk: Desk, occasion: Occasion, seen: int | None = None, **values: Any) -> Occasion:
    """What was confirmed for one day is open again where the next time is another."""
    with change(desk, gettext_noop("Free day changed: %(title)s"), title=values.get("title", occasion.title)) as book:
        before = occasion.next_on
        for name, value in values.items():
            setattr(occasion, name, value)
        days = kept_ready(occasion, told_of(occasion))
        confirmed = {} if days["next_on"] == before else {"confirmed_on": None}
        return book.update(occasion, seen=seen, **values, **days, **confirmed)


def confirm(*, desk: Desk, occasion: Occasion, day: date) -> Occasion:
    """They said that the next time takes place."""
    with change(desk, gettext_noop("Confirmed: %(title)s"), title=occasion) as book:
        return book.update(occasion, confirmed_on=day)


def tell(*, desk: Desk, occasion: Occasion, held_on: date, went: bool, day: date, got: str = "") -> OccasionDay:
    """What became of the time on `held_on`: we went and got something, or did not.

    From the next time on it answers what was due, and the following one is called up; an earlier time is only kept.
    """
    we_went = gettext_noop("We went: %(title)s")
    words = we_went if went else gettext_noop("We did not go: %(title)s")
    with change(desk, words, title=occasion) as book:
        answers = occasion.next_on is not None and held_on >= occasion.next_on
        told_on = day if answers else None
        row = book.add(OccasionDay(occasion=occasion, day=held_on, went=went, got=got, told_on=told_on))
        if answers:
            _move_on(book, occasion)
        return row


def not_this_time(*, desk: Desk, occasion: Occasion, day: date) -> Occasion:
    """The next time is not held, or nobody can go; then the following one counts."""
    if occasion.next_on is not None:
        tell(desk=desk, occasion=occasion, held_on=occasion.next_on, went=False, day=day)
    return occasion


def end_occasion(*, desk: Desk, occasion: Occasion, day: date) -> Occasion:
    """It is no longer held."""
    with change(desk, gettext_noop("No longer held: %(title)s"), title=occasion) as book:
        return book.update(occasion, ended_on=day, next_on=None, confirm_by=None, confirmed_on=None)


def _move_on(book: Change, occasion: Occasion) -> None:
    days = kept_ready(occasion, told_of(occasion))
    book.update(occasion, confirmed_on=None, next_on=days["next_on"], confirm_by=days["confirm_by"])
