"""Inviting somebody by a link, and joining with it. Only a hash of the link's secret is kept."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from datetime import date, timedelta
from hashlib import sha256
from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.translation import gettext_noop

from partners.ground.changes import change
from partners.program.desk import Desk
from partners.program.models import Invitation, Membership, Role, User

DAYS_OPEN = 14


class LinkIsOver(Exception):
    """The link was used, withdrawn or has ended meanwhile."""


def hash_of(secret: str) -> str:
    return sha256(secret.encode()).hexdigest()


def invite(
    *, desk: Desk, name: str, role: str, opened: Sequence[str] = (), school_ids: Sequence[int] = ()
) -> tuple[Invitation, str]:
    """An invitation, and the secret of its link (256 bits), which nobody can read again."""
    secret = secrets.token_urlsafe(32)
    with change(desk, gettext_noop("%(name)s invited to this book"), name=name) as book:
        invitation = Invitation(
            name=name,
            role=role,
            opened=list(opened),
            school_ids=list(school_ids),
            secret_hash=hash_of(secret),
            ends_on=desk.day + timedelta(days=DAYS_OPEN),
        )
        return book.add(invitation), secret


def withdraw(*, desk: Desk, invitation: Invitation) -> None:
    with change(desk, gettext_noop("Invitation of %(name)s withdrawn"), name=invitation.name) as book:
        book.remove(invitation)


def join(*, desk: Desk, invitation: Invitation, user: User) -> Membership:
    """Make `user`, who may be new, a member as the invitation says. `desk` is the program's, with the user at it.

    The link stays used also where the joining is taken back. Raises LinkIsOver.
    """
    with change(desk, gettext_noop("%(name)s joined by invitation"), name=str(user)) as book:
        stored = Invitation.objects.select_for_update().filter(pk=invitation.pk).first()
        if stored is None or is_over(stored, desk.day):
            raise LinkIsOver
        if user.pk is None:
            user.save()
        rights = {"role": stored.role, "opened": stored.opened, "school_ids": stored.school_ids}
        # A colleague signs what they print; the keeper may take it out.
        name = str(user)[:120] if stored.role == Role.TEACHER else ""
        member = book.add(Membership(user=user, signs_as=name, **rights))
        book.scrub(stored, {"used_by": user, "used_on": desk.day})
        return member


def is_over(invitation: Invitation, day: date) -> bool:
    return invitation.used_by_id is not None or invitation.ends_on < day


def day_of(invitation: Invitation) -> date:
    """Today, where the program is."""
    return timezone.localdate(timezone=ZoneInfo(invitation.program.time_zone))


def found(secret_hash: str) -> Invitation | None:
    """The open invitation with this hash, in whatever program: who opens a link is at no desk yet."""
    rows = Invitation.objects.select_related("program")
    invitation = rows.filter(secret_hash=secret_hash).first() if secret_hash else None
    return None if invitation is None or is_over(invitation, day_of(invitation)) else invitation
