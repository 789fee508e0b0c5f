"""The yearly summary and the talk card: what they say to whom, whom they name, and how they fit."""

from __future__ import annotations

from dataclasses import replace

import pytest
from django.test import Client
from django.urls import reverse

from outreach.documents import talk_card, yearly_summary
from outreach.gathering.year import gather, gather_talk
from outreach.page import measured, on_paper, paper
from outreach.wording.talk import sentences
from outreach.wording.year_facts import Facts
from partners.funding.grant_actions import ask_for, award, write_grant
from partners.gifts.actions import receive
from partners.letters.actions import gone_out, keep_words
from partners.letters.models import Letter
from partners.program.desk import Desk
from partners.program.models import Membership, Opened
from partners.promises.actions import promise
from partners.school.project_actions import add_project
from partners.wish_list.models import Need
from tests import people
from tests.ladder import enter, flat, status
from tests.outreach.sheets import Printed
from tests.outreach.tagged import Tagged
from tests.outreach.year_sheets import BARE, CARD, FOR_PARTNERS, FULL, LONG
from tests.year import cast

PAPERS = pytest.mark.parametrize("size", ["letter", "a4"])
LANGUAGES = pytest.mark.parametrize("language", ["en", "es"])
PREPARE = ("outreach:document-prepare", ["yearly-summary", 0])


def read(facts: Facts) -> Printed:
    return Printed(yearly_summary.draw(facts))


@PAPERS
@LANGUAGES
def test_both_are_one_page_with_their_fonts_inside(size: str, language: str) -> None:
    year = replace(FULL, paper=size, language=language)
    assert len(measured(yearly_summary._sheet(on_paper(year)), paper(size)).pages) == 1
    for printed in (read(year), Printed(talk_card.draw(talk_card.Facts(year)))):
        assert len(printed.pages) == 1
        assert all(printed.fonts().values())
        assert str(printed.reader.root_object["/Lang"]) == language


def test_the_board_reads_counts_first_with_year_and_source_of_an_hour() -> None:
    text = read(FULL).text
    for words in (
        "604 students in 26 classes", "23 gifts of goods, 2 gifts of money and 1 use of a space", "(4 of these from",
        "2 of 3 kept by both sides, 1 still going on", "14 helpers, 102.5 hours, worth $3,259.50 at $31.80 an hour",
        "figure of 2022", "36 of 38 sent, half of them within 2.5 days", "$432.10 spent, $67.90 left", "17 of 21",
        "$123.45 paid by the teacher", "1. terracotta pots", "and 11 more", "2019; experiment). Limits: One city",
    ):  # fmt: skip
        assert words in text, words
    assert text.index("604 students") < text.index("What it became") < text.index("What research says")


def test_partners_are_told_of_no_money_and_asked_for_nothing() -> None:
    text = read(FOR_PARTNERS).text
    assert not [words for words in ("$", "Grants", "Out of pocket", "Needed next year") if words in text]
    assert "thanks-and-ask" in {gap.code for gap in yearly_summary.gaps(replace(FOR_PARTNERS, needs=("wool",)))}


def test_what_is_not_there_is_not_said() -> None:
    text = read(BARE).text
    assert not [words for words in ("Gifts", "Promises", "Month", " 0 ", "thanks", "research") if words in text]
    assert {gap.code for gap in yearly_summary.gaps(BARE)} == {
        "year-goes-on", "nothing-became", "no-needs", "nobody-named",
    }  # fmt: skip


def test_more_than_a_page_says_so_and_goes_on_properly() -> None:
    printed = read(LONG)
    assert "second-page" in {gap.code for gap in yearly_summary.gaps(LONG)}
    assert len(printed.pages) == 2
    assert "page 2 of 2" in printed.text


def test_bars_are_black_and_as_long_as_their_numbers() -> None:
    grey = read(replace(FULL, kept=(10, 9), promised=(20, 9))).picture(dots=100)
    wide, dark = grey.width, [value < 60 for value in grey.tobytes()]
    rows = [dark[start : start + wide] for start in range(0, len(dark), wide)]
    longest = sorted({max_run(row) for row in rows})
    # The full bar of 9 of 9 is twice as long as the half one of 10 of 20; frames and rules are longer or hollow.
    full = next(run for run in longest if 240 < run < 330)
    assert any(abs(max_run(row) * 2 - full) <= 4 for row in rows)


