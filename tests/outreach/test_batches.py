"""Letters in one go on the screen: put together, looked through, printed in one file."""

from __future__ import annotations

import io
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pypdf import PdfReader

from outreach import batch_page
from outreach.batch_making import make_outing
from outreach.documents import gratitude_letter
from partners.agenda.check_book import differences
from partners.asking.may_ask import Situation, may_ask
from partners.directory.actions import add_partner
from partners.directory.models import Partner
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.gifts.thanks_actions import owe_thanks
from partners.ground.traces import REMOVED
from partners.letters.models import Batch
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.promises.actions import promise
from partners.visits.actions import Stop, plan_outing
from tests import people
from tests.ladder import UNKNOWN, enter, flat, status
from tests.outreach.batch_book import PLACES, body, come, thanks_batch, titles, went, year_end
from tests.outreach.sheets import LETTER, thanking
from tests.people import TUESDAY, make_partner

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


def test_thanks_of_a_month_go_street_by_street_and_nobody_is_written_to_twice(desk: Desk, givers: Any) -> None:
    agreed = promise(desk=desk, partner=givers[0], side="them", what="frames", quantity=4, due=TUESDAY, made_on=TUESDAY)
    line = Line(description="frames", quantity=4, promise=agreed)
    receive(desk=desk, source="partner", partner=givers[0], day=TUESDAY, form="goods", lines=[line])
    owe_thanks(desk=desk, partner=givers[1], reason="considering", base=TUESDAY)
    owe_thanks(desk=desk, partner=givers[2], reason="considering", base=TUESDAY - timedelta(days=40))
    assert titles(desk, thanks_batch(desk)) == [
        "Gratitude letter: Bluebird Bakery", "Thank-you note: Bluebird Bakery", "Gratitude letter: Marigold Framing",
        "Gratitude letter: Quill Printing",
    ]  # fmt: skip


def test_all_thanks_that_are_owed_are_offered_first_and_made_as_one(
    signed_in: Client, desk: Desk, givers: list[Partner]
) -> None:
    pages = reverse("outreach:batch-list")
    assert "all that are owed" not in flat(signed_in.get(pages))
    owe_thanks(desk=desk, partner=givers[2], reason="considering", base=TUESDAY - timedelta(days=40))
    assert next(iter(signed_in.get(pages).context["month"].fields["month"].choices)) == ("every", "all that are owed")
    assert status(signed_in, pages, "post", kind="thanks", month="every") == 302
    batch = Batch.objects.get()
    assert (batch.title, len(titles(desk, batch))) == ("Thanks of August 2026 to October 2026", 4)
    come(desk, givers[0], TUESDAY - timedelta(days=20))
    assert status(signed_in, reverse("outreach:batch-renew", args=[batch.pk]), "post", once="more") == 302
    assert len(titles(desk, batch)) == 5


def test_what_one_giver_brought_on_one_day_is_one_letter_from_either_page(
    signed_in: Client, desk: Desk, givers: Any
) -> None:
    pots, soil = Gift.objects.get(partner=givers[0]), come(desk, givers[0], what="bags of soil")
    pages = [reverse("outreach:document-prepare", args=["gratitude-letter", gift.pk]) for gift in (soil, pots)]
    for page in pages:
        assert "60 pots and 60 bags of soil" in flat(signed_in.get(page))
        assert "these are thanked for as well" in flat(signed_in.get(page))
    assert soil.get_absolute_url() in flat(signed_in.get(pots.get_absolute_url()))
    signed_in.post(reverse("outreach:document-hand-over", args=["gratitude-letter", soil.pk]), {"state": "mailed"})
    assert not desk.thanks.owed().filter(partner=givers[0]).exists()
    assert desk.letters.get().gift == pots
    assert differences(desk.program) == []


def test_year_end_notes_go_to_everyone_who_gave_once(desk: Desk, givers: list[Partner]) -> None:
    come(desk, givers[0], what="more pots")
    receive(desk=desk, source="families", day=TUESDAY, form="goods", lines=[Line(description="buttons")])
    make_partner(desk.program, "Gave nothing")
    come(desk, make_partner(desk.program, REMOVED))
    never = make_partner(desk.program, "Never ask", never_ask=True, city="Zinc")
    come(desk, never)
    batch = year_end(desk)
    assert batch is not None
    assert titles(desk, batch) == [
        f"Year-end note: {name}" for name in ("Bluebird Bakery", "Marigold Framing", "Quill Printing", "Never ask")
    ]
    assert differences(desk.program) == []


def test_who_was_written_to_gets_no_second_note(signed_in: Client, desk: Desk, givers: list[Partner]) -> None:
    batch = year_end(desk)
    assert batch is not None
    assert went(signed_in, batch).status_code == 302
    assert year_end(desk) is None


def test_an_outing_is_a_batch_with_what_is_planned_to_be_asked(signed_in: Client, desk: Desk, givers: Any) -> None:
    verdict = may_ask(Situation(), desk.day)
    outing = plan_outing(desk=desk, day=desk.day, stops=[Stop(place, None, verdict) for place in givers])
    address = reverse("outreach:batch-outing", args=[outing.pk])
    assert address in signed_in.get(outing.get_absolute_url()).content.decode()
    answer = signed_in.post(address)
    batch = Batch.objects.get(outing=outing)
    assert answer["Location"] == batch.get_absolute_url()
    pages = PdfReader(io.BytesIO(body(signed_in.get(reverse("outreach:batch-file", args=[batch.pk]))))).pages
    assert [name in page.extract_text() for name, page in zip(PLACES, pages, strict=True)] == [True] * 3
    assert make_outing(desk, outing) == batch


