"""What is counted of a year, against a small book counted by hand."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from partners.program.desk import Desk
from partners.program.models import Membership
from partners.promises.actions import deliver
from partners.year.counted import Thing
from partners.year.record import year_record
from partners.year.span import Span, chosen, spans
from tests import people
from tests.year import cast

pytestmark = pytest.mark.django_db
THIS, LAST = Span(2026, 7), Span(2025, 7)


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


def test_gifts_are_counted_by_kind_and_those_of_trades_and_loans_stand_apart(own: Desk) -> None:
    made = cast.a_year(own)
    cast.gift(own, made["garden"], cast.OCTOBER, trade=True)
    cast.gift(own, made["garden"], cast.OCTOBER, "loan", return_on=date(2026, 11, 2))
    told = year_record(own, THIS).gifts
    assert (told.forms, told.families, told.in_trades) == ({"goods": 2, "money": 1, "loan": 1}, 1, 1)
    assert year_record(own, LAST).gifts.forms == {"goods": 2}


def test_who_gave_again_counts_gifts_alone(own: Desk) -> None:
    made = cast.a_year(own)
    cast.gift(own, made["bakery"], cast.OCTOBER, trade=True)
    told = year_record(own, THIS).renewal
    assert (told.before, told.again, told.rate) == (2, 1, Fraction(1, 2))
    assert year_record(own, LAST).renewal.rate is None


def test_thanks_are_counted_by_the_day_they_arose(own: Desk) -> None:
    cast.a_year(own)
    told = year_record(own, THIS).thanked
    # For two gifts of partners, three promises and three refusals; the one that was said took four days.
    assert (told.owed, told.said, told.days) == (8, 1, Fraction(4))
    assert year_record(own, LAST).thanked.said == 0


def test_promises_of_both_sides_by_how_they_ended(own: Desk) -> None:
    cast.promises(own, people.make_partner(own.program))
    told = year_record(own, THIS)
    theirs, ours = told.promised["them"], told.promised["us"]
    assert (theirs.kept, theirs.to_come, theirs.past, theirs.never) == (1, 0, 1, 1)
    assert (ours.all, ours.to_come) == (1, 1)
    assert told.things == [Thing("card tubes", "", 50, 0), Thing("paper ends", "", 30, 30)]


def test_trades_helpers_and_months(own: Desk) -> None:
    made = cast.a_year(own)
    trade = cast.trade(own, made["garden"])
    cast.helpers_came(own)
    assert year_record(own, THIS).trades.open == 1
    for part in trade.promises.all():
        deliver(desk=own, promise=part, day=cast.OCTOBER, quantity=part.quantity)
    told = year_record(own, THIS)
    assert (told.trades.kept, told.trades.all) == (1, 1)
    assert (told.hours.helpers, told.hours.minutes, told.students) == (2, 240, 42)
    # July is the first month: September is the third, October the fourth.
    assert told.months["gifts"][2:4] == [2, 1]
    assert told.months["thanks"][2] == 1
    assert told.months["asks"] == [0, 0, own.asks.count(), *[0] * 9]


def test_only_own_asks_make_a_rate(own: Desk) -> None:
    made = cast.a_year(own)
    omar = people.make_desk(own.program, user=people.make_user("Omar"))
    for _time in range(4):
        cast.ask(omar, made["garden"], "no")
    told = {one.kind: (one.yes, one.asks, one.rate) for one in year_record(own, THIS).rates}
    assert told == {"garden": (3, 5, Fraction(3, 5)), "coffee_shop": (0, 1, None)}


def test_a_teacher_of_one_school_counts_that_school(own: Desk) -> None:
    made = cast.a_year(own)
    other = people.make_school(own.program, "North Ridge")
    cast.gift(own, made["garden"], cast.OCTOBER, school=other)
    narrowed = people.make_desk(own.program, user=own.user, school_ids=frozenset({made["school"].pk}))
    assert year_record(own, THIS).gifts.all - year_record(narrowed, THIS).gifts.all == 1


def test_years_go_back_to_the_first_thing_written_down(own: Desk) -> None:
    assert [one.year for one in spans(own)] == [2026]
    cast.a_year(own)
    known = spans(own)
    assert [one.name for one in known] == ["2026–27", "2025–26"]
    assert [chosen(own, known, typed) for typed in ("2025", "1999", "x")] == [LAST, THIS, THIS]
    # In a year of which nothing is written down yet, the one before is reported on.
    later = [Span(2027, known[0].begins), *known]
    assert [chosen(own, later, typed) for typed in ("", "2027")] == [THIS, later[0]]
