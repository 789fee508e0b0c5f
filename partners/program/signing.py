"""Who stands under what is printed: a colleague under their own name, else the program's teacher."""

from __future__ import annotations

from partners.program.desk import Desk, Signer
from partners.program.models import Membership


def signer_of(membership: Membership) -> Signer | None:
    """A colleague under their own name; their phone and mail are theirs alone, never another's."""
    if not membership.signs_as:
        return None
    title = membership.title or membership.program.title
    return Signer(membership.signs_as, title, membership.phone, membership.email)


def signer(desk: Desk, name: str) -> Signer:
    """Whoever signs under that name, whoever is at the desk; without a name, who is there."""
    if name in ("", desk.signs.teacher):
        return desk.signs
    if name == desk.program.teacher:
        return desk.program_signs
    found = desk.memberships.filter(signs_as=name).select_related("program").first()
    return (signer_of(found) if found else None) or Signer(name)
