"""Verbs on helpers: slips typed, people written down, called, cleared, stopped."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Max
from django.utils.translation import gettext_noop

from partners.directory.phones import phone_key
from partners.ground.changes import change
from partners.ground.names import name_key
from partners.helpers.models import Helper, SlipBatch
from partners.program.desk import Desk
from partners.school.models import School

# What is taken over from a slip of somebody who is in the book already: lists are joined, empty words are filled.
LISTS = ("days", "jobs")
TICKS = ("at_school", "from_home", "show_day", "knows_rules")
WORDS = ("room", "phone", "email", "best_way", "language", "times", "how_often", "skills")


def helper_keys(values: dict[str, Any]) -> dict[str, str]:
    """The folded columns that follow from the name and the phone, where these are among the values."""
    keys = {}
    if "name" in values:
        keys["name_key"] = name_key(values["name"])
    if "phone" in values:
        keys["phone_key"] = phone_key(values["phone"]) if values["phone"] else ""
    return keys


def open_batch(*, desk: Desk, school: School | None = None) -> SlipBatch:
    """A stack of slips, with the next number, which is then written on the stack."""
    last = desk.program.slip_batches.aggregate(last=Max("number"))["last"] or 0
    with change(desk, gettext_noop("Stack %(number)s of slips begun"), number=last + 1) as book:
        return book.add(SlipBatch(number=last + 1, school=school, day=desk.day))


def next_place(batch: SlipBatch) -> int:
    """The number of the slip that is typed next, counted within its stack."""
    return int(batch.helpers.aggregate(last=Max("place_in_batch"))["last"] or 0) + 1


def add_helper(*, desk: Desk, name: str, **values: Any) -> Helper:
    """Somebody who helps; `values` are further columns of Helper by name."""
    with change(desk, gettext_noop("Helper written down: %(helper)s"), helper=name) as book:
        return book.add(Helper(name=name, **values, **helper_keys({"name": name, **values})))


def type_slip(*, desk: Desk, batch: SlipBatch, name: str, **values: Any) -> Helper:
    """One slip of a stack, with the next number. One that cannot be read needs no name."""
    place = next_place(batch)
    words = gettext_noop("Slip %(place)s of stack %(number)s: %(helper)s")
    with change(desk, words, place=place, number=batch.number, helper=name or "?") as book:
        row = Helper(batch=batch, place_in_batch=place, school=batch.school, name=name, **values)
        for column, key in helper_keys({"name": name, **values}).items():
            setattr(row, column, key)
        return book.add(row)


def add_to_helper(*, desk: Desk, helper: Helper, batch: SlipBatch | None = None, **values: Any) -> Helper:
    """What a second slip of the same person says besides: nothing that stands is overwritten."""
    more: dict[str, Any] = {name: values[name] for name in WORDS if values.get(name) and not getattr(helper, name)}
    for name in LISTS:
        joined = [*getattr(helper, name), *(one for one in values.get(name, []) if one not in getattr(helper, name))]
        if joined != getattr(helper, name):
            more[name] = sorted(joined) if name == "days" else joined
    more |= {name: True for name in TICKS if values.get(name) and not getattr(helper, name)}
    if helper.stopped_on is not None:
        more["stopped_on"] = None
    if batch is not None and helper.batch_id is None:
        more |= {"batch": batch, "place_in_batch": next_place(batch)}
    with change(desk, gettext_noop("Added to %(helper)s from another slip"), helper=helper) as book:
        more |= helper_keys(more)
        return book.update(helper, **more)


def edit_helper(*, desk: Desk, helper: Helper, seen: int | None = None, **values: Any) -> Helper:
    with change(desk, gettext_noop("Helper changed: %(helper)s"), helper=values.get("name") or helper) as book:
        return book.update(helper, seen=seen, **values, **helper_keys(values))


def called(*, desk: Desk, helper: Helper, day: date) -> Helper:
    """Somebody was called, or written to, for the first time after the slip came."""
    with change(desk, gettext_noop("Called: %(helper)s"), helper=helper) as book:
        return book.update(helper, first_called_on=day)


def clear(
    *, desk: Desk, helper: Helper, cleared: bool, until: date | None = None, by: str = "", seen: int | None = None
) -> Helper:
    """What the office says: cleared or not, until when, and who confirmed it. The paper stays with the office."""
    if not cleared:
        until, by = None, ""
    words = gettext_noop("%(helper)s is cleared") if cleared else gettext_noop("%(helper)s is not cleared")
    with change(desk, words, helper=helper) as book:
        return book.update(helper, seen=seen, cleared=cleared, cleared_until=until, cleared_by=by)


def stop(*, desk: Desk, helper: Helper, day: date) -> Helper:
    """They help no longer: nobody asks them, and their hours stay."""
    with change(desk, gettext_noop("%(helper)s helps no longer"), helper=helper) as book:
        return book.update(helper, stopped_on=day)


def start_again(*, desk: Desk, helper: Helper) -> Helper:
    with change(desk, gettext_noop("%(helper)s helps again"), helper=helper) as book:
        return book.update(helper, stopped_on=None)
