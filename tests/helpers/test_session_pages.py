"""Sessions on screen: planned, filled, answered, checked in, thanked; and kits."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import time_machine
from django.contrib.messages import get_messages
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.helpers.actions import clear
from partners.helpers.models import Helper, Kit
from partners.helpers.session_actions import ask_helpers, reply
from partners.helpers.session_models import Session, Turn
from partners.program.desk import Desk
from partners.program.models import Membership, Role
from tests import people
from tests.helpers.cast import FRIDAY, helper, plan
from tests.ladder import enter, flat

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
NEW = {"day": "2026-10-23", "starts": "13:00", "ends": "15:00", "place": "the gym", "job": "hanging", "needed": "2"}


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 12:00 -0400", tick=False):
        yield


@pytest.fixture(autouse=True)
def own(june: Membership) -> Iterator[Desk]:
    """Whatever a page did, what the book keeps ready still follows from the record."""
    yield people.make_desk(june.program, user=june.user)
    assert differences(june.program) == []


def press(client: Client, name: str, pk: int | None = None, /, **typed: Any) -> str:
    answer = client.post(reverse(f"helpers:{name}", args=[pk] if pk else []), typed)
    assert answer.status_code == 302, flat(answer)
    return str(list(get_messages(answer.wsgi_request))[-1])


def shown(client: Client, name: str, *args: Any, **query: str) -> str:
    return flat(client.get(reverse(f"helpers:{name}", args=args), query))


def turn_of(desk: Desk, one: Helper, session: Session, answer: str = "yes") -> Turn:
    (turn,) = ask_helpers(desk=desk, session=session, helpers=[one])
    return reply(desk=desk, turn=turn, answer=answer, day=DAY)


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ({"day": "2026-10-05"}, "That day is past."),
        ({"place": ""}, "Say where the helpers shall come."),
        ({"ends": "12:00"}, "It ends before it begins."),
        ({"needed": "0"}, "greater than or equal to 1"),
        ({"needed": "5000"}, "So many helpers in one session?"),
    ],
)
def test_what_cannot_be_so_is_said_in_clear_words(signed_in: Client, typed: dict[str, str], error: str) -> None:
    assert error in flat(signed_in.post(reverse("helpers:session-new"), {**NEW, **typed}))
    assert not Session.objects.exists()


def test_a_day_that_is_past_is_taken_where_it_was_held_already(signed_in: Client) -> None:
    press(signed_in, "session-new", **{**NEW, "day": "2026-10-02", "past": "on"})
    assert Session.objects.get().day_due is None


def test_a_shows_page_fills_the_form_in(signed_in: Client) -> None:
    page = shown(signed_in, "session-new", job="hanging", place="the front hall", needed="5", day="2026-10-30")
    assert 'value="the front hall"' in page
    assert 'value="2026-10-30"' in page


def test_who_fits_is_suggested_with_the_reasons_and_asked(signed_in: Client, own: Desk) -> None:
    session = plan(own)
    rosa = helper(own, jobs=["hanging"], days=[4], at_school=True)
    helper(own, "Ada Lindqvist", from_home=True)
    page = shown(signed_in, "session-ask", session.pk)
    assert "said they can do this job; can come on that day of the week; has not had a turn this school year" in page
    assert "Not cleared: ask the office first" in page
    assert "Ada Lindqvist" not in page
    words = press(signed_in, "session-ask", session.pk, helper=[rosa.pk])
    assert "Not cleared for that day: Rosa Delgado." in words
    assert session.turns.get().helper == rosa


def test_nobody_is_asked_twice_for_one_session(signed_in: Client, own: Desk) -> None:
    session, rosa = plan(own), helper(own)
    press(signed_in, "session-ask", session.pk, helper=[rosa.pk])
    assert "not in this session yet" in press(signed_in, "session-ask", session.pk, helper=[rosa.pk])
    assert "in this session already" in shown(signed_in, "session-ask", session.pk, q="rosa")
    assert session.turns.count() == 1


def test_several_sessions_are_filled_in_one_go(signed_in: Client, own: Desk) -> None:
    first, second = plan(own, needed=1), plan(own, job="cutting", needed=1)
    both = helper(own, "Both", jobs=["hanging", "cutting"]), helper(own, "Cut", jobs=["cutting"])
    assert "Both" in shown(signed_in, "session-fill")
    press(signed_in, "session-fill", **{f"ask-{first.pk}": [both[0].pk], f"ask-{second.pk}": [both[1].pk]})
    assert (first.turns.get().helper, second.turns.get().helper) == both
    assert "Nobody was ticked" in press(signed_in, "session-fill")


def test_one_tap_says_yes_no_or_silent(signed_in: Client, own: Desk) -> None:
    session = plan(own, needed=1)
    (turn,) = ask_helpers(desk=own, session=session, helpers=[helper(own)])
    for answer, short in (("yes", False), ("no", True), ("silent", True), ("yes", False)):
        press(signed_in, "turn-reply", turn.pk, answer=answer)
        assert ("1 helper short." in shown(signed_in, "session-detail", session.pk)) == short
    assert signed_in.post(reverse("helpers:turn-reply", args=[turn.pk]), {"answer": "perhaps"}).status_code == 404


def test_more_yes_than_needed_is_said_in_words_that_can_be(signed_in: Client, own: Desk) -> None:
    session = plan(own, needed=1)
    for name in ("Rosa", "Ilse"):
        turn_of(own, helper(own, name), session)
    assert "2 said yes, and 1 would be enough" in shown(signed_in, "session-detail", session.pk)


def test_when_the_day_changes_who_said_yes_is_asked_again(signed_in: Client, own: Desk) -> None:
    session = plan(own)
    turn = turn_of(own, helper(own), session)
    assert "ask them again" in press(signed_in, "session-edit", session.pk, **{**NEW, "day": "2026-10-30"})
    turn.refresh_from_db()
    assert turn.reply == "silent"


def test_calling_off_says_how_many_to_tell(signed_in: Client, own: Desk) -> None:
    session = plan(own)
    turn_of(own, helper(own), session)
    assert "Tell the 1 who said yes." in press(signed_in, "session-call-off", session.pk)


def test_check_in_counts_the_hours_of_the_session_unless_put_right(signed_in: Client, own: Desk) -> None:
    session = plan(own, DAY)
    turn = turn_of(own, helper(own), session)
    assert press(signed_in, "turn-came", turn.pk, came="yes") == "Rosa Delgado: 2 h."
    assert press(signed_in, "turn-came", turn.pk, came="minutes", minutes="45") == "Rosa Delgado: 45 min."
    assert "Nothing was changed." in press(signed_in, "turn-came", turn.pk, came="minutes", minutes="5000")
    assert "1 is here." in shown(signed_in, "session-check-in", session.pk)
    press(signed_in, "turn-came", turn.pk, came="no")
    turn.refresh_from_db()
    assert (turn.came, turn.minutes) == (False, None)


@pytest.mark.parametrize("name", ["session-all-came", "session-count", "session-walk-in"])
def test_nobody_is_checked_in_before_the_day(signed_in: Client, own: Desk, name: str) -> None:
    session = plan(own)
    turn = turn_of(own, helper(own), session)
    assert "on the day itself" in press(signed_in, name, session.pk, helper=turn.helper_id)
    assert "Nothing was changed." in press(signed_in, "turn-came", turn.pk, came="yes")
    assert signed_in.get(reverse("helpers:session-check-in", args=[session.pk])).status_code == 302
    assert "check-in" not in shown(signed_in, "session-detail", session.pk)
    turn.refresh_from_db()
    assert turn.came is None


def test_somebody_nobody_had_asked_is_looked_up_and_counted(signed_in: Client, own: Desk) -> None:
    session, rosa = plan(own, DAY), helper(own)
    assert "Rosa Delgado" in shown(signed_in, "session-check-in", session.pk, q="delg")
    assert press(signed_in, "session-walk-in", session.pk, helper=rosa.pk) == "Rosa Delgado is here."
    assert "already" in press(signed_in, "session-walk-in", session.pk, helper=rosa.pk)


def test_all_came_that_is_all_and_thanks_are_one_tap_each(signed_in: Client, own: Desk) -> None:
    session = plan(own, DAY)
    for name in ("Rosa", "Ilse", "Noor"):
        turn_of(own, helper(own, name), session)
    press(signed_in, "session-all-came", session.pk)
    press(signed_in, "session-count", session.pk)
    one = session.turns.order_by("pk")[0]
    assert press(signed_in, "session-thank", session.pk, turn=one.pk) == "1 helper thanked."
    assert press(signed_in, "session-thank", session.pk) == "2 helpers thanked."
    assert "Nobody is waiting" in press(signed_in, "session-thank", session.pk)


def test_a_helper_of_another_school_is_named_without_the_way_to_reach_them(client: Client, own: Desk) -> None:
    here, there = people.make_school(own.program), people.make_school(own.program, "North Ridge")
    session = plan(own, school=here)
    turn_of(own, helper(own, "Far Odell", phone="+12015550149", school=there), session)
    turn_of(own, helper(own, "Near Abara", phone="+12015550148", school=here), session)
    enter(client, people.make_member(own.program, "Omar", Role.TEACHER, school_ids=[here.pk]))
    page = shown(client, "session-detail", session.pk)
    assert "Far Odell" in page
    assert "555-0148" in page
    assert "555-0149" not in page


def test_a_clearance_that_ends_before_the_day_is_warned_of(signed_in: Client, own: Desk) -> None:
    session, rosa = plan(own), helper(own)
    clear(desk=own, helper=rosa, cleared=True, until=FRIDAY.replace(day=22), by="the office")
    turn_of(own, rosa, session)
    assert "Cleared only until October 22, 2026" in shown(signed_in, "session-detail", session.pk)


def test_a_kit_goes_out_comes_back_and_is_thanked_for(signed_in: Client, own: Desk) -> None:
    rosa = helper(own)
    typed = {"what": "felt hearts", "quantity": "24", "out_on": "2026-10-06", "due": "2026-10-05"}
    assert "It is due back before it went out." in flat(
        signed_in.post(reverse("helpers:kit-new", args=[rosa.pk]), typed)
    )
    press(signed_in, "kit-new", rosa.pk, **{**typed, "due": "2026-10-20"})
    kit = Kit.objects.get()
    assert "felt hearts" in shown(signed_in, "kit-list")
    assert "4 are missing." in press(signed_in, "kit-back", kit.pk, quantity_back="20", minutes="90")
    press(signed_in, "kit-thank", kit.pk)
    assert "1 h 30 min this school year" in shown(signed_in, "helper-detail", rosa.pk)
