"""The hand-over as one bound file, and the letter of who takes over: what stands on them, and what never does."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from pypdf import PdfReader
from pypdf.generic import Destination

from outreach.documents import handover, introduction_letter
from outreach.documents.handover import Part
from outreach.gathering import handover as handing_over
from outreach.gathering import handover_rows
from outreach.wording.counts import Item
from outreach.wording.handover import KINDS, Listing
from outreach.wording.introduction import Introduction, Stands, paragraphs
from partners.funding.grant_actions import ask_for, award, write_grant
from partners.gifts.actions import receive
from partners.school.approval_models import AcceptanceRule
from tests import people
from tests.outreach.sheets import LONG_NAME, LONG_PERSON, LONG_SCHOOL, SCHOOL, Printed
from tests.outreach.tagged import Tagged

DAY = date(2027, 6, 9)
PARTNERS = tuple((f"{number}. {LONG_NAME}", f"{LONG_PERSON} (decides).", "Last heard of.") for number in range(300))
FACTS = handover.Facts(
    paper="letter",
    letterhead=SCHOOL,
    day=DAY,
    program="Alder Falls Art",
    teacher="June Castellanos",
    figures=(("Students", "604 students in 26 classes"),),
    schools=(Part("Millrace Elementary", (("School year", "Sep 1, 2026 to Jun 18, 2027"),)),),
    parts=(
        Part(
            "Millrace Elementary",
            (("Principal", "Dr. Ruth Okafor"),),
            (
                Listing("theirs", (("Dec 1, 2026", "Riverbend Garden Center", "60 terracotta pots", ""),)),
                Listing("ours", ()),
            ),
        ),
        Part("For all schools together", (), (Listing("ask", PARTNERS[:2]), Listing("thanks", ()))),
    ),
)
MANY = replace(FACTS, letterhead=LONG_SCHOOL, parts=(*FACTS.parts, Part(LONG_NAME, (), (Listing("ask", PARTNERS),))))

# The contents name their sheet alone: both stand on the page on which it begins.
BESIDE_THEIR_SHEET = {"How this book works", "Calendar and figures"}


def outline(reader: PdfReader, marks: Any = None) -> list[tuple[str, int, int]]:
    """Title, page from 1 and level of every bookmark."""
    found, marks = [], reader.outline if marks is None else marks
    for mark in marks:
        if isinstance(mark, Destination):
            found.append((str(mark.title), (reader.get_destination_page_number(mark) or 0) + 1, 0))
        else:
            found += [(title, page, level + 1) for title, page, level in outline(reader, mark)]
    return found


@pytest.mark.django_db
def test_awards_stand_among_the_gifts_that_wait_to_be_accepted(desk: Any) -> None:
    school = people.make_school(desk.program)
    AcceptanceRule.objects.create(program=desk.program, school=school, from_cents=40_000, who="the school board")
    giver = people.make_partner(desk.program, "Alder Falls Education Fund")
    grant = write_grant(desk=desk, partner=giver, title="Kiln shelves", school=school)
    ask_for(desk=desk, grant=grant, asked_on=desk.day, asked_cents=50_000, answer_by=None)
    award(desk=desk, grant=grant, answered_on=desk.day, awarded_cents=50_000)
    receive(
        desk=desk, source="partner", partner=giver, school=school, day=desk.day - timedelta(days=1), form="money",
        amount_cents=60_000, money_kind="check",
    )  # fmt: skip
    listed = handing_over.lists(desk, school)["accept"]
    assert [row[2:] for row in listed] == [
        ("$600.00", "the school board"), ("Kiln shelves, $500.00", "the school board"),
    ]  # fmt: skip


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_three_hundred_partners_are_bound_with_contents_bookmarks_and_counted_pages(paper: str) -> None:
    pdf = handover.draw(replace(MANY, paper=paper))
    printed = Printed(pdf)
    pages, marks = printed.pages, outline(printed.reader)
    assert len(pages) > 20
    assert all(f"page {number} of {len(pages)}" in page for number, page in enumerate(pages, 1))
    assert sum(page.count("(decides).") for page in pages) == 302
    assert marks[1] == ("How it works, calendar and figures", 2, 0)
    for title, page, level in marks[2:]:
        assert title[:40] in pages[page - 1], title
        assert (f"{title} {page}" in pages[0]) is (title not in BESIDE_THEIR_SHEET), title
        assert level == (title in BESIDE_THEIR_SHEET | {one.heading for one in KINDS.values()})
    assert all(LONG_NAME[:30] in page for page in pages[marks[-1][1] :])


def test_it_is_read_in_order_with_its_headings_and_each_table_once() -> None:
    tagged = Tagged(handover.draw(FACTS))
    assert tagged.faults == []
    heads = [part.text for part in tagged.document.all() if part.role in ("H1", "H2")]
    assert heads == [
        "Hand-over of Alder Falls Art", "Contents", "How this book works", "Calendar and figures",
        "Millrace Elementary", "Millrace Elementary", "What they promised us",
        "For all schools together", "Who may be asked (2)",
    ]  # fmt: skip


def test_the_cover_counts_what_is_open_and_says_how_it_is_kept() -> None:
    text = Printed(handover.draw(FACTS)).pages[0]
    for words in ("From June Castellanos", "Open 1 promise to us", "Keep this like a grade book", "June 9, 2027"):
        assert words in text, words
    done = Printed(handover.draw(replace(FACTS, former="June Castellanos", teacher="Priya Natarajan"))).pages[0]
    assert "From June Castellanos" in done
    assert "To Priya Natarajan" in done


def test_what_there_is_none_of_is_said_in_one_sentence() -> None:
    text = Printed(handover.draw(FACTS)).text
    assert "Nothing is written down here of: what we promised them." in text
    assert "What we promised them" not in text


def test_every_row_has_a_cell_for_each_column() -> None:
    assert all(len(kind.columns) in (2, 3, 4) for kind in KINDS.values())
    with pytest.raises(ValueError, match="zip"):
        handover.draw(replace(FACTS, parts=(Part("One", (), (Listing("theirs", (("too few",),)),)),)))
    assert handover_rows.place_rows([]) == ()


LETTER = introduction_letter.Facts(
    paper="letter",
    letterhead=SCHOOL,
    day=DAY,
    about=Introduction(
        language="en",
        teacher="Priya Natarajan",
        school="Millrace Elementary",
        former="June Castellanos",
        partner="Riverbend Garden Center",
        contact="Dana Whitlock",
        form="goods",
        came=(Item("terracotta pots", 60),),
        came_on=date(2026, 10, 6),
        became="Forty planters stand on Main Street",
        theirs=(Stands(Item("potting soil", 6, "bags"), date(2027, 9, 1)), Stands(Item("twine"))),
        ours=(Stands(Item("decorated seed packets", 200, at_most=250), date(2027, 12, 4)),),
        phone="(201) 555-0123",
        email="priya@example.org",
    ),
    role="Art teacher",
)


def test_the_letter_names_who_follows_whom_thanks_and_says_what_stands() -> None:
    text = Printed(introduction_letter.draw(LETTER)).text
    for words in (
        "Dear Dana Whitlock and everyone at Riverbend Garden Center,",
        "My name is Priya Natarajan, and I now teach art at Millrace Elementary in place of June Castellanos.",
        "Thank you for what you gave on October 6, 2026: 60 terracotta pots. Forty planters stand on Main Street.",
        "What was promised stays as it was. From your side: 6 bags of potting soil, by September 1, 2027; and twine.",
        "From our side: 200 to 250 decorated seed packets, by December 4, 2027.",
        "You can reach me at (201) 555-0123 or priya@example.org.",
    ):
        assert words in text, words


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("form", ["goods", "money", "trade", "help", ""])
def test_worded_from_the_record_it_never_asks_and_names_no_value(language: str, form: str) -> None:
    about = replace(LETTER.about, language=language, form=form)
    found = introduction_letter.gaps(replace(LETTER, about=about))
    assert {gap.code for gap in found} <= {"no-address"}
    assert not any("{" in words or ": ." in words for words in paragraphs(about))


def test_spanish_speaks_to_one_or_to_many() -> None:
    one = replace(LETTER.about, language="es", partner="")
    assert "Por las notas que se llevaron, sé lo que ha hecho" in " ".join(paragraphs(one))
    assert "sé lo que han hecho" in " ".join(paragraphs(replace(one, partner="Café Paloma")))


def test_an_ask_a_value_and_who_wants_peace_are_named() -> None:
    asking = replace(LETTER, text=("Could you give us 20 more pots, worth $40?",), left_in_peace=True)
    stops = {gap.code: gap.stops for gap in introduction_letter.gaps(asking)}
    assert stops["ask"]
    assert stops["value"]
    assert stops["never-ask"] is False


def test_a_long_list_of_promises_is_cut_short_and_the_letter_stays_on_one_page() -> None:
    many = tuple(Stands(Item(f"{LONG_NAME} {number}"), DAY) for number in range(40))
    about = replace(LETTER.about, contact=LONG_PERSON, partner=LONG_NAME, theirs=many, ours=many)
    printed = Printed(introduction_letter.draw(replace(LETTER, letterhead=LONG_SCHOOL, about=about)))
    assert "35 more things" in printed.text
    assert len(printed.pages) <= 2