def test_the_page_names_what_is_missing_with_the_way_to_mend_it(signed_in: Client, desk: Desk, givers: Any) -> None:
    page = flat(signed_in.get(thanks_batch(desk).get_absolute_url()))
    assert "3 sheets lack something" in page
    assert reverse("directory:partner-edit", args=[givers[2].pk]) in page
    assert reverse("directory:partner-edit", args=[givers[0].pk]) not in page
    assert page.index("19 Second Street") > page.index("7 Second Street")
    for gift in Gift.objects.all():
        assert reverse("gifts:gift-edit", args=[gift.pk]) in page


def test_many_sheets_are_looked_through_on_a_page_of_their_own(
    signed_in: Client, desk: Desk, givers: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(batch_page, "SHORT", 2)
    batch = thanks_batch(desk)
    look = reverse("outreach:batch-look", args=[batch.pk])
    assert look in signed_in.get(batch.get_absolute_url()).content.decode()
    page = " ".join(body(signed_in.get(look)).decode().split())
    assert "0 of 3 sheets" in page
    assert "3 of 3 sheets lack something." in page


def test_envelopes_and_labels_are_for_whom_the_post_reaches(signed_in: Client, desk: Desk, givers: Any) -> None:
    batch = thanks_batch(desk)
    pages = PdfReader(io.BytesIO(body(signed_in.get(reverse("outreach:batch-envelopes", args=[batch.pk]))))).pages
    assert ["Bluebird" in pages[0].extract_text(), "Marigold" in pages[1].extract_text(), len(pages)] == [True, True, 2]
    page = flat(signed_in.get(reverse("outreach:label-sheet"), {"of": "batch", "batch": batch.pk}))
    assert "2 labels." in page
    assert "No street or no city, so no label: Quill Printing" in page
    narrowed = flat(signed_in.get(reverse("outreach:label-sheet"), {"of": "partners", "q": "bluebird"}))
    assert "1 label." in narrowed


def test_an_envelope_comes_from_the_school_whose_letter_is_in_it(
    signed_in: Client, desk: Desk, givers: list[Partner]
) -> None:
    ridge = people.make_school(desk.program, "North Ridge", street="220 Ridge Avenue", city="Alder Falls")
    Gift.objects.filter(partner=givers[0]).update(school=ridge)
    batch = thanks_batch(desk)
    pages = PdfReader(io.BytesIO(body(signed_in.get(reverse("outreach:batch-envelopes", args=[batch.pk]))))).pages
    assert [("North Ridge" in page.extract_text(), "Millrace" in page.extract_text()) for page in pages] == [
        (False, True), (True, False),
    ]  # fmt: skip
    gift = Gift.objects.get(partner=givers[0])
    page = flat(signed_in.get(reverse("outreach:document-prepare", args=["gratitude-letter", gift.pk])))
    assert reverse("outreach:document", args=["envelope", givers[0].pk]) + f"?school={ridge.pk}" in page


def test_the_address_of_labels_remembers_its_measures(signed_in: Client, desk: Desk, givers: Any) -> None:
    first = signed_in.get(reverse("outreach:label-sheet"), {"of": "partners"})
    ready = first.context["ready"][3][1]
    again = signed_in.get(reverse("outreach:label-sheet") + ready)
    assert (again.context["facts"].grid.count, again.context["form"]["columns"].value()) == (10, "2")
    sheet = signed_in.get(again.context["print"].replace("start=1", "start=9"))
    assert len(PdfReader(io.BytesIO(sheet.content)).pages) == 1
    assert "Bluebird" in PdfReader(io.BytesIO(sheet.content)).pages[0].extract_text()
    assert "fit" in flat(signed_in.get(reverse("outreach:label-sheet"), {"columns": "99"}))


def test_who_may_not(client: Client, grace: Membership, otto: Membership, desk: Desk, givers: Any) -> None:
    batch = thanks_batch(desk)
    names = ("detail", "edit", "look", "file", "envelopes")
    type(grace).objects.filter(pk=grace.pk).update(opened=["letters"])
    pages = [reverse(f"outreach:batch-{name}", args=[batch.pk]) for name in names]
    assert {status(client, page) for page in pages} == {302}
    assert {status(enter(client, grace), page) for page in pages} == {403}
    enter(client, otto)
    assert {status(client, page) for page in pages} == {404}
    assert status(client, reverse("outreach:batch-detail", args=[UNKNOWN])) == 404
    assert status(client, reverse("outreach:batch-went", args=[batch.pk])) == 405
    assert status(client, reverse("outreach:document", args=["labels", 0]) + f"?of=batch&batch={batch.pk}") == 404


def test_a_file_asks_for_no_more_queries_a_sheet_when_it_grows(signed_in: Client, desk: Desk, givers: Any) -> None:
    batch = thanks_batch(desk)
    counts = []
    for more in (0, 6):
        for number in range(more):
            come(desk, make_partner(desk.program, f"Shop {number}"))
        batch = thanks_batch(desk)
        with CaptureQueriesContext(connection) as caught:
            body(signed_in.get(reverse("outreach:batch-file", args=[batch.pk])))
        counts.append((len(caught), batch.letters.count()))
    (few, short), (many, long) = counts
    assert (many - few) / (long - short) <= 8


def test_a_file_that_is_sent_on_holds_the_same_bytes() -> None:
    """Written to a file and sent piece by piece: one is the other's check."""
    many = [thanking(LETTER, partner=f"Shop {number}") for number in range(50)]
    pieces = list(gratitude_letter.stream(iter(many)))
    assert len(pieces) == 4
    assert pieces[0].startswith(b"%PDF-1.7")
    assert b"".join(pieces) == gratitude_letter.draw_many(many)
    with pytest.raises(ValueError, match="nothing to draw"):
        list(gratitude_letter.stream(iter([])))
