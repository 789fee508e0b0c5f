"""Letters in one go that go out: what is kept of each, what stays here, what stops them, taken back."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from outreach import batch_page
from outreach.batch_making import make_outing
from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.asking.actions import log_visit
from partners.asking.may_ask import Situation, may_ask
from partners.asking.said import Said
from partners.directory.actions import add_partner
from partners.directory.models import Partner
from partners.gifts.models import Thanks
from partners.gifts.thanks_actions import thanks_said
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.visits.actions import Stop, plan_outing
from partners.wish_list.models import Need
from tests import people, whole_book
from tests.ladder import flat
from tests.outreach.batch_book import PLACES, body, come, thanks_batch, titles, went

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def tuesday() -> Iterator[None]:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def givers(desk: Desk) -> list[Partner]:
    people.make_school(desk.program, street="14 Millrace Road", city="Alder Falls", state="NJ", postal_code="07000")
    where = {"city": "Alder Falls", "state": "NJ", "postal_code": "07000"}
    found = [add_partner(desk=desk, name=name, street=street, **where) for name, street in PLACES.items()]
    for partner in found:
        come(desk, partner)
    return found


def test_all_but_the_ticked_one_are_frozen_as_printed_and_thanked(
    signed_in: Client, desk: Desk, givers: list[Partner]
) -> None:
    batch = thanks_batch(desk)
    printed = PdfReader(io.BytesIO(body(signed_in.get(reverse("outreach:batch-file", args=[batch.pk]))))).pages
    kept = batch.letters.get(partner=givers[2])
    before = whole_book.rows(desk.program)
    with time_machine.travel("2026-10-08 15:00 -0400", tick=False):
        answer = signed_in.post(
            reverse("outreach:batch-went", args=[batch.pk]), {"state": "mailed", "day": "2026-10-07", "here": kept.pk}
        )
    assert answer["Location"] == batch.get_absolute_url()
    gone = list(batch.letters.exclude(state="draft").order_by("place"))
    assert [(one.state, one.day) for one in gone] == [("mailed", date(2026, 10, 7))] * 2
    for one, page in zip(gone, printed, strict=False):
        assert one.sheet is not None
        (frozen,) = PdfReader(io.BytesIO(bytes(one.sheet.pdf))).pages
        assert frozen.extract_text() == page.extract_text()
    assert list(Thanks.objects.owed().values_list("partner", flat=True)) == [givers[2].pk]
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert whole_book.rows(desk.program) == before


def test_what_is_still_here_stays_a_due_line_until_it_goes(signed_in: Client, desk: Desk, givers: Any) -> None:
    batch = thanks_batch(desk)
    went(signed_in, batch, batch.letters.get(partner=givers[2]))
    assert batch.get_absolute_url() in signed_in.get(reverse("agenda:review")).content.decode()
    went(signed_in, batch)
    assert batch.get_absolute_url() not in signed_in.get(reverse("agenda:review")).content.decode()
    assert "All of it went out." in flat(signed_in.get(batch.get_absolute_url()))
    assert went(signed_in, batch).status_code == 302


@pytest.mark.parametrize("many", [False, True])
def test_one_sheet_that_must_not_go_like_this_stops_them_all(
    signed_in: Client, desk: Desk, givers: Any, monkeypatch: pytest.MonkeyPatch, many: bool
) -> None:
    monkeypatch.setattr("outreach.batch_going_views.SHORT", 2 if many else 40)
    batch = thanks_batch(desk)
    batch.letters.filter(partner=givers[0]).update(words={"paragraphs": ["Could you give us 40 more?"]})
    before = whole_book.rows(desk.program)
    answer = went(signed_in, batch)
    page = body(answer).decode() if many else answer.content.decode()
    assert "A thank-you never holds another ask." in page
    assert ("Nothing was saved." if many else "Not saved yet.") in page
    assert whole_book.rows(desk.program) == before


def test_many_go_out_behind_a_page_that_says_how_far_it_is(
    signed_in: Client, desk: Desk, givers: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("outreach.batch_going_views.SHORT", 2)
    monkeypatch.setattr("outreach.batches.AT_ONCE", 2)
    batch = thanks_batch(desk)
    page = " ".join(body(went(signed_in, batch, once="a token")).decode().split())
    for said in ("0 of 3 sheets", "2 of 3 sheets", "All are kept.", "3 sheets are kept in the register"):
        assert said in page
    assert page.rstrip().endswith("</html>")
    assert Event.objects.filter(once="a token").count() == 1
    assert differences(desk.program) == []


def test_a_sheet_left_at_a_visit_is_out_of_its_batch_as_it_was_printed(desk: Desk, givers: list[Partner]) -> None:
    asked = Need.objects.create(program=desk.program, what="terracotta pots", quantity=40)
    stops = [Stop(place, asked, may_ask(Situation(), desk.day)) for place in givers[:2]]
    batch = make_outing(desk, plan_outing(desk=desk, day=desk.day, stops=stops))
    assert batch is not None
    before = whole_book.rows(desk.program)
    with time_machine.travel("2026-10-07 15:00 -0400", tick=False):
        later = replace(desk, day=date(2026, 10, 7))
        said = Said(where=givers[0], happened="yes", day=later.day, need=asked, quantity=40, sheet_left=True)
        log_visit(desk=later, said=said)
    gone = batch.letters.exclude(state="draft").get()
    assert (gone.partner, gone.state, gone.day) == (givers[0], "handed_over", date(2026, 10, 7))
    assert gone.sheet is not None
    (frozen,) = PdfReader(io.BytesIO(bytes(gone.sheet.pdf))).pages
    assert "40 terracotta pots" in frozen.extract_text()
    assert "October 6, 2026" in frozen.extract_text()
    assert differences(desk.program) == []
    whole_book.undo_newest(desk)
    assert whole_book.rows(desk.program) == before


@pytest.mark.parametrize(("most", "ways"), [(2, 1), (3, 0)])
def test_many_sheets_have_a_way_past_them(
    signed_in: Client, desk: Desk, givers: Any, monkeypatch: pytest.MonkeyPatch, most: int, ways: int
) -> None:
    monkeypatch.setattr(batch_page, "LONG", most)
    page = signed_in.get(thanks_batch(desk).get_absolute_url()).content.decode()
    before, _sheets, behind = page.partition('<ol class="round">')
    assert (before.count('href="#how-it-went"'), behind.count('id="how-it-went"')) == (ways, 1)


def test_what_was_typed_wrong_is_said_and_the_ticks_stay(signed_in: Client, desk: Desk, givers: Any) -> None:
    batch = thanks_batch(desk)
    letter = batch.letters.get(partner=givers[1])
    page = flat(went(signed_in, batch, letter, day="2026-10-07", state="emailed"))
    assert "That day is still to come." in page
    assert f'value="{letter.pk}" checked' in page
    everything = flat(went(signed_in, batch, *batch.letters.all()))
    assert "Every sheet is ticked as still here" in everything


def test_what_is_ticked_leaves_the_batch_and_what_was_thanked_leaves_by_itself(
    signed_in: Client, desk: Desk, givers: list[Partner]
) -> None:
    batch = thanks_batch(desk)
    leave = reverse("outreach:batch-leave-out", args=[batch.pk])
    assert "Tick the sheets" in flat(signed_in.post(leave))
    signed_in.post(leave, {"here": batch.letters.get(partner=givers[0]).pk})
    thanks_said(desk=desk, thanks=Thanks.objects.get(partner=givers[1]), day=desk.day, how="in person")
    signed_in.post(reverse("outreach:batch-renew", args=[batch.pk]))
    assert titles(desk, batch) == ["Gratitude letter: Marigold Framing", "Gratitude letter: Quill Printing"]
