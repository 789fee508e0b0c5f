"""The review narrowed to what one hand settles."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from partners.agenda import hands
from partners.agenda.lines import BY_SLUG, ORDER, Place
from partners.agenda.review import PAGE, review
from partners.ground.due import DueSource, Hand
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.visits.models import FollowUp
from tests import people
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def own(june: Membership) -> Desk:
    """A book whose calls alone fill more than one page, with one gift to thank for."""
    desk = people.make_desk(june.program, user=june.user)
    partner = people.make_partner(desk.program)
    FollowUp.objects.bulk_create(
        FollowUp(program=desk.program, partner=partner, what=f"x{n}", due=DAY - timedelta(days=n), base=DAY)
        for n in range(PAGE + 5)
    )
    make_line(desk, "gifts.thanks")
    return desk


def test_links_to_each_hand_stand_above_what_does_not_fit_on_one_page(own: Desk) -> None:
    assert [chip.words for chip in review(own)["hands"]] == ["All", "Write 1", f"Return or call {PAGE + 5}"]
    own.follow_ups.all().delete()
    assert not review(own)["hands"]


def test_narrowed_to_a_hand_it_pages_within_the_hand(own: Desk, signed_in: Client) -> None:
    page = signed_in.get(reverse("agenda:review"), {"hand": "call"})
    after = page.context["after"]
    assert after.startswith("?hand=call&after=")
    rest = signed_in.get(reverse("agenda:review") + after)
    assert [(group.hand, len(group.lines)) for group in rest.context["groups"]] == [("call", 5)]
    assert [chip.words for chip in rest.context["hands"] if chip.here] == [f"Return or call {PAGE + 5}"]


def test_a_settled_line_stays_in_the_hand_it_was_settled_in(own: Desk, signed_in: Client) -> None:
    thanks = own.thanks.get()
    narrowed = reverse("agenda:review") + "?hand=write"
    answer = signed_in.post(
        reverse("agenda:settle", args=["gifts.thanks", thanks.pk]), {"act": "done", "next": narrowed}
    )
    assert answer["Location"].startswith(narrowed)
    page = signed_in.get(narrowed)
    assert [line.settled for line in page.context["groups"][0].lines] == ["Said in person"]
    assert "Write 0" in [chip.words for chip in page.context["hands"]]
    assert not [line for group in review(own, hand=Hand.MAKE)["groups"] for line in group.lines]


def test_counting_stops_at_the_cap(own: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hands, "CAP", 7)
    with CaptureQueriesContext(connection) as caught:
        assert hands.count_by_hand(own, DAY)[Hand.CALL] == (7, True)
    assert len(caught) == 1


def test_neither_a_full_page_nor_one_among_the_quiet_partners_reads_a_source_twice(
    own: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    found = DueSource.found

    def noted(source: DueSource, *told: Any, **where: Any) -> Any:
        read.append(source.slug)
        return found(source, *told, **where)

    monkeypatch.setattr(DueSource, "found", noted)
    quiet = make_line(own, "directory.quiet")
    for after in (None, Place(DAY - timedelta(days=900), ORDER["directory.quiet"], quiet.pk)):
        read.clear()
        review(own, after)
        assert sorted(read) == sorted(BY_SLUG)
