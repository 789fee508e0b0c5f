"""Invitations, and putting two rows of one partner or one person together."""

from __future__ import annotations

from partners.directory.models import Contact, Partner
from partners.ground.changes import change
from partners.helpers.models import Helper
from partners.program.models import Program
from tests import people
from tests.whole_site.attempt import Attempt

TWIN = 5_000_099


def still_open(program: Program) -> None:
    program.invitations.update(used_by=None, used_on=None)


def written_down_twice(program: Program) -> None:
    with change(people.make_desk(program), "twice") as book:
        book.add(Partner(pk=TWIN, name="Ours too", name_key="ours too"))


def helper_twice(program: Program) -> None:
    with change(people.make_desk(program), "twice") as book:
        book.add(Helper(pk=TWIN, name="Ours too", name_key="ours too"))


def contact_twice(program: Program) -> None:
    with change(people.make_desk(program), "twice") as book:
        book.add(Contact(pk=TWIN, partner=program.contacts.first().partner, name="Ours too", name_key="ours too"))


ATTEMPTS: dict[str, Attempt] = {
    "program:member-new": Attempt({"name": "Ada Quill", "role": "teacher"}),
    "story:partner-merge": Attempt({"other": TWIN}, before=written_down_twice, page=None),
    "story:partner-two": Attempt({"other": TWIN}, before=written_down_twice, page=None),
    "story:helper-merge": Attempt({"other": TWIN}, before=helper_twice, page=None),
    "story:contact-merge": Attempt({"other": TWIN}, before=contact_twice, page=None),
    "program:invitation-withdraw": Attempt(before=still_open, page="program:member-list"),
}
