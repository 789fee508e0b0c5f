"""What the directory tells in a partner's story: when it was written down, and who came and went there."""

from __future__ import annotations

from typing import Any

from django.utils import timezone
from django.utils.translation import gettext as _

from partners.directory.models import Contact, Partner
from partners.ground.story import StoryLine
from partners.ground.traces import REMOVED
from partners.program.desk import Desk


def lines(desk: Desk, partner: Partner) -> list[StoryLine]:
    """In any order, from one query over the people there."""
    written = partner.created_at
    found = [StoryLine(timezone.localdate(written), written, _("Written down in the book"))]
    if partner.may_name_asked_on:
        answer = partner.get_may_name_display() if partner.may_name else _("no answer yet")
        what = _("Asked whether we may name them: %(answer)s") % {"answer": answer}
        found.append(StoryLine(partner.may_name_asked_on, partner.updated_at, what))
    for contact in desk.contacts.filter(partner=partner):
        found += _came_and_went(contact)
    return found


def _came_and_went(contact: Contact) -> list[StoryLine]:
    name = _("Somebody") if contact.name == REMOVED else contact.name
    who: dict[str, Any] = {"who": name, "role": contact.role}
    found = []
    if contact.since:
        what = _("%(who)s is there now, as %(role)s") if contact.role else _("%(who)s is there now")
        found.append(StoryLine(contact.since, contact.created_at, what % who))
    if contact.left_on:
        found.append(StoryLine(contact.left_on, contact.updated_at, _("%(who)s left") % who))
    return found
