"""A member's secret calendar address."""

from __future__ import annotations

from partners.program.models import Program
from tests.whole_site.attempt import Attempt, set_to


def has_an_address(program: Program) -> None:
    program.memberships.filter(user__username="june").update(calendar_turn=3)


ATTEMPTS: dict[str, Attempt] = {
    "outreach:calendar-renew": Attempt(page="outreach:your-calendar"),
    "outreach:document-mail": Attempt(
        before=set_to("partners", email="hello@example.org"), where={"slug": "leave-behind"}
    ),
    "outreach:calendar-end": Attempt(before=has_an_address, page="outreach:your-calendar"),
}