def test_both_are_read_by_their_tags_the_bars_with_the_numbers_of_their_cells() -> None:
    for data in (yearly_summary.draw(FULL), yearly_summary.draw(LONG), talk_card.draw(CARD)):
        assert Tagged(data).faults == []
    months, kept = (part for part in Tagged(yearly_summary.draw(FULL)).document.all() if part.role == "Table")
    rows = [[cell.text for cell in row.parts] for row in months.parts]
    assert " ".join(rows[0]) == "Month Jul Aug Sep Oct Nov Dec Jan Feb Mar Apr May Jun"
    assert rows[1] == ["Asks", "2", "", "6", "9", "4", "", "5", "3", "2", "1", "", ""]
    assert [cell.text for cell in kept.parts[1].parts] == ["of partners", "17 of 21", ""]


def test_a_figure_that_nobody_published_is_said_before_printing() -> None:
    codes = {gap.code for gap in yearly_summary.gaps(replace(FULL, worth=None, worth_unknown=True))}
    assert "no-figure" in codes


def max_run(row: list[bool]) -> int:
    best = run = 0
    for dark in row:
        run = run + 1 if dark else 0
        best = max(best, run)
    return best


def test_a_talk_is_five_sentences_above_the_fold_with_the_need_last() -> None:
    told = sentences(CARD.year)
    assert len(told) == 5
    assert told[0] == "This year 604 students made art with us."
    assert told[-1].startswith("What would help most next year: terracotta pots (4 inch), mat-board offcuts")
    nothing = " ".join(sentences(replace(CARD.year, kept=(0, 9), thanks_said=0, became=(), helpers=0)))
    assert "promises" not in nothing
    assert "thank-you" not in nothing
    printed = Printed(talk_card.draw(CARD))
    height = 11
    last = max(sign.bottom for sign in printed.signs() if sign.top < height / 2)
    first = min(sign.top for sign in printed.signs() if sign.top >= height / 2)
    assert last < height / 2 < first
    assert printed.text.index("sews") < printed.text.index("If they ask")
    assert "few-sentences" in {gap.code for gap in talk_card.gaps(talk_card.Facts(BARE))}


@pytest.fixture
def own(june: Membership) -> Desk:
    return people.make_desk(june.program, user=june.user)


@pytest.mark.django_db
def test_only_who_said_yes_is_named_and_in_school_those_who_said_so(own: Desk) -> None:
    made = cast.a_year(own)
    for key, answer in (("garden", "yes"), ("frames", "school_only")):
        own.partners.filter(pk=made[key].pk).update(may_name=answer)
    cast.trade(own, made["bakery"])
    named = {who: gather(own, None, {"readers": who}) for who in ("principal", "board", "partners")}
    assert named["principal"].names == ("Marigold Framing", "Riverbend Garden Center")
    assert named["board"].names == named["partners"].names == ("Riverbend Garden Center",)
    assert (named["principal"].others, named["board"].others) == (1, 2)
    assert gather_talk(own, None, {}).year.names == ()


@pytest.mark.django_db
def test_the_sheet_says_what_the_page_counts_for_one_school_or_all(own: Desk) -> None:
    made = cast.a_year(own)
    other = people.make_school(own.program, "North Ridge")
    cast.gift(own, made["garden"], cast.OCTOBER, school=other)
    add_project(desk=own, title="Planters", what_it_became="Forty planters stand on Main Street.")
    whole, one = gather(own, None, {}), gather(own, made["school"], {"worth": True})
    assert (dict(whole.gifts), dict(one.gifts)) == ({"goods": 3, "money": 1}, {"goods": 2, "money": 1})
    assert (whole.students, whole.gave_before, whole.gave_again, whole.thanks_said) == (42, 2, 1, 1)
    assert whole.became == ("Forty planters stand on Main Street.",)
    assert one.letterhead.school == "Millrace Elementary"
    # No figure of 2026 is published, and none of another year stands in for it.
    assert one.worth is None
    earlier = gather(own, None, {"year": "2025"})
    assert (earlier.year, earlier.students, dict(earlier.gifts)) == ("2025–26", 0, {"goods": 2})


