"""The Year page: the ladder, what each person sees, and that every number opens as many rows as it says."""

from __future__ import annotations

import re
from html import unescape
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from django.test import Client
from django.urls import reverse

from partners.program.desk import Desk
from partners.program.models import Membership, Opened, Role
from partners.year.numbers import Number
from partners.year.page import year_page
from partners.year.rows import ROWS
from partners.year.span import Span
from tests import people
from tests.ladder import enter, flat, status
from tests.year import cast

pytestmark = pytest.mark.django_db
NAMES = ["year", "rows", "due", "evidence"]
# A number that opens no rows of the Year's own lists, or counts something else than rows.
ELSEWHERE = ("Students reached", "Helpers and their hours")


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.fixture
def full(own: Desk) -> Desk:
    made = cast.a_year(own)
    cast.promises(own, made["frames"])
    cast.trade(own, made["garden"])
    cast.helpers_came(own)
    return own


def page(client: Client, name: str = "year", **query: str) -> str:
    answer = client.get(reverse(f"year:{name}"), query)
    assert answer.status_code == 200
    return flat(answer)


@pytest.mark.parametrize("name", NAMES)
def test_signed_out_nobody_gets_in_and_another_method_is_refused(client: Client, june: Membership, name: str) -> None:
    assert status(client, reverse(f"year:{name}")) == 302
    assert status(enter(client, june), reverse(f"year:{name}"), "post") == 405


def test_a_guest_reads_figures_and_opens_only_rows_that_are_open_to_them(
    client: Client, grace: Membership, full: Desk
) -> None:
    assert {status(enter(client, grace), reverse(f"year:{name}")) for name in NAMES} == {403}
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.YEAR, Opened.TRADES])
    shown = page(client)
    assert "what=trades" in shown
    classes = page(client, "rows", what="classes")
    assert "24 students" in classes
    assert f'href="{reverse("school:class-edit", args=[full.classes.all()[0].pk])}"' not in classes
    assert not [word for word in ("what=gifts", "own pocket", "heard yes", "what=asks", "due-month") if word in shown]
    for what, kind in ROWS.items():
        wanted = 200 if kind.opened in (Opened.TRADES, Opened.YEAR) else 403
        assert status(client, reverse("year:rows"), what=what) == wanted, what


def numbers(shown: dict[str, Any]) -> list[tuple[Number, bool]]:
    """Every number of the page that leads to rows."""
    found = [number for fact in shown["facts"] if fact.name not in ELSEWHERE for number in fact.numbers]
    found += [number for _month, each in shown["months"] for number in each]
    found += [number for side in shown["sides"] for _code, _name, number in side.ends]
    found += [one.asks for one in shown["rates"]] + list(shown["givers"])
    return [number for number in found if number.url]


def test_every_number_opens_as_many_rows_as_it_says(full: Desk) -> None:
    for year in ("2026", "2025"):
        told = numbers(year_page(full, year))
        assert len(told) > 3
        for number in told:
            given = {name: values[0] for name, values in parse_qs(urlsplit(number.url).query).items()}
            rows = ROWS[given.pop("what")].found(full, Span(int(given.pop("year")), 7), given)
            said = re.search(r"\d+", number.words.partition(": ")[2] or number.words)
            assert said is not None
            assert rows.count() == int(said[0]) or "of" in number.words, number


def test_the_page_tells_the_year(signed_in: Client, full: Desk, june: Membership) -> None:
    from time_machine import travel

    with travel(people.TUESDAY, tick=False):
        shown = unescape(page(signed_in))
    for words in (
        "Year 2026–27", "From July 1, 2026 until today", ">42</a>", "in 2 classes", "goods: 2", "money: 1",
        "1 of 8", "Half of them were said within 4 days.", "2 helpers", "4 h", "gave again so far: 50%", "60%",
        "They promised: ", "October 2026",
    ):  # fmt: skip
        assert words in shown, words


def test_an_empty_book_says_kindly_what_will_stand_there(signed_in: Client) -> None:
    shown = page(signed_in)
    assert "Here will stand what the program did" in shown
    assert "Log a visit" in shown
    assert "<svg viewBox=" not in shown.partition("<main")[2].partition("</main")[0]


def test_nobody_last_year_is_said_in_words(own: Desk) -> None:
    cast.gift(own, people.make_partner(own.program), cast.SEPTEMBER)
    assert "it cannot be said who gave again" in year_page(own, "")["again"]


def test_rows_of_a_kind_that_is_not_are_not_there_and_nonsense_narrows_nothing(signed_in: Client, full: Desk) -> None:
    assert status(signed_in, reverse("year:rows"), what="nothing") == 404
    assert status(signed_in, reverse("year:due"), day="2026-13-41") == 404
    assert status(signed_in, reverse("year:due"), day="tomorrow") == 200
    for what in ROWS:
        assert "Year" in page(signed_in, "rows", what=what, year="x", month="1", form="?", side="both", kind="moon")


def test_the_day_says_what_is_due_on_it(signed_in: Client, full: Desk) -> None:
    assert "a window display" in page(signed_in, "due", day="2026-11-03")
    assert "Nothing is due on this day." in page(signed_in, "due", day="2026-11-08")


def test_out_of_pocket_is_told_to_who_writes_and_to_no_guest(
    client: Client, june: Membership, grace: Membership, full: Desk
) -> None:
    full.program.purchases.create(
        vendor="Ames", what="ribbon", slip_on=cast.SEPTEMBER, bought_on=cast.SEPTEMBER, total_cents=1234, payer="own"
    )
    assert year_page(full, "")["record"].pocket_cents == 1234
    Membership.objects.filter(pk=grace.pk).update(opened=list(Opened.values))
    guest = people.make_desk(full.program, user=grace.user, role=Role.GUEST, opened=frozenset(Opened.values))
    assert year_page(guest, "")["record"].pocket_cents == 0
    assert status(enter(client, grace), reverse("year:rows"), what="pocket") == 403


def test_it_takes_the_same_number_of_queries_with_more_rows(
    full: Desk, django_assert_num_queries: Any, django_assert_max_num_queries: Any
) -> None:
    with django_assert_max_num_queries(120) as counted:
        year_page(full, "")
    cast.promises(full, people.make_partner(full.program, "Copper Kettle Diner", business_kind="restaurant"))
    cast.helpers_came(full)
    for _time in range(6):
        cast.gift(full, people.make_partner(full.program, f"Shop {_time}"), cast.OCTOBER)
    with django_assert_num_queries(len(counted)):
        year_page(full, "")
