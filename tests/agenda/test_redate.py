"""Days that were counted in school days move along when the calendar or a figure changes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
import time_machine
from django.contrib.messages import get_messages
from django.test import Client
from django.urls import reverse

from partners.agenda.actions import close_days
from partners.agenda.check_book import differences
from partners.agenda.lines import due_lines
from partners.agenda.shown import show
from partners.gifts.actions import receive
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.promises.actions import make_offer, move_promise, skip
from partners.school.models import School
from partners.visits.actions import follow_up_done, move_follow_up, move_look, plan_follow_up, record_ask
from tests import people, whole_book
from tests.agenda.books import make_line

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def school(june: Membership) -> School:
    return people.make_school(june.program)


@pytest.fixture
def own(june: Membership, school: School) -> Desk:
    return people.make_desk(june.program, user=june.user)


def press(client: Client, place: str, pk: int | None = None, /, **typed: Any) -> str:
    answer = client.post(reverse(place, args=[pk] if pk else []), typed)
    assert answer.status_code == 302, answer.content.decode()
    return str(list(get_messages(answer.wsgi_request))[-1])


def close(client: Client, school: School, first: str, last: str = "", kind: str = "closed") -> str:
    return press(client, "school:day-new", school.pk, kind=kind, title="Closed", first=first, last=last)


def visited(desk: Desk, day: date = DAY) -> Any:
    return plan_follow_up(desk=desk, partner=people.make_partner(desk.program), base=day)


def due(row: Any, name: str = "due") -> date:
    row.refresh_from_db()
    found: date = getattr(row, name)
    return found


@pytest.mark.parametrize("closed_first", [True, False], ids=["closed before", "closed afterwards"])
def test_a_follow_up_lands_behind_a_closed_day(
    signed_in: Client, own: Desk, school: School, closed_first: bool
) -> None:
    """A visit on 6 October 2026, and 13 October closed: back on 14 October."""
    if closed_first:
        close(signed_in, school, "2026-10-13")
    follow_up = visited(own)
    if not closed_first:
        assert due(follow_up) == date(2026, 10, 13)
        said = close(signed_in, school, "2026-10-13")
        assert said == "The calendar is changed. 1 open date moved."
    assert due(follow_up) == date(2026, 10, 14)
    assert differences(own.program) == []


@pytest.mark.parametrize("closed_first", [True, False], ids=["closed before", "closed afterwards"])
def test_thanks_are_due_overdue_and_late_over_a_closed_week(
    signed_in: Client, own: Desk, school: School, closed_first: bool
) -> None:
    """A gift of 20 November 2026, 25 to 27 November closed: due 2 December, overdue on the 3rd, late on the 10th."""
    if closed_first:
        close(signed_in, school, "2026-11-25", "2026-11-27")
    partner = people.make_partner(own.program)
    gift = receive(desk=own, source="partner", partner=partner, day=date(2026, 11, 20), form="goods")
    thanks = own.thanks.get(gift=gift)
    if not closed_first:
        close(signed_in, school, "2026-11-25", "2026-11-27")
    assert due(thanks) == date(2026, 12, 2)
    late = {day: lateness_on(own, day) for day in (2, 3, 9, 10)}
    assert late == {
        2: "", 3: "1 school day overdue", 9: "5 school days overdue", 10: "6 school days late",
    }  # fmt: skip


def lateness_on(desk: Desk, day: int) -> str:
    later = people.make_desk(desk.program, day=date(2026, 12, day))
    (line,) = due_lines(later, until=later.day, limit=5)
    return show(later, [line])[0].late


def test_what_moved_goes_back_with_the_days_that_are_taken_out(signed_in: Client, own: Desk, school: School) -> None:
    follow_up = visited(own)
    before = whole_book.rows(own.program)
    close(signed_in, school, "2026-10-13")
    assert press(signed_in, "school:day-remove", school.school_days.get().pk).endswith("1 open date moved.")
    assert due(follow_up) == date(2026, 10, 13)
    assert whole_book.rows(own.program) == before


def test_a_closure_is_undone_with_all_that_moved(signed_in: Client, own: Desk, school: School) -> None:
    rows = [make_line(own, slug) for slug in ("visits.follow-up", "gifts.thanks", "gifts.accept", "gifts.hand-in")]
    before = whole_book.rows(own.program)
    close(signed_in, school, "2026-10-06", "2026-10-14")
    assert whole_book.rows(own.program) != before
    press(signed_in, "story:undo", Event.objects.latest("pk").pk)
    assert whole_book.rows(own.program) == before
    assert len(rows) == 4
    assert differences(own.program) == []


@pytest.mark.parametrize("act", ["named", "moved", "look moved", "offer moved"])
def test_a_day_that_somebody_named_stays(own: Desk, school: School, act: str) -> None:
    partner = people.make_partner(own.program)
    named = date(2026, 10, 13)
    column = "due"
    if act == "named":
        row: Any = plan_follow_up(desk=own, partner=partner, base=DAY, named_day=named)
    elif act == "moved":
        row = move_follow_up(desk=own, follow_up=visited(own), due=named)
    elif act == "look moved":
        row = move_look(desk=own, ask=record_ask(desk=own, partner=partner, what="x", asked_on=DAY), due=named)
        column = "look_on"
    else:
        row = move_promise(desk=own, promise=second_collection(own), due=named)
    close_days(desk=own, school=school, stretches=[(named, named, "closed", "")])
    assert due(row, column) == named
    assert differences(own.program) == []


def second_collection(desk: Desk) -> Any:
    """Tubes every week from the Tuesday before: the first was skipped, the next is due on 13 October."""
    partner = people.make_partner(desk.program)
    offer = make_offer(desk=desk, partner=partner, what="tubes", first_on=DAY, every="week")
    skip(desk=desk, promise=offer.promises.get(), day=DAY)
    return offer.promises.get(settled_on=None)


def test_the_next_collection_of_a_standing_offer_moves(own: Desk, school: School) -> None:
    row = second_collection(own)
    assert row.due == date(2026, 10, 13)
    close_days(desk=own, school=school, stretches=[(date(2026, 10, 13), date(2026, 10, 15), "closed", "")])
    assert due(row) == date(2026, 10, 16)


def test_an_ask_without_a_follow_up_is_looked_after_on_a_school_day(own: Desk, school: School) -> None:
    ask = record_ask(desk=own, partner=people.make_partner(own.program), what="x", asked_on=DAY)
    close_days(desk=own, school=school, stretches=[(date(2026, 10, 12), date(2026, 10, 16), "closed", "")])
    assert due(ask, "look_on") == date(2026, 10, 19)
    assert differences(own.program) == []


def figures(program: Any) -> dict[str, Any]:
    names = [
        "name", "teacher", "title", "email", "phone", "intro", "paper", "language", "time_zone", "fiscal_year_starts",
        "follow_up_days", "last_follow_up_days", "thank_within", "thank_late", "rest_months_after_gift",
        "quiet_after_months", "colleague_days",
    ]  # fmt: skip
    program.refresh_from_db()
    return {"seen": program.version, **{name: getattr(program, name) for name in names}}


def test_the_programs_figures_move_what_was_counted_with_them(signed_in: Client, own: Desk) -> None:
    follow_up, thanks = visited(own), make_line(own, "gifts.thanks")
    ask = record_ask(desk=own, partner=people.make_partner(own.program), what="x", asked_on=DAY)
    changed = {"follow_up_days": 3, "thank_within": 7, "thank_late": 12}
    before = whole_book.rows(own.program)
    said = press(signed_in, "program:settings", **figures(own.program) | changed)
    assert said == "Settings saved. 3 open dates moved."
    assert [due(follow_up), due(ask, "look_on"), due(thanks)] == [
        date(2026, 10, 9), date(2026, 10, 9), date(2026, 10, 8),
    ]  # fmt: skip
    assert differences(own.program) == []
    press(signed_in, "story:undo", Event.objects.latest("pk").pk)
    assert whole_book.rows(own.program) == before
    assert differences(own.program) == []


def test_the_last_follow_up_has_its_own_figure(signed_in: Client, own: Desk) -> None:
    ask = record_ask(desk=own, partner=people.make_partner(own.program), what="x", asked_on=DAY)
    first = plan_follow_up(desk=own, partner=ask.partner, base=DAY, ask=ask)
    follow_up_done(desk=own, follow_up=first, day=DAY)
    last = ask.follow_ups.get(done_on=None)
    assert last.due == date(2026, 10, 20)
    press(signed_in, "program:settings", **figures(own.program) | {"last_follow_up_days": 21})
    assert due(last) == date(2026, 10, 27)


def school_form(school: School) -> dict[str, Any]:
    return {"name": school.name, "youngest_grade": 0, "cycle_length": 0, "seen": school.version, "governmental": "on"}


def test_other_weekdays_move_dates(signed_in: Client, own: Desk, school: School) -> None:
    follow_up = visited(own)
    typed = school_form(school) | {"weekdays": ["0", "2", "3"]}
    assert press(signed_in, "school:school-edit", school.pk, **typed) == "Saved. 1 open date moved."
    assert due(follow_up) == date(2026, 10, 14)
    assert differences(own.program) == []


def test_a_second_school_that_is_open_brings_dates_back(signed_in: Client, own: Desk, school: School) -> None:
    """A day counts as closed for follow-ups only when all the teacher's schools are closed."""
    follow_up = visited(own)
    close(signed_in, school, "2026-10-13")
    assert due(follow_up) == date(2026, 10, 14)
    said = press(signed_in, "school:school-new", name="North Ridge Elementary")
    assert said == "North Ridge Elementary is in the book. 1 open date moved."
    assert due(follow_up) == date(2026, 10, 13)


