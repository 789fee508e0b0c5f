"""Settling lines of what is due: each act of each source, alone and many, and what can go wrong."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.messages import get_messages
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.agenda.lines import BY_SLUG, SOURCES, due_lines
from partners.agenda.shown import settled_on
from partners.gifts.actions import Line, receive
from partners.ground.due import DueLine
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership, Role
from tests import people, whole_book
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
# Every button of every source that settles a line where it stands.
BUTTONS: dict[str, set[str]] = {
    "visits.follow-up": {"done", "move", "not_this_month", "no_reply"},
    "visits.look-after": {"no_reply", "move", "not_this_month"},
    "promises.theirs": {"done", "that_was_all", "never_came", "move", "not_this_month"},
    "promises.ours": {"done", "that_was_all", "never_came", "move", "not_this_month"},
    "exchanges.start": {"done"},
    "exchanges.make": {"done", "that_was_all", "never_came", "move", "not_this_month"},
    "exchanges.plain": {"done", "that_was_all", "never_came", "move", "not_this_month"},
    "exchanges.give": {"done", "that_was_all", "never_came", "move", "not_this_month"},
    "exchanges.approval": {"done", "move", "not_this_month"},
    "exchanges.memo": {"done", "move", "not_this_month"},
    "exchanges.put-up": {"done", "move", "not_this_month"},
    "exchanges.take-down": {"done", "move", "not_this_month"},
    "gifts.thanks": {"done"},
    "gifts.families": {"done", "move", "not_this_month"},
    "gifts.accept": {"done", "move", "not_this_month"},
    "gifts.return": {"done", "move", "not_this_month"},
    "gifts.hand-in": {"done"},
    "school.approval": {"done"},
    "school.lapsed": {"done", "holds"},
    "helpers.week": {"done"},
    "helpers.day": {"done"},
    "helpers.short": {"done"},
    "helpers.count": {"done", "never_came"},
    "helpers.thanks": {"done"},
    "helpers.kit": {"done", "move", "not_this_month"},
    "helpers.clearance": {"done"},
    "directory.quiet": {"rest", "move", "not_this_month", "never"} - {"move"},
    "school.became": {"done", "move"},
    "school.part": {"done", "move", "not_this_month"},
    "school.colleague": {"done", "move", "not_this_month"},
    "funding.apply": {"not_applied"},
    "funding.answer": {"move", "not_this_month"},
    "funding.accept": {"done", "move", "not_this_month"},
    "funding.spend": {"left"},
    "funding.claim": {"done"},
    "funding.report": {"done"},
    "funding.receipt": {"done", "move", "not_this_month"},
    "funding.repaid": {"done", "let_go", "move", "not_this_month"},
    "funding.tax-back": {"done", "let_go", "move", "not_this_month"},
    "funding.certificate": {"done"},
    "funding.confirm": {"done", "never_came"},
    "funding.go": {"never_came"},
    "letters.batch": set(),
}
EACH = [(slug, act) for slug in sorted(BUTTONS) for act in sorted(BUTTONS[slug])]
# Of moving, the day that is chosen is looked at each time; "Not this month" chooses it by itself, the same for all.
CHOSEN_OR_NOT = [
    pytest.param(*one, marks=pytest.mark.nightly)
    if one[1] == "not_this_month" and {"move"} <= BUTTONS[one[0]] and one[0] != "visits.follow-up"
    else one
    for one in EACH
]
ONE_OF_EACH = [(slug, min(acts)) for slug, acts in sorted(BUTTONS.items()) if acts]


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


def line_of(desk: Desk, slug: str, pk: int) -> DueLine | None:
    found = due_lines(desk, until=DAY + timedelta(days=60), limit=500, sources=[BY_SLUG[slug]])
    return next((line for line in found if line.pk == pk), None)


def press(client: Client, slug: str, pk: int, act: str, **more: Any) -> str:
    """What is said afterwards."""
    answer = client.post(reverse("agenda:settle", args=[slug, pk]), {"act": act, **more})
    assert answer.status_code == 302, answer.status_code
    return str(list(get_messages(answer.wsgi_request))[-1])


def with_ticked(client: Client, rows: dict[str, list[int]], act: str, **more: Any) -> str:
    keys = [f"{slug.replace('.', '-')}-{pk}" for slug, pks in rows.items() for pk in pks]
    answer = client.post(reverse("agenda:settle-many"), {"line": keys, "do": act, **more})
    assert answer.status_code == 302
    return str(list(get_messages(answer.wsgi_request))[-1])


def test_the_buttons_are_these(own: Desk) -> None:
    shown = {}
    for source in SOURCES:
        line = line_of(own, source.slug, make_line(own, source).pk)
        assert line is not None
        shown[source.slug] = {act.code for act in line.acts if not act.opens}
    assert shown == BUTTONS


@pytest.mark.parametrize(("slug", "act"), CHOSEN_OR_NOT)
def test_a_button_settles_its_line_as_one_change_and_undo_brings_it_back(
    signed_in: Client, own: Desk, slug: str, act: str
) -> None:
    row = make_line(own, slug)
    before, line, events = whole_book.rows(own.program), line_of(own, slug, row.pk), Event.objects.count()
    press(signed_in, slug, row.pk, act, day="2026-10-20")
    assert Event.objects.count() == events + 1
    later = line_of(own, slug, row.pk)
    if act == "move":
        assert later is not None
        assert later.due == date(2026, 10, 20)
    elif act == "not_this_month" and slug != "directory.quiet":
        assert later is not None
        assert later.due == date(2026, 11, 2)
    else:
        assert later is None
    if (slug, act) in ONE_OF_EACH:
        assert differences(own.program) == []
    signed_in.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert whole_book.rows(own.program) == before
    assert line_of(own, slug, row.pk) == line


@pytest.mark.parametrize(("slug", "act"), ONE_OF_EACH)
def test_settled_twice_is_told(signed_in: Client, own: Desk, slug: str, act: str) -> None:
    row = make_line(own, slug)
    press(signed_in, slug, row.pk, act, day="2026-10-20")
    events = Event.objects.count()
    said = press(signed_in, slug, row.pk, act, day="2026-10-20")
    moved_only = act in ("move", "not_this_month") and slug != "directory.quiet"
    assert said == ("It stands so already. Nothing was changed." if moved_only else "That is settled already.")
    assert Event.objects.count() == events


def test_many_lines_of_many_sources_are_one_change(signed_in: Client, own: Desk) -> None:
    rows = {slug: [make_line(own, slug).pk for _ in "ab"] for slug in BUTTONS if "done" in BUTTONS[slug]}
    before, events = whole_book.rows(own.program), Event.objects.count()
    said = with_ticked(signed_in, rows, "done")
    assert said == f"{2 * len(rows)} lines: Done"
    assert Event.objects.count() == events + 1
    assert [line_of(own, slug, pk) for slug, pks in rows.items() for pk in pks] == [None] * 2 * len(rows)
    assert differences(own.program) == []
    whole_book.undo_newest(own)
    assert whole_book.rows(own.program) == before


def test_thanks_that_are_said_along_are_told_and_stay_struck_through(signed_in: Client, own: Desk) -> None:
    """One thank-you is for all that one giver brought on one day."""
    giver = make_line(own, "promises.theirs").partner
    came = {"desk": own, "source": "partner", "partner": giver, "day": DAY, "form": "goods"}
    pots, soil = (receive(**came, lines=[Line(description=what)]).thanks for what in ("pots", "soil"))
    assert press(signed_in, "gifts.thanks", pots.pk, "done") == "2 lines: Said in person"
    assert not own.thanks.owed().exists()
    assert {(one.key, one.together) for one in settled_on(own)} == {
        (f"gifts-thanks-{thanks.pk}", 2) for thanks in (pots, soil)
    }
    assert differences(own.program) == []


def test_what_cannot_be_settled_that_way_is_named_and_stays_as_it_is(signed_in: Client, own: Desk) -> None:
    quiet = {"directory.quiet": [make_line(own, "directory.quiet").pk]}
    before = whole_book.rows(own.program)
    assert with_ticked(signed_in, quiet, "done") == "“Done” is no way to settle Partner 0; it stays as it is."
    assert whole_book.rows(own.program) == before
    thanks = make_line(own, "gifts.thanks")
    with_ticked(signed_in, {**quiet, "gifts.thanks": [thanks.pk]}, "done")
    assert not own.thanks.owed().exists()
    assert line_of(own, "directory.quiet", quiet["directory.quiet"][0]) is not None


@pytest.mark.parametrize(
    ("day", "told"),
    [
        ("", "Say to which day."),
        ("never", "Say to which day."),
        ("2026-02-31", "Say to which day."),
        ("2026-10-06", "That day is not ahead. Choose a later one."),
        ("2025-12-01", "That day is not ahead. Choose a later one."),
    ],
)
def test_a_wrong_day_is_told_and_nothing_moves(signed_in: Client, own: Desk, day: str, told: str) -> None:
    row = make_line(own, "promises.theirs")
    assert press(signed_in, "promises.theirs", row.pk, "move", day=day) == told
    assert with_ticked(signed_in, {"promises.theirs": [row.pk]}, "move", day=day) == told
    row.refresh_from_db()
    assert row.due == DAY


def test_not_this_month_goes_to_the_first_day_of_its_own_school(signed_in: Client, own: Desk) -> None:
    here, there = (people.make_school(own.program, name) for name in ("Here", "There"))
    own.school_days.create(program=own.program, school=here, first=date(2026, 11, 1), last=date(2026, 11, 3))
    rows = [make_line(own, "promises.theirs") for _ in "ab"]
    for row, school in zip(rows, (here, there), strict=True):
        own.promises.filter(pk=row.pk).update(school=school)
    with_ticked(signed_in, {"promises.theirs": [row.pk for row in rows]}, "not_this_month")
    assert [own.promises.get(pk=row.pk).due for row in rows] == [date(2026, 11, 4), date(2026, 11, 2)]


def test_nothing_ticked_is_told(signed_in: Client, own: Desk) -> None:
    assert with_ticked(signed_in, {}, "done") == "Tick the lines first."


@pytest.mark.parametrize(
    "key", ["", "x", "visits-follow-up-", "visits-follow-up-1x", "visits-follow-up-١", "no-such-1"]
)
def test_a_tick_that_is_no_line_is_not_there(signed_in: Client, key: str) -> None:
    answer = signed_in.post(reverse("agenda:settle-many"), {"line": [key], "do": "done"})
    assert answer.status_code == 404


@pytest.mark.parametrize("act", ["", "sing", "rest"])
def test_an_act_that_is_none_is_not_there(signed_in: Client, own: Desk, act: str) -> None:
    row = make_line(own, "gifts.thanks")
    assert signed_in.post(reverse("agenda:settle", args=["gifts.thanks", row.pk]), {"act": act}).status_code == 404
    many = {"line": [f"gifts-thanks-{row.pk}"], "do": act}
    assert signed_in.post(reverse("agenda:settle-many"), many).status_code == 404


@pytest.mark.parametrize("slug", sorted(BUTTONS))
def test_another_programs_line_is_not_there(signed_in: Client, otto: Membership, slug: str) -> None:
    theirs = people.make_desk(otto.program)
    row = make_line(theirs, slug)
    before = whole_book.rows(otto.program)
    act = "done" if "done" in BUTTONS[slug] else "not_this_month"
    assert signed_in.post(reverse("agenda:settle", args=[slug, row.pk]), {"act": act}).status_code == 404
    assert with_ticked(signed_in, {slug: [row.pk]}, act) == "That is settled already."
    assert whole_book.rows(otto.program) == before


def test_a_teacher_of_one_school_does_not_settle_for_another(client: Client, own: Desk) -> None:
    row = make_line(own, "gifts.accept")
    mine = people.make_school(own.program, "North Ridge Elementary")
    omar = people.make_member(own.program, "Omar", Role.TEACHER, school_ids=[mine.pk])
    client.force_login(omar.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.post(reverse("agenda:settle", args=["gifts.accept", row.pk]), {"act": "done"}).status_code == 404


def test_a_guest_settles_nothing(client: Client, own: Desk, grace: Membership) -> None:
    row = make_line(own, "gifts.thanks")
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.post(reverse("agenda:settle", args=["gifts.thanks", row.pk]), {"act": "done"}).status_code == 403
    many = {"line": [f"gifts-thanks-{row.pk}"], "do": "done"}
    assert client.post(reverse("agenda:settle-many"), many).status_code == 403


def test_a_school_year_without_end_is_told(signed_in: Client, own: Desk) -> None:
    row = make_line(own, "promises.theirs")
    for school in own.schools:
        own.school_days.create(program=own.program, school=school, first=DAY, last=date(2029, 12, 31))
    said = press(signed_in, "promises.theirs", row.pk, "not_this_month")
    assert said.startswith("In this school calendar every day is closed")
