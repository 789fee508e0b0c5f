"""Letters for money: what the giver wanted it for, in their words, and nothing that nobody said."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from outreach.preparing import prepare
from partners.asking.actions import log_visit
from partners.asking.said import Said
from partners.gifts.actions import Line, receive, receive_promised
from partners.gifts.models import Gift
from partners.program.desk import Desk
from tests.people import make_partner, make_school

pytestmark = pytest.mark.django_db
CHECK: dict[str, Any] = {"form": "money", "amount_cents": 20_000, "money_kind": "check"}


def money(desk: Desk, *lines: str, **values: Any) -> Gift:
    giver = make_partner(desk.program)
    things = [Line(description=what) for what in lines]
    return receive(desk=desk, source="partner", partner=giver, day=desk.day, lines=things, **CHECK | values)


def opening(desk: Desk, slug: str, pk: int) -> str:
    return prepare(desk, slug, pk).facts.body[0]


def test_the_letter_says_what_the_giver_wanted_it_for(desk: Desk) -> None:
    make_school(desk.program)
    gift = money(desk, purpose="For glazes for the fifth grade.")
    told = opening(desk, "gratitude-letter", gift.pk)
    assert told.endswith(f"{desk.day.year}. You said what it is for: glazes for the fifth grade.")
    assert opening(desk, "gratitude-letter", money(desk, purpose="").pk).endswith(f"{desk.day.year}.")


@pytest.mark.parametrize(
    ("what", "said"),
    [("", ""), ("for a kiln", " It is meant for a kiln."), ("glazes", " It is meant for glazes.")],
)
def test_promised_money_says_what_it_was_asked_for(desk: Desk, what: str, said: str) -> None:
    yes: dict[str, Any] = {"happened": "yes", "what": what, "amount_cents": 100, "due": desk.day, "day": desk.day}
    log_visit(desk=desk, said=Said(where=make_partner(desk.program), **yes))
    owed = desk.thanks.get()
    assert f"{desk.day.year}.{said} The day you named" in opening(desk, "thanks-note", owed.pk)
    came = receive_promised(desk=desk, promise=desk.promises.get(), day=desk.day)
    assert opening(desk, "gratitude-letter", came.pk).endswith(f"{desk.day.year}.{said}")


def test_thanks_written_late_announce_no_day_that_has_gone_by(desk: Desk) -> None:
    before = desk.day - timedelta(days=1)
    yes: dict[str, Any] = {"happened": "yes", "what": "paper", "due": before, "day": before}
    log_visit(desk=desk, said=Said(where=make_partner(desk.program), **yes))
    assert opening(desk, "thanks-note", desk.thanks.get().pk).endswith(f"{before.year}: paper.")


def test_what_nobody_asked_for_is_told_as_it_was_written(desk: Desk) -> None:
    assert opening(desk, "gratitude-letter", money(desk, "a gift card").pk).endswith(f"{desk.day.year}: a gift card.")
