"""Shows on their pages and in the book."""

from __future__ import annotations

from datetime import date, time

import pytest
import time_machine
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.helpers import show_actions as actions
from partners.helpers.session_models import Session
from partners.helpers.show_actions import Took
from partners.helpers.show_models import Show
from partners.helpers.show_page import averages, class_panels
from partners.helpers.show_plan import JobOfShow, starting_works
from partners.helpers.tags import spent, tenths
from partners.school.models import SchoolClass
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import make_desk, make_school
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db

LIST, NEW = reverse("helpers:show-list"), reverse("helpers:show-new")
OPENING = date(2026, 11, 20)
TYPED = {"title": "Winter show", "opens_on": "2026-11-20", "works": "60", "hanging_minutes": "2.5"}


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def show(desk):
    return actions.add_show(desk=desk, title="Winter show", opens_on=OPENING, works=60, jobs=starting_works(60))


def to(name: str, show: Show) -> str:
    return reverse(f"helpers:{name}", args=[show.pk])


def make_class(school, label, students):
    return SchoolClass.objects.create(program=school.program, school=school, label=label, grade=3, students=students)


def test_a_show_is_planned_with_what_was_typed(signed_in):
    answer = signed_in.post(NEW, {**TYPED, "labelling_minutes": "1", "labelling_works": "40"})
    show = Show.objects.get()
    assert answer["Location"] == show.get_absolute_url()
    kept = [(row.job, row.tenths_per_work, row.works, row.measured) for row in show.jobs.all()]
    assert kept == [("labelling", 10, 40, False), ("hanging", 25, 60, False)]
    assert (show.works_per_panel, show.first_timers_percent, show.helpers_at_once, show.session_minutes) == (
        12, 20, 3, 60,
    )  # fmt: skip


def test_the_form_begins_with_the_trades_figures_and_says_so(signed_in):
    form = signed_in.get(NEW).context["form"]
    assert [str(minutes.value()) for minutes, _works in form.job_rows()] == ["1", "3", "1", "2.5", "1", "0.5"]
    assert "2.5 is an estimate to start from." in form["hanging_minutes"].help_text


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"title": ""}, "title"),
        ({"opens_on": "soon"}, "opens_on"),
        ({"works": "0"}, "works"),
        ({"works": "many"}, "works"),
        ({"hanging_minutes": "0"}, "hanging_minutes"),
        ({"hanging_minutes": "2.55"}, "hanging_minutes"),
        ({"hanging_minutes": ""}, "cutting_minutes"),
        ({"session_minutes": "5"}, "session_minutes"),
        ({"helpers_at_once": "0"}, "helpers_at_once"),
        ({"closes_on": "2026-11-01"}, "__all__"),
    ],
)
def test_an_error_stands_at_its_field_and_nothing_is_lost(signed_in, sent, field):
    answer = signed_in.post(NEW, {**TYPED, "place": "the <hall>", **sent})
    assert list(answer.context["form"].errors) == [field]
    assert 'value="the &lt;hall&gt;"' in flat(answer)
    assert not Show.objects.exists()


def test_the_page_counts_back_to_the_day_of_collecting(signed_in, show):
    """By hand (common practice): 72, 216, 72 and 180 minutes are 1, 2, 1 and 1 sessions of three helpers for an hour;
    back from Friday the 20th: hang 19, label 18, mount 16 and 17, trim 13, collect 12.
    """
    context = signed_in.get(to("show-detail", show)).context
    days = {line.task.job: (line.task.first.day, line.task.last.day) for line in context["before"]}
    assert days == {"cutting": (13, 13), "mounting": (16, 17), "labelling": (18, 18), "hanging": (19, 19)}
    assert context["plan"].collect_by == date(2026, 11, 12)
    assert "60 works: 10 h 48 min of hands in all." in flat(signed_in.get(to("show-detail", show)))


