"""What is typed into the forms of approvals and procedures."""

from __future__ import annotations

from partners.program.models import Program
from tests.whole_site.attempt import Attempt, set_to

OWN = 5_000_001


def stands_behind_nothing(program: Program) -> None:
    for kind in ("asks", "trades", "attachments"):
        getattr(program, kind).update(approval=None)


ATTEMPTS = {
    "school:approval-edit": Attempt({"by": "Dr. Okafor", "until": ""}),
    "school:approval-remove": Attempt(before=stands_behind_nothing, page="school:approval-edit"),
    "school:approvals-lapse": Attempt({"approvals": [OWN]}, before=set_to("approvals", until=None, ask_on=None)),
    "school:procedure-edit": Attempt({"who": "the board", "days_ahead": "15"}),
    "school:procedure-new": Attempt({"what_for": "pictures", "who": "the principal", "days_ahead": "5"}),
    "school:procedure-remove": Attempt(page="school:procedure-edit"),
}