@pytest.mark.django_db
def test_the_words_are_chosen_on_screen_and_kept(signed_in: Client, own: Desk) -> None:
    Need.objects.create(program=own.program, what="wool")
    address, first = reverse(*PREPARE[:1], args=PREPARE[1]), {"year": "2026", "language": "en"}
    assert "wool" in flat(signed_in.get(address))
    typed = {**first, "readers": "board", "needs": "one\ntwo\nthree\nfour", "research": "houston"}
    assert "Three are enough" in flat(signed_in.post(address, typed))
    typed["needs"] = "a kiln shelf\nwool"
    assert status(signed_in, address, "post", **typed, once="a") == 302
    kept = Letter.objects.get()
    assert (kept.school, kept.words["needs"], kept.words["readers"]) == (None, ["a kiln shelf", "wool"], "board")
    pdf = signed_in.get(reverse("outreach:document", args=["yearly-summary", 0])).content
    assert "1. a kiln shelf 2. wool" in Printed(pdf).text
    assert "42 Houston schools" in Printed(pdf).text
    card = signed_in.get(reverse("outreach:document", args=["talk-card", 0])).content
    assert "a kiln shelf and wool" in Printed(card).text
    # For partners the lines of the wish list do not become an ask.
    assert status(signed_in, address, "post", **first, readers="partners", needs="wool", once="b") == 302
    assert "needs" not in Letter.objects.get().words


@pytest.mark.django_db
def test_a_guest_reads_amounts_on_sheets_and_in_a_story_only_where_gifts_or_money_are_open(
    client: Client, june: Membership, grace: Membership
) -> None:
    own = people.make_desk(june.program, user=june.user)
    giver = people.make_partner(own.program)
    money = {"form": "money", "amount_cents": 25_000, "money_kind": "check"}
    gift = receive(desk=own, source="partner", partner=giver, day=own.day, **money)
    promise(desk=own, partner=giver, side="them", what="a check", amount_cents=25_000, due=own.day, made_on=own.day)
    grant = write_grant(desk=own, partner=giver, title="Kiln shelves")
    ask_for(desk=own, grant=grant, asked_on=own.day, asked_cents=25_000, answer_by=None)
    award(desk=own, grant=grant, answered_on=own.day, awarded_cents=25_000)
    words = keep_words(
        desk=own, document="gratitude-letter", title="Thanks", words={}, language="en", key="gift", gift=gift,
        partner=giver,
    )  # fmt: skip
    pdf = client.get
    letter, summary, places = (
        reverse("outreach:document", args=one)
        for one in (("gratitude-letter", gift.pk), ("yearly-summary", 0), ("places-asked", 0))
    )
    sheet = enter(client, june).get(letter).content
    sent = gone_out(desk=own, letter=words, state="handed_over", day=own.day, pdf=sheet)
    kept = reverse("letters:letter-pdf", args=[sent.pk])
    opened = [Opened.YEAR, Opened.LETTERS, Opened.PARTNERS]
    for more, answer in (([], 403), ([Opened.GIFTS], 200)):
        Membership.objects.filter(pk=grace.pk).update(opened=[*opened, *more])
        enter(client, grace)
        assert [status(client, one) for one in (letter, kept)] == [answer, answer]
        assert status(client, reverse("outreach:document-page", args=["yearly-summary", 0])) == 200
        told = [flat(pdf(giver.get_absolute_url())), *(Printed(pdf(one).content).text for one in (summary, places))]
        assert ["$250" in one for one in told] == [bool(more)] * 3
        assert ("names an amount" in flat(pdf(sent.get_absolute_url()))) is not bool(more)


@pytest.mark.django_db
def test_a_guest_of_the_year_opens_the_sheets_and_nobody_elses_school(
    client: Client, grace: Membership, otto: Membership
) -> None:
    address = reverse("outreach:document", args=["yearly-summary", 0])
    assert status(enter(client, grace), address) == 403
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.YEAR])
    assert status(client, address) == 200
    foreign = people.make_school(otto.program, "Otto's")
    assert status(client, reverse("outreach:document", args=["talk-card", foreign.pk])) == 404


@pytest.mark.django_db
def test_the_year_one_looks_at_is_the_year_of_the_summary_that_is_made(signed_in: Client, own: Desk) -> None:
    cast.a_year(own)
    summary = ["yearly-summary", 0]
    prepare, pdf = (reverse(f"outreach:{name}", args=summary) for name in ("document-prepare", "document"))
    assert f'href="{prepare}?year=2025"' in flat(signed_in.get(reverse("year:year"), {"year": "2025"}))
    page = flat(signed_in.get(prepare, {"year": "2025"}))
    assert '<option value="2025" selected>' in page
    assert f'href="{pdf}?year=2025"' in page
    assert "2025–26" in Printed(signed_in.get(pdf, {"year": "2025"}).content).text
    signed_in.post(reverse("outreach:document-hand-over", args=summary) + "?year=2025", {"state": "mailed"})
    assert str(Letter.objects.get().words["year"]) == "2025"