def test_how_many_people_for_the_hours_there_are(signed_in, show):
    lines = signed_in.get(to("show-detail", show), {"hours": "2"}).context["lines"]
    assert {line.task.job: line.people for line in lines} == {
        "cutting": 1, "mounting": 2, "labelling": 1, "hanging": 2, "taking_down": 1, "sorting": 1,
    }  # fmt: skip


@pytest.mark.parametrize("hours", ["0", "x", "-3", "999", "²"])
def test_hours_that_are_none_are_not_counted(signed_in, show, hours):
    assert signed_in.get(to("show-detail", show), {"hours": hours}).context["hours"] is None


def test_a_show_that_is_too_near_says_how_many_helpers_would_do(signed_in, desk):
    show = actions.add_show(
        desk=desk, title="Soon", opens_on=date(2026, 10, 14), works=120, jobs=starting_works(120), helpers_at_once=2
    )
    page = flat(signed_in.get(to("show-detail", show)))
    assert "should have been collected by" in page
    assert "helpers in a session there is still time." in page


def test_sessions_in_the_book_are_taken_off_what_is_wanted(signed_in, desk, show):
    Session.objects.create(
        program=desk.program, show=show, job="mounting", day=date(2026, 11, 16), starts=time(13), ends=time(14),
        place="Art room",
    )  # fmt: skip
    lines = {line.task.job: line for line in signed_in.get(to("show-detail", show)).context["lines"]}
    assert (lines["mounting"].planned, lines["mounting"].wanted) == (1, 1)
    assert (lines["hanging"].planned, lines["hanging"].wanted) == (0, 1)


def test_panels_are_told_class_by_class(desk):
    """By hand (common practice): 60 works over 20, 20 and 10 children are 24, 24 and 12; twelve on a panel: 2, 2, 1."""
    school = make_school(desk.program)
    for label, students in (("3-A", 20), ("3-B", 20), ("K", 10)):
        make_class(school, label, students)
    show = actions.add_show(desk=desk, title="X", opens_on=OPENING, works=60, school=school)
    found = [(one.label, one.works, one.panels) for one in class_panels(desk, show)]
    assert sorted(found) == [("3-A", 24, 2), ("3-B", 24, 2), ("K", 12, 1)]


def test_what_it_took_is_written_down_and_used_next_time(signed_in, desk, show):
    sent = {"hanging_works": "60", "hanging_minutes": "210", "mounting_works": "50", "mounting_minutes": ""}
    assert signed_in.post(to("show-minutes", show), sent).status_code == 302
    told = {row.job: (row.real_works, row.real_minutes) for row in show.jobs.filter(real_minutes__isnull=False)}
    assert told == {"hanging": (60, 210)}
    form = signed_in.get(NEW).context["form"]
    assert str(form["hanging_minutes"].value()) == "3.5"
    assert "3.5 is the average of what you wrote down." in form["hanging_minutes"].help_text
    signed_in.post(NEW, {**TYPED, "title": "Spring show", "hanging_minutes": "3.5"})
    assert Show.objects.get(title="Spring show").jobs.get().measured


def test_averages_are_over_all_works_of_all_other_shows(desk, show):
    actions.record_minutes(desk=desk, show=show, took={"hanging": Took(works=100, minutes=300)})
    other = actions.add_show(desk=desk, title="Y", opens_on=OPENING, works=20, jobs=[JobOfShow("hanging", 20, 25)])
    actions.record_minutes(desk=desk, show=other, took={"hanging": Took(works=20, minutes=90)})
    # By hand (common practice): 390 minutes for 120 works are 3.25 each; to the tenth 3.3.
    assert averages(desk) == {"hanging": 33}
    assert averages(desk, apart=show) == {"hanging": 45}


def test_minutes_need_their_works(signed_in, show):
    answer = signed_in.post(to("show-minutes", show), {"hanging_works": "", "hanging_minutes": "210"})
    assert list(answer.context["form"].errors) == ["hanging_works"]


