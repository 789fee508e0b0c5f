"""Partners gone quiet."""

from __future__ import annotations

from datetime import date

import pytest

from partners.directory.due import SOURCES
from partners.directory.models import Partner
from partners.ground.due import Hand
from tests.people import TUESDAY, make_partner, make_program
from tests.query_plan import plan_of
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db

(QUIET,) = SOURCES
LONG_AGO = date(2025, 10, 6)


def due(desk, **values):
    return QUIET.page(desk, until=TUESDAY, limit=10, **values)


@pytest.mark.parametrize(
    ("heard", "values", "quiet"),
    [
        (LONG_AGO, {}, True),
        (date(2025, 10, 7), {}, False),
        (None, {}, False),
        (LONG_AGO, {"never_ask": True}, False),
        (LONG_AGO, {"rest_until": date(2026, 10, 7)}, False),
        (LONG_AGO, {"rest_until": TUESDAY}, True),
    ],
)
def test_who_is_quiet_for_twelve_months_and_not_resting_comes_up(desk, heard, values, quiet):
    make_partner(desk.program, last_heard_on=heard, **values)
    assert bool(due(desk)) is quiet


@pytest.mark.parametrize("months", [6, 32767])
def test_how_long_is_a_figure_of_the_program(desk, months):
    desk.program.quiet_after_months = months
    make_partner(desk.program, last_heard_on=date(2026, 4, 6))
    assert bool(due(desk)) is (months == 6)


def test_the_line_says_who_and_since_when(desk):
    partner = make_partner(desk.program, last_heard_on=LONG_AGO)
    (line,) = due(desk)
    assert (line.who, line.hand, line.partner_id, line.due) == (partner.name, Hand.QUIET, partner.pk, LONG_AGO)
    assert str(line.why) == "last in touch on October 6, 2025"
    assert line.acts[0].opens
    assert line.acts[0].url.endswith(f"?partner={partner.pk}")


@pytest.mark.parametrize(
    ("code", "extra", "column", "value"),
    [
        ("rest", {}, "rest_until", date(2027, 10, 1)),
        ("move", {"due": date(2026, 11, 2)}, "rest_until", date(2026, 11, 2)),
        ("never", {}, "never_ask", True),
    ],
)
def test_each_act_settles_the_line_and_is_undone(desk, code, extra, column, value):
    partner = make_partner(desk.program, last_heard_on=LONG_AGO)
    before = rows(desk.program)
    QUIET.settle[code](desk=desk, row=partner, day=TUESDAY, **extra)
    assert getattr(Partner.objects.get(), column) == value
    assert not due(desk)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_pages_follow_each_other_without_a_gap(desk):
    for number in range(5):
        make_partner(desk.program, f"Shop {number}", last_heard_on=date(2024, 1, 1 + number // 2))
    first = QUIET.page(desk, until=TUESDAY, limit=3)
    rest = QUIET.page(desk, until=TUESDAY, limit=3, after=(first[-1].due, first[-1].pk))
    assert [line.who for line in [*first, *rest]] == [f"Shop {number}" for number in range(5)]


def test_another_programs_partner_is_never_quiet_here(desk):
    make_partner(make_program("Stone Quay Art"), last_heard_on=LONG_AGO)
    assert not due(desk)


def test_the_query_walks_an_index_and_sorts_nothing(desk):
    plan = plan_of(lambda: due(desk, after=(date(2024, 1, 1), 5)))
    assert "USING INDEX partner_by_last_heard" in plan
    assert "TEMP B-TREE" not in plan
