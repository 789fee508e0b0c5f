"""The register: one draft for one sheet, frozen once it went out, and the thanks that it settles."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.letters.actions import gone_out, keep_words
from partners.program.desk import Desk
from partners.program.models import Membership
from tests.ladder import enter, flat
from tests.people import make_partner
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db


@pytest.fixture
def gift(desk: Desk) -> Gift:
    partner = make_partner(desk.program)
    lines = [Line(description="terracotta pots", quantity=60)]
    return receive(desk=desk, source="partner", partner=partner, day=desk.day, form="goods", lines=lines)


def keep(desk: Desk, gift: Gift, words: dict[str, Any]) -> Any:
    about = {"gift": gift, "partner": gift.partner}
    return keep_words(desk=desk, document="gratitude-letter", title="Thanks", words=words, language="en", **about)


def test_words_of_one_sheet_are_kept_in_one_draft(desk: Desk, gift: Gift) -> None:
    keep(desk, gift, {"paragraphs": ["First."]})
    keep(desk, gift, {"paragraphs": ["Second."]})
    assert [letter.words["paragraphs"] for letter in desk.letters] == [["Second."]]


def test_a_guest_sees_no_sheet_that_is_still_being_written(
    client: Client, grace: Membership, desk: Desk, gift: Gift
) -> None:
    grace.opened = ["letters"]
    grace.save()
    enter(client, grace)
    letter = keep(desk, gift, {})
    assert "Thanks" not in flat(client.get(reverse("letters:letter-list"))).split("<main")[1]
    assert client.get(letter.get_absolute_url()).status_code == 404
    gone_out(desk=desk, letter=letter, state="mailed", day=desk.day, pdf=b"%PDF-1")
    assert client.get(letter.get_absolute_url()).status_code == 200


def test_a_letter_that_went_out_says_the_thanks(desk: Desk, gift: Gift) -> None:
    letter, owed = keep(desk, gift, {}), desk.thanks.get()
    gone_out(desk=desk, letter=letter, state="mailed", day=desk.day, pdf=b"%PDF-1", thanks=owed)
    assert desk.thanks.get().done_on == desk.day
    assert bytes(desk.letters.get().sheet.pdf) == b"%PDF-1"
    assert differences(desk.program) == []


def test_undo_of_going_out_restores_the_book(desk: Desk, gift: Gift) -> None:
    letter, owed = keep(desk, gift, {}), desk.thanks.get()
    before = rows(desk.program)
    gone_out(desk=desk, letter=letter, state="mailed", day=desk.day, pdf=b"%PDF-1", thanks=owed)
    undo_newest(desk)
    assert rows(desk.program) == before


def test_after_going_out_the_next_words_begin_a_new_draft(desk: Desk, gift: Gift) -> None:
    gone_out(desk=desk, letter=keep(desk, gift, {}), state="mailed", day=desk.day, pdf=b"%PDF-1")
    keep(desk, gift, {"paragraphs": ["Again."]})
    assert sorted(letter.state for letter in desk.letters) == ["draft", "mailed"]


def test_the_same_bytes_are_kept_once(desk: Desk, gift: Gift) -> None:
    for _time in range(2):
        gone_out(desk=desk, letter=keep(desk, gift, {}), state="mailed", day=desk.day, pdf=b"%PDF-1")
    assert desk.sheets.count() == 1
    assert desk.letters.count() == 2