def test_a_job_with_minutes_written_down_stays_in_the_plan(signed_in, desk, show):
    actions.record_minutes(desk=desk, show=show, took={"hanging": Took(works=60, minutes=210)})
    sent = {**TYPED, "hanging_minutes": "", "cutting_minutes": "1", "seen": "1"}
    answer = signed_in.post(to("show-edit", show), sent)
    assert list(answer.context["form"].errors) == ["hanging_minutes"]


@pytest.mark.parametrize(
    "change",
    [
        lambda desk, show: actions.add_show(
            desk=desk, title="Z", opens_on=OPENING, works=9, jobs=[JobOfShow("sorting", 9, 5)]
        ),
        lambda desk, show: actions.edit_show(desk=desk, show=show, works=80, jobs=[JobOfShow("hanging", 80, 30)]),
        lambda desk, show: actions.remove_show(desk=desk, show=show),
        lambda desk, show: actions.record_minutes(desk=desk, show=show, took={"hanging": Took(works=9, minutes=30)}),
    ],
)
def test_each_verb_is_one_change_and_its_undo_leaves_no_trace(desk, show, change):
    before, events = rows(desk.program), Event.objects.count()
    change(desk, show)
    assert Event.objects.count() == events + 1
    assert differences(desk.program) == []
    undo_newest(desk)
    assert rows(desk.program) == before


def test_a_show_with_sessions_stays(signed_in, desk, show):
    Session.objects.create(
        program=desk.program, show=show, day=OPENING, starts=time(13), ends=time(14), place="Art room"
    )
    answer = signed_in.post(to("show-remove", show), {"once": "a"})
    assert answer["Location"] == to("show-edit", show)
    assert Show.objects.exists()


def test_a_calendar_without_school_says_why_there_is_no_plan(signed_in, desk):
    school = make_school(desk.program, weekdays=[])
    show = actions.add_show(
        desk=desk, title="X", opens_on=OPENING, works=6, school=school, jobs=[JobOfShow("hanging", 6, 25)]
    )
    assert "No weekday has school" in flat(signed_in.get(to("show-detail", show)))


@pytest.mark.parametrize("name", ["show-edit", "show-remove", "show-minutes"])
def test_the_ladder(client, grace, june, otto, name):
    show = actions.add_show(desk=make_desk(otto.program), title="X", opens_on=OPENING, works=6)
    address, unknown = to(name, show), reverse(f"helpers:{name}", args=[UNKNOWN])
    assert status(client, address, "post") == 302
    assert status(enter(client, grace), address, "post") == 403
    assert status(enter(client, june), address, "post") == 404
    assert status(client, unknown, "post") == 404
    assert status(client, address, "put") == 405
    assert status(client, to("show-detail", show)) == 404


def test_a_guest_reads_a_show_and_changes_nothing(client, grace, show):
    assert status(enter(client, grace), LIST) == 403
    grace.opened = ["helpers"]
    grace.save()
    page = flat(client.get(to("show-detail", show)))
    assert "Winter show" in flat(client.get(LIST))
    assert to("show-edit", show) not in page


def test_pages_take_few_questions(signed_in, desk, show, django_assert_max_num_queries):
    school = make_school(desk.program)
    for number in range(30):
        make_class(school, f"{number}", 20)
        actions.add_show(desk=desk, title=f"Show {number}", opens_on=OPENING, works=60, jobs=starting_works(60))
    with django_assert_max_num_queries(12):
        signed_in.get(LIST)
    with django_assert_max_num_queries(16):
        signed_in.get(to("show-detail", show))


@pytest.mark.parametrize(("minutes", "said"), [(45, "45 min"), (120, "2 h"), (288, "4 h 48 min"), (None, "")])
def test_time_that_is_spent(minutes, said):
    assert spent(minutes) == said


def test_tenths_are_written_shortly():
    assert [tenths(25), tenths(30)] == ["2.5", "3"]


def test_so_many_works_that_no_wall_holds_them_are_asked_about(signed_in):
    assert "So many works in one show?" in flat(signed_in.post(NEW, {**TYPED, "works": "2147483647"}))
    assert not Show.objects.exists()
