"""The tag that is stuck on what came."""

from dataclasses import replace
from datetime import date
from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from outreach.documents import gift_tag
from outreach.documents.gift_tag import Facts
from outreach.gathering import tag as gather_tag
from outreach.wording.counts import Item
from partners.gifts.actions import Line, receive
from tests import people

DAY = date(2026, 10, 9)
POTS = Facts(
    "en",
    "letter",
    DAY,
    (Item("terracotta pots", 60),),
    "Alder Falls School District 7",
    "Millrace Elementary",
    "Shelf B",
)


def text_of(facts):
    pages = PdfReader(BytesIO(gift_tag.draw(facts))).pages
    return "\n".join(page.extract_text() for page in pages), len(pages)


def test_it_says_what_it_is_whose_it_is_and_where_it_belongs():
    text, pages = text_of(POTS)
    for words in ("60 terracotta pots", "Alder Falls School District 7", "Shelf B", "October 9, 2026"):
        assert words in text
    assert pages == 1
    assert "Given by" not in text


def test_the_same_facts_give_the_same_bytes():
    assert gift_tag.draw(POTS) == gift_tag.draw(POTS)


def test_what_is_lent_belongs_to_whoever_lent_it():
    text, _pages = text_of(replace(POTS, is_lent=True, goes_back=date(2026, 12, 1)))
    assert "Belongs to" not in text
    assert "On loan: goes back by" in text


def test_what_was_not_looked_at_yet_says_so():
    assert "NOT FOR CHILDREN YET" in text_of(replace(POTS, unchecked=True))[0]


def test_forty_things_and_a_long_name_go_on_properly():
    many = tuple(Item(f"thing number {n} with a rather long description of what it is", n + 2) for n in range(40))
    text, pages = text_of(replace(POTS, things=many, school="Å" * 60))
    assert pages <= 3
    assert "thing number 39" in text


def test_gaps_name_what_is_missing():
    assert [gap.code for gap in gift_tag.gaps(replace(POTS, belongs_to="", place=""))] == ["no-owner", "no-place"]
    assert gift_tag.gaps(POTS) == ()


@pytest.mark.django_db
@pytest.mark.parametrize(("may_name", "named"), [("", ""), ("no", ""), ("school_only", "Riverbend Garden Center")])
def test_a_giver_is_named_only_by_consent(desk, may_name, named):
    garden = people.make_partner(desk.program, may_name=may_name)
    line = Line(description="paint", risk="paint")
    gift = receive(desk=desk, source="partner", partner=garden, day=DAY, form="goods", lines=[line], is_clean=True)
    facts = gather_tag.gather(desk, gift)
    assert (facts.giver, facts.unchecked) == (named, True)


@pytest.mark.django_db
def test_it_opens_in_one_click_and_cannot_be_handed_over(signed_in, june):
    desk = people.make_desk(june.program)
    gift = receive(desk=desk, source="families", day=DAY, form="goods", lines=[Line(description="egg cartons")])
    answer = signed_in.get(reverse("outreach:document", args=["gift-tag", gift.pk]))
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    assert signed_in.get(reverse("outreach:document-prepare", args=["gift-tag", gift.pk])).status_code == 404
    assert signed_in.post(reverse("outreach:document-hand-over", args=["gift-tag", gift.pk])).status_code == 404
