"""Putting two rows of one person together: a helper whose slip came twice, somebody who stands twice at a partner."""

from __future__ import annotations

from datetime import date
from typing import Any

from partners.directory.actions import people_there
from partners.directory.models import Contact, Partner
from partners.ground.changes import Change, change
from partners.ground.put_together import HELPERS, PEOPLE
from partners.helpers.actions import helper_keys
from partners.helpers.models import Helper
from partners.helpers.session_facts import kept_ready
from partners.helpers.session_models import Reply, Session, Turn
from partners.program.desk import Desk
from partners.story.merge import DETAILS, locked, move_all

# Of these whoever says nothing takes what the other says; those in one group belong together.
LACKED = (
    ("name",), ("school",), ("room",), ("phone",), ("email",), ("best_way",), ("language",), ("times",), ("how_often",),
    ("skills",), ("batch", "place_in_batch"), ("first_called_on",),
)  # fmt: skip
EITHER = ("at_school", "from_home", "show_day", "knows_rules")
BOTH_LISTS = ("days", "jobs")
CLEARANCE = ("cleared", "cleared_until", "cleared_by")


def merge_helpers(*, desk: Desk, kept: Helper, other: Helper) -> Helper:
    """`other` becomes `kept`, with all sessions, kits and notes of both; a session in which both stood has them once.

    Raises ChangedMeanwhile where either is no longer as it was seen.
    """
    with change(desk, HELPERS, other=str(other), helper=str(kept)) as book:
        kept, other = locked(Helper, {kept.pk: kept.version, other.pk: other.version}, kept.pk)
        book.about(kept)
        sessions = _one_turn_each(book, kept, other)
        move_all(book, kept, other)
        book.remove(other)
        for session in Session.objects.select_for_update().filter(pk__in=sessions).order_by("pk"):
            book.update(session, **kept_ready(session))
        values = put_together(kept, other)
        return book.update(kept, **{**values, **helper_keys(values)})


def put_together(kept: Helper, other: Helper) -> dict[str, Any]:
    """What the row that is kept says afterwards, where that is not what it said before."""
    values: dict[str, Any] = {}
    for names in LACKED:
        if not getattr(kept, names[0]) and getattr(other, names[0]):
            values |= {name: getattr(other, name) for name in names}
    values |= {name: getattr(kept, name) or getattr(other, name) for name in EITHER}
    values |= {name: sorted({*getattr(kept, name), *getattr(other, name)}) for name in BOTH_LISTS}
    if other.cleared and (not kept.cleared or _until(other) > _until(kept)):
        values |= {name: getattr(other, name) for name in CLEARANCE}
    values["note"] = "\n\n".join(dict.fromkeys(filter(None, (kept.note, other.note))))
    values["unreadable"] = kept.unreadable and other.unreadable
    values["stopped_on"] = _stopped(kept, other)
    return values


def _stopped(*rows: Helper) -> date | None:
    """Their no holds, unless a row was written down after it."""
    last = max((row.stopped_on for row in rows if row.stopped_on), default=None)
    again = any(row.stopped_on is None and last and row.created_at.date() > last for row in rows)
    return None if again else last


def _until(helper: Helper) -> date:
    """The last day of a clearance; one without an end outlasts every other."""
    return helper.cleared_until or date.max


def _one_turn_each(book: Change, kept: Helper, other: Helper) -> list[int]:
    """Where both stand in one session, the turn that stays says what either says. Returns these sessions."""
    turns = {turn.session_id: turn for turn in Turn.objects.select_for_update().filter(helper=kept)}
    both = Turn.objects.select_for_update().filter(helper=other, session__in=turns).order_by("pk")
    for theirs in list(both):
        turn = turns[theirs.session_id]
        values: dict[str, Any] = {"thanked_on": turn.thanked_on or theirs.thanked_on}
        if turn.reply == Reply.SILENT:
            values |= {"reply": theirs.reply, "replied_on": theirs.replied_on}
        if theirs.came and not turn.came:
            values |= {"came": True, "minutes": theirs.minutes}
        book.remove(theirs)
        book.update(turn, **values)
    return [theirs.session_id for theirs in both]


def merge_contacts(*, desk: Desk, kept: Contact, other: Contact) -> Contact:
    """Two rows of one person at one partner."""
    with change(desk, PEOPLE, other=other.name, person=kept.name) as book:
        kept, other = locked(Contact, {kept.pk: kept.version, other.pk: other.version}, kept.pk)
        book.about(Partner(pk=kept.partner_id))
        move_all(book, kept, other)
        book.remove(other)
        values = {name: getattr(kept, name) or getattr(other, name) for name in DETAILS}
        left_on = kept.left_on and other.left_on and max(kept.left_on, other.left_on)
        contact = book.update(kept, **values, decides=kept.decides or other.decides, left_on=left_on)
        partner = Partner.objects.select_for_update().get(pk=kept.partner_id)
        book.update(partner, people_key=people_there(partner))
        return contact