def test_a_second_school_of_the_district_takes_over_what_the_first_says(
    signed_in: Client, own: Desk, school: School
) -> None:
    own.program.schools.update(ein="12-3456789", street="4 Mill Lane")
    close(signed_in, school, "2026-10-13")
    press(signed_in, "school:school-new", name="North Ridge Elementary", district_of=school.pk)
    second = own.schools.get(name="North Ridge Elementary")
    assert (second.ein, second.street, second.school_days.get().first) == ("12-3456789", "", date(2026, 10, 13))
    assert differences(own.program) == []


def test_a_date_of_one_school_does_not_move_with_another(signed_in: Client, own: Desk, school: School) -> None:
    other = people.make_school(own.program, "North Ridge Elementary")
    rows = [
        plan_follow_up(desk=own, partner=people.make_partner(own.program), base=DAY, school=one)
        for one in (school, other)
    ]
    close(signed_in, school, "2026-10-13")
    assert [due(row) for row in rows] == [date(2026, 10, 14), date(2026, 10, 13)]


def test_what_is_settled_does_not_move(signed_in: Client, own: Desk, school: School) -> None:
    follow_up = visited(own)
    follow_up_done(desk=own, follow_up=follow_up, day=DAY)
    assert close(signed_in, school, "2026-10-13") == "The calendar is changed. No open date had to move."
    assert due(follow_up) == date(2026, 10, 13)


