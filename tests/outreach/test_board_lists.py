"""The gifts of a year for the board and all places asked: what stands on them, what never does, over many pages."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from outreach.documents import board_gifts, places_asked
from outreach.documents.board_gifts import Came, InSum, Unnamed
from outreach.documents.places_asked import Asked
from outreach.gathering.board import gather_asked, gather_gifts, years
from partners.directory.models import Partner
from partners.funding.grant_models import Grant
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.school.models import School
from partners.visits.models import Ask
from tests import people
from tests.ladder import enter, flat, status
from tests.outreach.sheets import LONG_NAME, SCHOOL, Printed

DAY = date(2026, 11, 26)
YEAR: dict[str, Any] = {
    "paper": "letter", "letterhead": SCHOOL, "day": DAY, "first": date(2026, 7, 1), "last": date(2027, 6, 30),
    "year": "2026–27", "teacher": "June Castellanos", "school": "Millrace Elementary",
}  # fmt: skip
POTS = Came(date(2026, 10, 6), "Riverbend Garden Center", "goods", "84 pots", accepted_by="the board")


def words(pdf: bytes) -> str:
    return " ".join(" ".join(page for page in Printed(pdf).pages).split())


def listed(*gifts: Came, **values: Any) -> board_gifts.Facts:
    return board_gifts.Facts(**{**YEAR, "receiver": "Alder Falls School District", "gifts": gifts, **values})


def asks(*many: Asked, **values: Any) -> places_asked.Facts:
    return places_asked.Facts(**{**YEAR, "asks": many, **values})


ASKED = Asked("Tamarack Hardware", date(2026, 10, 6), "Omar Whitfield", "20 boards", "no", date(2026, 10, 20))


def test_a_gift_stands_with_its_day_giver_thing_and_who_accepts_it() -> None:
    money = replace(POTS, form="money", what="", cents=12550, giver="", accepted_on=date(2026, 10, 19))
    text = words(
        board_gifts.draw(listed(POTS, replace(POTS, form="trade"), money, families=Unnamed((InSum("tubes", 240, 12),))))
    )
    for said in (
        "1 gift of goods, 1 gift of money ($125.50 in all), 1 delivery in a trade and 12 gifts from families",
        "waiting: the board", "In a trade, not a gift: 84 pots", "a giver who asks not to be named", "$125.50 in money",
        "the board, Oct 19, 2026", "belongs to Alder Falls School District", "tubes 240 12",
    ):  # fmt: skip
        assert said in text


def test_a_loan_says_when_it_goes_back_and_a_star_what_came_to_no_one_school() -> None:
    loan = replace(POTS, form="loan", what="an easel", return_on=date(2027, 2, 1), shared=True, in_school_only=True)
    text = words(board_gifts.draw(listed(loan)))
    assert "On loan: an easel; to be returned by Feb 1, 2027" in text
    assert "Oct 6, 2026*" in text
    assert "* came to the program and to no one school" in text
    assert "Riverbend Garden Center (not to be named in public)" in text


def test_a_description_with_a_value_is_told_before_printing() -> None:
    codes = [gap.code for gap in board_gifts.gaps(listed(replace(POTS, what="84 pots worth $200")))]
    assert codes == ["value"]
    assert board_gifts.gaps(listed(POTS)) == ()


@pytest.mark.parametrize(
    ("module", "facts", "heading"),
    [
        (
            board_gifts,
            listed(*(replace(POTS, giver=LONG_NAME, day=POTS.day + timedelta(n)) for n in range(40))),
            "Came on",
        ),
        (places_asked, asks(*(replace(ASKED, place=f"{LONG_NAME} {n}") for n in range(120))), "Asked on"),
    ],
)
def test_many_rows_go_on_over_pages_under_their_heading(module: Any, facts: Any, heading: str) -> None:
    printed = Printed(module.draw(facts))
    texts = [" ".join(page.split()) for page in printed.pages]
    assert len(texts) > 3
    assert all(heading in text for text in texts)
    assert f"page {len(texts)} of {len(texts)}" in texts[-1]
    assert sum(text.count("Garden Center, Nursery") for text in texts) == len(
        getattr(facts, "gifts", None) or facts.asks
    )
    about = printed.reader.metadata
    assert about is not None
    assert (about.title or "").endswith("fiscal year 2026–27")
    assert str(printed.reader.root_object["/Lang"]) == "en"


@pytest.mark.parametrize(
    ("module", "facts", "said"),
    [
        (board_gifts, listed(), "No gift is recorded in this time."),
        (places_asked, asks(), "Nobody was asked in this time."),
    ],
)
def test_a_year_without_anything_says_so_and_prints_no_empty_table(module: Any, facts: Any, said: str) -> None:
    text = words(module.draw(facts))
    assert said in text
    assert not any(odd in text for odd in ("Came on", "Answer", "Accepted", "None", "N/A", " 0 "))


def test_everybody_asked_is_named_also_who_said_no_or_keeps_out_of_public() -> None:
    grant = replace(
        ASKED, place="Lakeside Arts Guild", what="glaze", cents=50000, grant=True, answer="waiting", private=True
    )
    text = words(places_asked.draw(asks(ASKED, grant, replace(ASKED, answer="yes"))))
    assert "2 places were asked 3 times. Yes: 1; no: 1; no answer yet: 1." in text
    assert "Omar Whitfield 20 boards no, Oct 20, 2026" in text
    assert "Lakeside Arts Guild (asks not to be named in public)" in text
    assert "Grant of $500.00: glaze" in text


@pytest.fixture
def school(desk: Desk) -> School:
    people.make_school(desk.program, "North Ridge Elementary")
    return people.make_school(desk.program, legal_name="Alder Falls School District")


def came(desk: Desk, what: str, **values: Any) -> Gift:
    given = {
        "source": "partner",
        "form": "goods",
        "day": desk.day,
        "lines": [Line(description=what, quantity=3)],
        **values,
    }
    return receive(desk=desk, **given)


@pytest.mark.django_db
def test_the_record_gives_the_gifts_of_that_year_and_school(desk: Desk, school: School) -> None:
    quiet = people.make_partner(desk.program, "Quiet Giver", may_name="no")
    came(desk, "pots", partner=quiet, school=school, given_value_cents=99900)
    came(desk, "twine", partner=people.make_partner(desk.program))
    came(desk, "boards", partner=quiet, school=School.objects.get(name="North Ridge Elementary"))
    came(replace(desk, day=date(2026, 6, 30)), "chalk", partner=quiet, school=school)
    came(desk, "tubes", source="families", school=school)
    came(desk, "", source="families", school=school, form="money", amount_cents=4500, money_kind="cash", lines=[])
    facts = gather_gifts(desk, school, {})
    assert [(one.giver, one.what, one.shared) for one in facts.gifts] == [
        ("", "3 pots", False), ("Riverbend Garden Center", "3 twine", True),
    ]  # fmt: skip
    assert facts.families == Unnamed((InSum("tubes", 3, 1),), 1, 4500)
    assert "999" not in words(board_gifts.draw(facts))
    assert [one.what for one in gather_gifts(desk, school, {"year": 2025}).gifts] == ["3 chalk"]
    assert years(desk) == [(2026, "2026–27"), (2025, "2025–26")]


@pytest.mark.django_db
def test_a_grant_that_was_awarded_stands_among_the_gifts_as_money(desk: Desk, school: School) -> None:
    base: dict[str, Any] = {"program": desk.program, "school": school, "title": "clay tiles"}
    won = {**base, "state": "awarded", "awarded_cents": 40000, "spent_cents": 12345}
    fund = people.make_partner(desk.program, "Harbor Light Fund")
    waits = {"accept_by_whom": "the school board", "accept_due": desk.day}
    Grant.objects.create(**won, **waits, partner=fund, answered_on=desk.day)
    Grant.objects.create(**won, partner=fund, answered_on=date(2026, 6, 30))
    Grant.objects.create(**base, partner=fund, state="refused", asked_cents=99900, answered_on=desk.day)
    facts = gather_gifts(desk, school, {})
    assert [(one.form, one.giver, one.cents, one.purpose) for one in facts.gifts] == [
        ("grant", "Harbor Light Fund", 40000, "clay tiles")
    ]
    text = words(board_gifts.draw(facts))
    assert "1 grant ($400.00 in all)" in text
    assert "Grant: $400.00 clay tiles waiting: the school board" in text
    assert "1 waits to be accepted." in text
    guest = people.make_desk(desk.program, role="guest", opened=frozenset({"gifts"}))
    assert gather_gifts(guest, school, {}).nothing


@pytest.mark.django_db
def test_the_record_gives_all_asks_and_grants_of_that_year(desk: Desk, school: School) -> None:
    partner: Partner = people.make_partner(desk.program)
    base: dict[str, Any] = {"program": desk.program, "partner": partner, "school": school}
    Ask.objects.create(
        **base, what="pots", quantity=60, asked_on=desk.day, answer="no", answered_on=desk.day, asked_by="Omar"
    )
    Ask.objects.create(**base, what="clay", asked_on=date(2026, 6, 30))
    Grant.objects.create(
        **base, title="glaze", state="refused", asked_on=desk.day, asked_cents=50000, answered_on=desk.day
    )
    Grant.objects.create(**base, title="being written")
    facts = gather_asked(desk, None, {})
    assert [(one.what, one.by, one.answer, one.cents, one.grant) for one in facts.asks] == [
        ("60 pots", "Omar", "no", None, False), ("glaze", "June Castellanos", "no", 50000, True),
    ]  # fmt: skip


@pytest.mark.django_db
def test_school_and_year_are_chosen_on_the_page(signed_in: Client, desk: Desk, school: School) -> None:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        came(replace(desk, day=date(2026, 6, 30)), "chalk", partner=people.make_partner(desk.program), school=school)
        page = reverse("outreach:year-lists")
        assert "No gift is recorded in this time." in flat(signed_in.get(page))
        answer = signed_in.get(page, {"school": school.pk, "year": "2025"})
        assert "In all: 1 gift of goods." in flat(answer)
        leads = re.findall(r'href="([^"]*board-gifts[^"]*)"', flat(answer))
        assert [lead.split("/")[-2] for lead in leads] == ["pdf", "page"]
        paper = signed_in.get(leads[0])
        assert "3 chalk" in words(paper.content)
        assert "Gifts received, fiscal year 2025–26" in words(paper.content)
        nonsense = signed_in.get(page, {"school": "999999", "year": "x"})
        assert nonsense.status_code == 200
        assert (
            signed_in.get(reverse("outreach:document", args=["places-asked", 0]), {"year": "٢٠٢٥"}).status_code == 200
        )


@pytest.mark.django_db
def test_guests_see_the_lists_that_are_open_to_them(
    client: Client, grace: Membership, otto: Membership, school: School
) -> None:
    page, gifts = reverse("outreach:year-lists"), reverse("outreach:document", args=["board-gifts", school.pk])
    assert status(client, page) == 302
    assert [status(enter(client, grace), one) for one in (page, gifts)] == [403, 403]
    grace.opened = ["letters", "partners"]
    grace.save()
    shown = enter(client, grace).get(page)
    assert [one.title for one in shown.context["lists"]] == ["All places asked in a year"]
    assert status(client, gifts) == 403
    assert status(enter(client, otto), gifts) == 404
    assert status(client, page, "post") == 405
