"""The year-end note: what came, what it became, no ask, no value; one page, both languages, whatever was given."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from outreach.documents import year_end_note
from outreach.documents.year_end_note import Facts
from outreach.mending import way
from outreach.preparing import prepare
from outreach.wording.counts import Item
from outreach.wording.year_end import Given, paragraphs
from partners.directory.actions import add_contact
from partners.funding.grant_actions import ask_for, award, write_grant
from partners.gifts.actions import Line, receive
from partners.gifts.letter_phrases import asks_inside, value_in_text
from partners.program.desk import Desk
from partners.school.actions import add_class
from partners.school.project_actions import add_project, edit_project
from tests.outreach.sheets import ADDRESS, LONG_NAME, LONG_PERSON, LONG_SCHOOL, SCHOOL, Printed
from tests.people import make_partner, make_school

GIVEN = Given(
    language="en", year="2026–27", partner="Riverbend Garden Center", contact="Dana Whitlock",
    items=(Item("terracotta pots", 120), Item("potting soil", 6, "bags")), money=True,
    became=("Each child painted a pot and grows basil in it",), reached=104, taught=604,
)  # fmt: skip
NOTE = Facts("letter", SCHOOL, date(2027, 5, 28), GIVEN, "June Castellanos", "Art teacher", ADDRESS)
FORTY = tuple(Item(f"spools of yarn in colour {number}", number + 1) for number in range(1, 41))
WORST = replace(
    NOTE, letterhead=LONG_SCHOOL, teacher=LONG_PERSON,
    address=replace(ADDRESS, person=LONG_PERSON, business=LONG_NAME),
    given=replace(
        GIVEN, partner=LONG_NAME, contact=LONG_PERSON, items=FORTY, lent=FORTY[:2], grants=("Clay for every class",),
        became=("Each child painted a pot, sowed basil in it, drew how it grew and took it home " * 4,) * 5,
    ),
)  # fmt: skip


def test_it_says_what_came_and_what_it_became_and_no_amount() -> None:
    text = Printed(year_end_note.draw(NOTE)).text
    for said in (
        "you gave our students 120 terracotta pots, 6 bags of potting soil and a gift of money.",
        "In the school year 2026–27",
        "Here is what came of it: Each child painted a pot and grows basil in it. It reached 104 students.",
        "In all, 604 students made art with us this year.", "This note wants nothing from you.",
    ):  # fmt: skip
        assert said in text
    assert "$" not in text
    assert year_end_note.gaps(NOTE) == ()


def test_spanish_speaks_to_one_person_or_to_a_business() -> None:
    spanish = replace(GIVEN, language="es", items=(Item("macetas", 120),), lent=(Item("escalera", 1),))
    business, person = (" ".join(paragraphs(one)) for one in (spanish, replace(spanish, partner="")))
    assert "ustedes dieron a nuestros estudiantes 120 macetas y una donación en dinero." in business
    assert "También nos prestaron 1 escalera." in business
    assert "quiero contarle lo que hizo posible" in person


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("given", [GIVEN, WORST.given, Given("en"), replace(GIVEN, items=(), money=False, lent=FORTY)])
def test_our_own_words_never_ask_and_never_value(given: Given, language: str) -> None:
    text = "\n\n".join(paragraphs(replace(given, language=language, became=())))
    assert asks_inside(text) == []
    assert value_in_text(text) == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_longest_of_everything_stays_on_one_page(paper: str, language: str) -> None:
    worst = replace(WORST, paper=paper, given=replace(WORST.given, language=language))
    printed = Printed(year_end_note.draw(worst))
    assert len(printed.pages) == 1
    assert [gap.code for gap in year_end_note.gaps(worst)] in ([], ["address-too-long"])
    assert all(printed.fonts().values())


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("Could you give us 40 pots again next year?", "ask"),
        ("Your gift was worth $300.", "value"),
        ("Like Tamarack Hardware, you were with us.", "other-giver"),
        ("Your gift is tax-deductible.", "deductible"),
    ],
)
def test_what_a_note_must_not_say_stops_it(words: str, code: str) -> None:
    gaps = year_end_note.gaps(replace(NOTE, paragraphs=(words,)), other_givers=("Tamarack Hardware",))
    assert code in [gap.code for gap in gaps if gap.stops]


def test_last_years_words_are_told() -> None:
    gaps = year_end_note.gaps(NOTE, last_text="\n\n".join(NOTE.body))
    assert [(gap.code, gap.stops) for gap in gaps] == [("last-words", False)]


def test_a_note_made_in_the_fall_is_told_that_the_year_is_not_at_its_end() -> None:
    fall = replace(NOTE, day=date(2026, 11, 26), ends=date(2027, 6, 30))
    assert [gap.code for gap in year_end_note.gaps(fall)] == ["early"]
    for right in (replace(fall, day=NOTE.day), replace(fall, paragraphs=("Happy new year.",))):
        assert year_end_note.gaps(right) == ()


@pytest.mark.django_db
def test_it_is_filled_from_the_year_and_nothing_else(desk: Desk) -> None:
    school = make_school(desk.program)
    add_class(desk=desk, school=school, label="3A", grade=3, students=24)
    partner = make_partner(desk.program)
    add_contact(desk=desk, partner=partner, name="Dana Whitlock")
    project = add_project(desk=desk, title="Planters", students=20)
    came: dict[str, Any] = {"source": "partner", "partner": partner, "form": "goods"}
    pots = [Line(description="pots", quantity=30)]
    for day in (date(2026, 9, 1), date(2026, 9, 20)):
        receive(desk=desk, day=day, lines=pots, project=project, **came)
    receive(desk=desk, day=date(2026, 6, 1), lines=[Line(description="last year's wool", quantity=3)], **came)
    edit_project(desk=desk, project=project, what_it_became="Twenty planters stand on Main Street")
    grant = write_grant(desk=desk, partner=partner, title="Clay", school=school)
    ask_for(desk=desk, grant=grant, asked_cents=9000, asked_on=date(2026, 8, 1), answer_by=None)
    award(desk=desk, grant=grant, awarded_cents=9000, answered_on=date(2026, 9, 9))
    given = prepare(desk, "year-end-note", partner.pk).facts.given
    assert given == Given(
        language="en", year="2026–27", partner=partner.name, contact="Dana Whitlock", items=(Item("pots", 60),),
        grants=("Clay",), became=("Twenty planters stand on Main Street",), reached=20, taught=24,
        teacher="June Castellanos", school="Millrace Elementary",
    )  # fmt: skip
    earlier = prepare(desk, "year-end-note", partner.pk)
    earlier.words = {"year": 2025}
    assert (earlier.facts.given.items, earlier.facts.given.is_over) == ((Item("last year's wool", 3),), True)


@pytest.mark.django_db
def test_what_it_became_is_asked_only_where_it_was_for_something(desk: Desk) -> None:
    make_school(desk.program)
    partner, project = make_partner(desk.program), add_project(desk=desk, title="Planters")
    came: dict[str, Any] = {"desk": desk, "source": "partner", "partner": partner, "form": "goods", "day": desk.day}
    receive(**came, lines=[Line(description="twine")])
    assert "no-becomes" not in [gap.code for gap in prepare(desk, "year-end-note", partner.pk).gaps()]
    receive(**came, lines=[Line(description="pots")], project=project)
    prepared = prepare(desk, "year-end-note", partner.pk)
    (asked,) = (gap for gap in prepared.gaps() if gap.code == "no-becomes")
    found = way(prepared, asked)
    assert found is not None
    assert (str(asked.words), found.url) == ("What did “Planters” become?", f"/projects/{project.pk}/became/")


def test_a_partner_who_is_a_person_is_greeted_as_one(desk: Desk) -> None:
    person = make_partner(desk.program, "Cora Šimić", kind="person")
    receive(
        desk=desk, source="partner", partner=person, day=desk.day, form="goods", lines=[Line(description="egg cartons")]
    )
    assert "Dear Cora Šimić," in Printed(year_end_note.draw(prepare(desk, "year-end-note", person.pk).facts)).text
