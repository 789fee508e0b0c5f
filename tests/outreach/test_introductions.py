"""Letters of who takes over are a batch: of whose name, of which school, gone out but for what is still here."""

from __future__ import annotations

from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from outreach.batch_making import make_introductions, make_year_end, up_to_date
from partners.agenda.check_book import differences
from partners.letters.models import Batch
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.promises.actions import promise
from partners.school.models import School
from partners.year.span import spans
from tests import people
from tests.ladder import enter, flat
from tests.outreach.batch_book import body, come, titles, went
from tests.outreach.sheets import Printed

pytestmark = pytest.mark.django_db
LIST, NOBODY = "outreach:batch-list", "There is nothing to write"


@pytest.fixture
def ridge(desk: Desk) -> School:
    """Of two schools; each has a giver, and one gave to both."""
    here, ridge = (people.make_school(desk.program, name) for name in ("Millrace Elementary", "North Ridge"))
    for name, what, school in (("Quill Printing", "paper", here), ("Tile House", "tiles", ridge)):
        come(desk, people.make_partner(desk.program, name), what=what, school=school)
    both = people.make_partner(desk.program, "Garden Center")
    for what, school in (("soil", ridge), ("twine", here)):
        promise(
            desk=desk, partner=both, side="them", what=what, made_on=desk.day, due=people.TUESDAY.replace(month=12),
            school=school,
        )  # fmt: skip
    return ridge


def words(answer: Any) -> str:
    return " ".join(Printed(body(answer)).text.split())


def test_a_colleague_introduces_herself_to_the_partners_of_her_school_whoever_prints_it(
    client: Client, desk: Desk, ridge: School, june: Membership, omar: Membership
) -> None:
    own = {"signs_as": "Omar Whitfield", "phone": "(201) 555-0117", "school_ids": [ridge.pk]}
    Membership.objects.filter(pk=omar.pk).update(**own)
    typed = {"kind": "intro", "former": "June Castellanos"}
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        enter(client, omar).post(reverse(LIST), typed)
        batch = Batch.objects.get()
        page, printed = (
            enter(client, june).get(reverse(f"outreach:batch-{name}", args=[batch.pk])) for name in ("detail", "file")
        )
        sheet = words(printed)
    assert titles(desk, batch) == ["Letter of who takes over: Garden Center", "Letter of who takes over: Tile House"]
    assert "It goes out under the name of Omar Whitfield." in flat(page)
    assert "I now teach art at North Ridge in place of June Castellanos." in sheet
    assert "soil" in sheet
    assert "twine" not in sheet
    assert sheet.count("(201) 555-0117") == 2


def test_all_but_the_ticked_went_out_and_they_are_not_written_again(
    signed_in: Client, desk: Desk, ridge: School
) -> None:
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        signed_in.post(reverse(LIST), {"kind": "intro", "school": "", "former": ""})
        batch = Batch.objects.get()
        assert batch.get_absolute_url() in flat(signed_in.get(reverse("agenda:today")))
        still = batch.letters.get(partner__name="Tile House")
        went(signed_in, batch, still)
        again = flat(signed_in.post(reverse(LIST), {"kind": "intro", "school": ridge.pk, "former": ""}, follow=True))
        assert titles(desk, batch) == [still.title]
        assert NOBODY in again
        went(signed_in, batch)
    batch.refresh_from_db()
    assert batch.settled_on is not None
    assert differences(desk.program) == []


def test_what_is_typed_on_one_letter_leaves_it_who_it_was_in_its_batch(
    signed_in: Client, desk: Desk, ridge: School
) -> None:
    batch = make_introductions(desk, ridge, "Omar Whitfield", "June Castellanos")
    assert batch is not None
    letter = batch.letters.get(partner__name="Tile House")
    page = reverse("outreach:document-prepare", args=["introduction-letter", letter.partner_id])
    shown = signed_in.get(page)
    assert f"{reverse('outreach:document', args=['envelope', letter.partner_id])}?school={ridge.pk}" in flat(shown)
    assert "is not tax advice" not in flat(shown)
    form = shown.context["form"]
    typed = {name: form[name].value() for name in ("body", "enclosures", "language")}
    signed_in.post(page, {**typed, "former": "Ana Ruiz"})
    letter.refresh_from_db()
    told = {name: letter.words[name] for name in ("teacher", "school", "former", "paragraphs")}
    assert told == {"teacher": "Omar Whitfield", "school": ridge.pk, "former": "Ana Ruiz", "paragraphs": []}


def test_a_batch_brought_up_to_date_by_a_teacher_of_one_school_keeps_the_sheets_of_the_other(
    client: Client, desk: Desk, ridge: School, omar: Membership
) -> None:
    batch = make_introductions(desk, None, "June Castellanos")
    assert batch is not None
    batch.letters.filter(partner__name="Quill Printing").update(school=School.objects.exclude(pk=ridge.pk).get())
    Membership.objects.filter(pk=omar.pk).update(school_ids=[ridge.pk])
    before = titles(desk, batch)
    enter(client, omar).post(reverse("outreach:batch-renew", args=[batch.pk]))
    assert titles(desk, batch) == before
    assert "2 of 2 sheets still here" in flat(client.get(reverse(LIST)))
    batch.letters.exclude(partner__name="Quill Printing").delete()
    assert str(batch) not in flat(client.get(reverse(LIST)))
    assert str(batch) not in flat(client.get(reverse("agenda:review")))


def test_a_teacher_of_one_school_takes_nothing_out_of_a_batch_of_all_and_makes_it_no_letter_of_theirs(
    client: Client, desk: Desk, ridge: School, omar: Membership
) -> None:
    (year,) = [span for span in spans(desk) if span.goes_on(desk.day)]
    made = [make_introductions(desk, None, "June Castellanos", "Ana Ruiz"), make_year_end(desk, year)]
    before = [(titles(desk, batch), [one.words for one in batch.letters.order_by("pk")]) for batch in made if batch]
    assert [len(names) for names, _words in before] == [3, 2]
    Membership.objects.filter(pk=omar.pk).update(school_ids=[ridge.pk])
    enter(client, omar)
    for batch in made:
        client.post(reverse("outreach:batch-renew", args=[batch and batch.pk]))
    assert before == [
        (titles(desk, batch), [one.words for one in batch.letters.order_by("pk")]) for batch in made if batch
    ]


def test_in_place_of_whom_one_letter_says_stays_with_it_when_its_batch_is_brought_up_to_date(
    desk: Desk, ridge: School
) -> None:
    batch = make_introductions(desk, ridge, "Omar Whitfield", "June Castellanos")
    assert batch is not None
    own = batch.letters.get(partner__name="Tile House")
    own.words["former"] = "Ana Ruiz"
    own.save()
    up_to_date(desk, batch)
    told = {one.partner.name: one.words["former"] for one in batch.letters.select_related("partner")}
    assert told == {"Garden Center": "June Castellanos", "Tile House": "Ana Ruiz"}
