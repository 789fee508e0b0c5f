"""Today: what runs out, up to seven things, what to bring, the week; and one sentence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from partners.agenda.errands import KINDS
from partners.agenda.lines import BY_SLUG
from partners.agenda.today import today
from partners.helpers.actions import add_helper
from partners.helpers.session_actions import add_session, ask_helpers, call_off, reply
from partners.program.desk import Desk
from partners.program.models import Membership, Opened, Role
from partners.school.actions import add_days
from partners.school.models import ClosureKind
from tests import people
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 09:00 -0400", tick=False):
        yield


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


def planned(desk: Desk, day: date, *names: str) -> Any:
    """An outing to partners of these names."""
    outing = desk.outings.create(program=desk.program, day=day)
    for place, name in enumerate(names):
        partner = people.make_partner(desk.program, name)
        desk.outing_stops.create(program=desk.program, outing=outing, partner=partner, position=place)
    return outing


def test_what_is_collected_or_owed_today_or_has_an_hour_comes_first(own: Desk) -> None:
    collect, promised = make_line(own, "promises.theirs"), make_line(own, "promises.ours")
    late = make_line(own, "promises.theirs", DAY - timedelta(days=1))
    shown = today(own)
    assert {line.pk for line in shown["runs_out"]} == {collect.pk, promised.pk}
    assert [line.pk for line in shown["lines"]] == [late.pk]


def test_a_show_is_hung_on_its_day_and_what_is_taken_down_is_not_brought(own: Desk) -> None:
    hang, down = make_line(own, "exchanges.put-up"), make_line(own, "exchanges.take-down")
    own.trades.filter(pk=hang.pk).update(what="hung")
    own.trades.filter(pk=down.pk).update(what="taken")
    shown = today(own)
    assert [line.verb for line in shown["runs_out"]] == ["Put on show at", "Take down at"]
    assert [entry.words for entry in shown["bring"]] == ["hung"]


def test_up_to_seven_things_the_oldest_first_and_how_many_more(own: Desk) -> None:
    rows = [make_line(own, "promises.ours", DAY - timedelta(days=n)) for n in range(1, 11)]
    shown = today(own)
    assert [line.pk for line in shown["lines"]] == [row.pk for row in rows[:2:-1]]
    assert (shown["more"], shown["more_at_least"]) == (3, False)


def test_counting_stops_at_a_hundred(signed_in: Client, own: Desk) -> None:
    partner = people.make_partner(own.program)
    for n in range(110):
        own.follow_ups.create(program=own.program, partner=partner, what=f"x{n}", due=DAY, base=DAY)
    assert "At least 93 more: review" in signed_in.get(reverse("agenda:today")).content.decode()


def test_who_has_gone_quiet_is_a_matter_for_the_month_and_not_for_today(own: Desk) -> None:
    make_line(own, "directory.quiet")
    shown = today(own)
    assert (shown["lines"], shown["runs_out"], shown["more"]) == ([], [], 0)


def test_what_to_bring(own: Desk) -> None:
    make_line(own, "promises.theirs")
    make_line(own, "promises.ours")
    outing = planned(own, DAY, "One", "Two")
    bring = today(own)["bring"]
    assert [thing.words for thing in bring] == ["sheets for 2 places", "a bag or box", "tags"]
    assert bring[0].url == outing.get_absolute_url()
    assert today(replace(own, role=Role.GUEST))["bring"] == []


def test_no_bag_is_brought_for_what_they_bring_themselves(own: Desk) -> None:
    make_line(own, "promises.theirs")
    own.promises.update(collect=False, due=own.day)
    assert today(own)["bring"] == []


def test_an_outing_of_another_day_brings_nothing(own: Desk) -> None:
    planned(own, DAY + timedelta(days=1), "One")
    assert today(own)["bring"] == []


@pytest.mark.parametrize(
    ("day", "through"),
    [("2026-10-05", "2026-10-11"), ("2026-10-08", "2026-10-11"), ("2026-10-09", "2026-10-18"),
     ("2026-10-11", "2026-10-18")],
)  # fmt: skip
def test_the_week_ends_on_sunday_and_from_friday_on_is_the_next(own: Desk, day: str, through: str) -> None:
    last, beyond = date.fromisoformat(through), date.fromisoformat(through) + timedelta(days=1)
    for due in (last, beyond):
        make_line(own, "promises.ours", due)
    shown = today(people.make_desk(own.program, day=date.fromisoformat(day)))
    assert [entry.day for entry in shown["week"]] == [last]


def test_the_week_has_five_lines_at_most_each_a_day(own: Desk) -> None:
    friday = people.make_desk(own.program, day=date(2026, 10, 9))
    for n in range(1, 9):
        for _twice in range(3):
            make_line(own, "promises.ours", friday.day + timedelta(days=n))
    week = today(friday)["week"]
    assert [entry.day for entry in week] == [friday.day + timedelta(days=n) for n in range(1, 6)]
    assert week[0].words == "Make for Partner 0, Make for Partner 1 and 1 more"


def test_the_sentence_says_which_day_of_the_cycle_it_is_where(own: Desk) -> None:
    cycle = {"cycle_length": 6, "cycle_from": date(2026, 10, 1)}
    here = people.make_school(own.program, "Millrace Elementary", **cycle)
    there = people.make_school(own.program, "North Ridge Elementary", **cycle)
    people.make_school(own.program, "Weir Street School")
    own.school_days.create(program=own.program, school=there, first=DAY, last=DAY)
    assert today(own)["sentence"] == "Today: day 4 at Millrace Elementary and no school at North Ridge Elementary."
    saturday = people.make_desk(own.program, day=date(2026, 10, 10))
    assert today(saturday)["sentence"] == ""
    one_school = people.make_desk(own.program, school_ids=frozenset({here.pk}))
    assert today(one_school)["sentence"] == "Today: day 4 at Millrace Elementary."
    year = {"kind": "year", "first": date(2025, 9, 1), "last": date(2026, 6, 12)}
    own.school_days.create(program=own.program, school=here, **year)
    assert today(one_school)["sentence"] == "Today: no school at Millrace Elementary."
    for school in own.schools.exclude(pk=there.pk):
        own.school_days.create(program=own.program, school=school, first=DAY, last=DAY)
    assert today(own)["sentence"] == "Today: no school at any of your schools."


def test_after_the_last_school_year_no_cycle_day_is_told_until_the_next_is_entered(own: Desk) -> None:
    school = people.make_school(own.program, cycle_length=6, cycle_from=date(2026, 9, 1))
    add_days(desk=own, school=school, first=date(2026, 8, 30), last=date(2027, 6, 22), kind="year")
    summer = replace(own, day=date(2027, 8, 23))
    assert today(summer)["sentence"] == ""
    add_days(desk=own, school=school, first=date(2027, 8, 23), last=date(2028, 6, 21), kind="year")
    assert today(summer)["sentence"] == "Today: day 2 at Millrace Elementary."


def test_the_sentence_says_which_helpers_come_when(own: Desk) -> None:
    hours = {"starts": time(13), "ends": time(15), "place": "the gym", "job": "hanging"}
    session = add_session(desk=own, day=own.day, **hours)
    for name in ("Rosa Delgado", "Ilse Brandt"):
        (turn,) = ask_helpers(desk=own, session=session, helpers=[add_helper(desk=own, name=name)])
        reply(desk=own, turn=turn, answer="yes", day=own.day)
    assert today(own)["sentence"] == "Today: 2 helpers at 1 p.m. for hanging a show (the gym)."
    call_off(desk=own, session=own.sessions.get(), day=own.day)
    assert today(own)["sentence"] == ""


def test_without_a_cycle_there_is_no_sentence(own: Desk) -> None:
    people.make_school(own.program)
    assert today(own)["sentence"] == ""


SHEET = "/sheets/leave-behind/0/"


def test_an_empty_book_says_what_to_begin_with_until_a_partner_is_in_it(own: Desk) -> None:
    assert [step.url for step in today(own)["first_steps"]] == ["/wish-list/new/", "/schools/", "/visits/new/"]
    own.needs.create(program=own.program, what="pots")
    assert [step.url for step in today(own)["first_steps"]] == ["/schools/", SHEET, "/visits/new/"]
    people.make_partner(own.program, "Bluebird Bakery")
    assert today(own)["first_steps"] == []
    school = people.make_school(own.program, asking_needs_approval=True)
    assert [step.url for step in today(own)["first_steps"]] == [f"/schools/{school.pk}/#approvals"]


def test_an_empty_day_says_so_kindly(signed_in: Client, own: Desk) -> None:
    people.make_partner(own.program, "Bluebird Bakery")
    page = signed_in.get(reverse("agenda:today")).content.decode()
    assert "Nothing waits for you today." in page
    assert "Tuesday, October 6" in page


def test_a_teacher_of_one_school_sees_what_is_for_it_and_for_all(client: Client, own: Desk) -> None:
    north = people.make_school(own.program, "North Ridge Elementary")
    rows = [make_line(own, "promises.ours") for _ in range(3)]
    for row, school in zip(rows, (own.schools.first(), north, None), strict=True):
        own.promises.filter(pk=row.pk).update(school=school)
    other = people.make_school(own.program, "Weir Street School")
    omar = people.make_member(own.program, "Omar", Role.TEACHER, school_ids=[other.pk])
    client.force_login(omar.user, backend="django.contrib.auth.backends.ModelBackend")
    shown = client.get(reverse("agenda:today")).context["runs_out"]
    assert [line.pk for line in shown] == [rows[2].pk]


def test_a_guest_reads_it_without_a_button(client: Client, own: Desk, grace: Membership) -> None:
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.TODAY])
    make_line(own, "promises.ours")
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    page = client.get(reverse("agenda:today")).content.decode()
    assert "Make for" in page
    assert 'name="act"' not in page


def test_in_summer_a_school_without_a_year_is_asked_about_and_then_the_yes_to_asking() -> None:
    august = people.make_desk(day=date(2027, 8, 3))
    school = people.make_school(august.program)
    august.classes.create(program=august.program, school=school, label="1A", grade=1, students=20)
    asked = [f"/schools/{school.pk}/days/new/?kind=year", f"/schools/{school.pk}/#approvals"]
    assert [step.url for step in today(august)["first_steps"]][1:3] == asked
    add_days(desk=august, school=school, first=date(2027, 8, 26), last=date(2028, 6, 16), kind=ClosureKind.YEAR)
    assert [step.url for step in today(august)["first_steps"]][1:2] == asked[1:]


def test_sums_for_one_office_are_one_line_that_unfolds_and_one_press_hands_them_in(
    signed_in: Client, own: Desk
) -> None:
    rows = [make_line(own, "gifts.hand-in", DAY - timedelta(days=n)) for n in (1, 5, 4)]
    promised = make_line(own, "promises.ours", DAY - timedelta(days=2))
    (sums, ours) = today(own)["lines"]
    assert (sums.verb, sums.what, sums.due) == ("Hand to the office:", "3 sums, $75.00", DAY - timedelta(days=5))
    assert [one.pk for one in sums.each] == [rows[1].pk, rows[2].pk, rows[0].pk]
    assert ours.pk == promised.pk
    said = signed_in.post(sums.main.url, {"line": sums.keys, "do": sums.main.code}, follow=True).content.decode()
    assert "3 lines: Handed in" in said
    assert not own.gifts.to_hand_in().exists()


def test_receipts_for_one_office_are_one_line_too(own: Desk) -> None:
    for days in (1, 5):
        make_line(own, "funding.receipt", DAY - timedelta(days=days))
    (line,) = today(own)["lines"]
    assert (len(line.each), line.main.label) == (2, "All handed in")
    assert set(KINDS) <= set(BY_SLUG)


def test_where_more_is_due_than_was_read_the_sums_are_the_oldest(own: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("partners.agenda.today.CAP", 2)
    for _n in range(3):
        make_line(own, "gifts.hand-in", DAY - timedelta(days=5))
    assert [line.what for line in today(own)["lines"]] == ["the oldest 2 sums, $50.00"]


def test_pick_ups_at_one_place_are_one_line_and_those_at_another_are_not(own: Desk) -> None:
    first, second, other = (make_line(own, "promises.theirs") for _n in range(3))
    own.promises.filter(pk=second.pk).update(partner=first.partner)
    one, elsewhere = today(own)["runs_out"]
    assert ([each.pk for each in one.each], one.who) == ([first.pk, second.pk], first.partner.name)
    assert (elsewhere.pk, elsewhere.each) == (other.pk, ())


def test_three_letters_are_one_line_and_two_stand_where_they_are_due(own: Desk) -> None:
    late, between, soon = (DAY - timedelta(days=n) for n in (8, 5, 4))
    for day in (late, soon):
        make_line(own, "gifts.thanks", day)
    make_line(own, "promises.ours", between)
    assert [line.due for line in today(own)["lines"]] == [late, between, soon]
    make_line(own, "gifts.thanks", soon)
    assert [line.due for line in today(own)["lines"]] == [late, between]


def test_helpers_are_to_be_thanked_while_they_are_there_on_the_day_only(own: Desk) -> None:
    make_line(own, "helpers.thanks")
    later = replace(own, day=DAY + timedelta(days=1))
    shown = [today(desk)["runs_out"] + today(desk)["lines"] for desk in (own, later)]
    assert [line.why for lines in shown for line in lines] == ["on the day, while they are there", ""]
