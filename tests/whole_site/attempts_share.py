"""Invitations, and putting two rows of one partner together."""

from __future__ import annotations

from partners.program.models import Program
from tests.whole_site.attempt import Attempt


def still_open(program: Program) -> None:
    program.invitations.update(used_by=None, used_on=None)


ATTEMPTS: dict[str, Attempt] = {
    "program:member-new": Attempt({"name": "Ada Quill", "role": "teacher"}),
    "program:invitation-withdraw": Attempt(before=still_open, page="program:member-list"),
}