def test_federal_holidays_move_dates_too(signed_in: Client, own: Desk, school: School) -> None:
    follow_up = visited(own, date(2026, 10, 5))
    assert follow_up.due == date(2026, 10, 12)
    said = press(signed_in, "school:holidays", school.pk, days=["2026-10-12", "2026-11-26"])
    assert said == "The calendar is changed. 1 open date moved."
    assert due(follow_up) == date(2026, 10, 13)


def test_a_calendar_without_any_school_day_is_told_at_the_form(signed_in: Client, own: Desk, school: School) -> None:
    visited(own)
    for year in (2026, 2027):
        own.school_days.create(program=own.program, school=school, first=date(year, 11, 1), last=date(year + 1, 10, 31))
    typed = {"kind": "closed", "title": "x", "first": "2026-10-07", "last": "2026-10-31"}
    own.school_days.create(program=own.program, school=school, first=date(2028, 11, 1), last=date(2029, 10, 31))
    answer = signed_in.post(reverse("school:day-new", args=[school.pk]), typed)
    assert answer.status_code == 200
    assert "In this school calendar every day is closed" in answer.content.decode()
    assert school.school_days.count() == 3


def test_many_dates_move_in_few_queries(own: Desk, school: School, django_assert_max_num_queries: Any) -> None:
    partner = people.make_partner(own.program)
    for _n in range(30):
        plan_follow_up(desk=own, partner=partner, base=DAY)
    with django_assert_max_num_queries(25):
        _days, moved = close_days(
            desk=own, school=school, stretches=[(date(2026, 10, 13), date(2026, 10, 13), "closed", "")]
        )
    assert moved == 30
