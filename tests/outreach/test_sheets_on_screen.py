"""From a page of the book to paper: two clicks, gaps told before, words changed, frozen when it goes out."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from outreach.documents import leave_behind
from outreach.mending import way
from outreach.preparing import prepare
from outreach.wording.counts import Item
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift, Thanks
from partners.letters.actions import keep_words
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.promises.actions import promise
from partners.promises.models import Side
from partners.school.approval_actions import add_approval
from partners.school.project_actions import add_project
from partners.wish_list.actions import add_need, edit_need
from tests.outreach.sheets import Printed, pages_of
from tests.people import make_partner, make_school

pytestmark = pytest.mark.django_db


@pytest.fixture
def gift(desk: Desk) -> Gift:
    make_school(desk.program, legal_name="Alder Falls School District", ein="00-0000000")
    partner = make_partner(desk.program)
    lines = [Line(description="terracotta pots", quantity=60)]
    return receive(desk=desk, source="partner", partner=partner, day=desk.day, form="goods", lines=lines)


def address(name: str, slug: str, pk: int) -> str:
    return reverse(f"outreach:{name}", kwargs={"slug": slug, "pk": pk})


def text_of(pdf: bytes) -> str:
    return " ".join(pages_of(pdf))


@pytest.mark.parametrize("slug", ["leave-behind", "gratitude-letter"])
def test_two_clicks_from_the_page_to_paper(signed_in: Client, gift: Gift, slug: str) -> None:
    about = gift.partner if slug == "leave-behind" else gift
    assert about is not None
    page = signed_in.get(about.get_absolute_url()).content.decode()
    prepare = address("document-prepare", slug, about.pk)
    assert prepare in page
    paper = address("document", slug, about.pk)
    assert paper in signed_in.get(prepare).content.decode()
    answer = signed_in.get(paper)
    assert answer["Content-Type"] == "application/pdf"
    assert "Riverbend Garden Center" in text_of(answer.content)


def test_what_they_promised_already_is_not_asked_for_again(desk: Desk) -> None:
    partner = make_partner(desk.program)
    pots, soil = (add_need(desk=desk, what=what, quantity=40) for what in ("terracotta pots", "potting soil"))
    made = {"desk": desk, "partner": partner, "made_on": desk.day, "due": desk.day, "quantity": 40}
    promise(side=Side.THEM, what="terracotta pots", need=pots, **made)
    assert prepare(desk, "leave-behind", partner.pk).facts.asks == (Item("potting soil", 40),)
    promise(side=Side.THEM, what="potting soil", need=soil, **made)
    assert prepare(desk, "leave-behind", partner.pk).facts.asks == ()


def test_a_sheet_without_a_name(signed_in: Client, gift: Gift) -> None:
    answer = signed_in.get(address("document", "leave-behind", 0))
    assert "A request from our art room" in text_of(answer.content)


def test_a_sheet_for_all_schools_names_them_and_whose_yes_it_has(desk: Desk, gift: Gift) -> None:
    first, other = desk.schools.get(), make_school(desk.program, name="Tamarack School")
    add_approval(desk=desk, school=first, what_for="asking", by="Maria Ortega", on=desk.day)
    prepared = prepare(desk, "leave-behind", gift.partner_id or 0)
    told = Printed(leave_behind.draw(prepared.facts)).text
    for said in (desk.program.name, f"{first.name} · {other.name}", f"Approved by Maria Ortega ({first.name})"):
        assert said in " ".join(told.split())
    (gap,) = (one for one in prepared.gaps() if one.code == "no-approval-there")
    assert str(gap.words) == "No approval for asking is recorded at Tamarack School."
    add_approval(desk=desk, school=other, what_for="asking", by="Maria Ortega", on=desk.day)
    assert prepare(desk, "leave-behind", 0).facts.approved_by == "Maria Ortega"
    assert prepare(desk, "leave-behind", 0).gather({"school": other.pk}).letterhead.school == "Tamarack School"


def test_a_gap_leads_to_where_it_is_mended(signed_in: Client, desk: Desk, gift: Gift) -> None:
    project = add_project(desk=desk, title="Planters", students=20)
    Gift.objects.filter(pk=gift.pk).update(project=project)
    page = signed_in.get(address("document-prepare", "gratitude-letter", gift.pk)).content.decode()
    for mended in (
        reverse("school:project-became", args=[project.pk]),
        reverse("directory:partner-edit", args=[gift.partner_id]),
    ):
        assert f'<a href="{mended}">' in page


def test_what_a_first_sheet_lacks_leads_to_the_settings_and_the_school(desk: Desk) -> None:
    school, need = make_school(desk.program), add_need(desk=desk, what="pots", quantity=40)
    sheet = prepare(desk, "leave-behind", 0)
    ways = {gap.code: found.url for gap in sheet.gaps() if (found := way(sheet, gap))}
    assert ways["no-needed-by"] == f"/wish-list/{need.pk}/#id_needed_by"
    assert ways["no-program"] == f"/schools/{school.pk}/#classes"
    assert ways["no-tax-line"] == f"/schools/{school.pk}/edit/#id_tax_line"
    assert ways["no-approval"] == f"/schools/{school.pk}/#approvals"
    assert ways["no-contact"] == "/settings/#id_phone"


def test_gaps_are_told_before_printing(signed_in: Client, gift: Gift) -> None:
    page = signed_in.get(address("document-prepare", "leave-behind", gift.partner_id or 0)).content.decode()
    assert "Nothing is asked for. Choose a need." in page
    assert "No approval is recorded for asking." in page


def test_changed_words_are_printed(signed_in: Client, gift: Gift) -> None:
    place = address("document-prepare", "gratitude-letter", gift.pk)
    body = "Thank you for the 60 terracotta pots of October 6, 2026.\n\nEvery one has a zinnia in it now."
    assert signed_in.post(place, {"body": body, "language": "en"}).status_code == 302
    pdf = signed_in.get(address("document", "gratitude-letter", gift.pk)).content
    assert "Every one has a zinnia in it now." in text_of(pdf)


def test_words_that_nobody_touched_follow_the_language(signed_in: Client, desk: Desk, gift: Gift) -> None:
    place = address("document-prepare", "gratitude-letter", gift.pk)
    body = "\n\n".join(prepare(desk, "gratitude-letter", gift.pk).facts.body)
    assert signed_in.post(place, {"body": body, "language": "es"}).status_code == 302
    assert prepare(desk, "gratitude-letter", gift.pk).facts.body[0].startswith("Gracias por lo que")


def test_a_title_and_an_office_are_spanish_on_a_spanish_letter_or_told_as_typed(desk: Desk, gift: Gift) -> None:
    school = desk.schools.get()
    school.receipts_by = "the district business office"
    school.save()
    desk.gifts.update(school=school)
    words = {"language": "es"}
    keep_words(desk=desk, document="gratitude-letter", title="", words=words, language="es", key="gift", gift=gift)
    for title, said, told in (("Art teacher", "Docente de arte", 0), ("Lead art teacher", "Lead art teacher", 1)):
        desk.program.title = title
        prepared = prepare(desk, "gratitude-letter", gift.pk)
        text = text_of(prepared.module.draw(prepared.facts))
        assert said in text
        assert "Los recibos los emite la oficina administrativa del distrito." in " ".join(text.split())
        assert sum(gap.code == "as-typed" for gap in prepared.gaps()) == told


@pytest.mark.parametrize(
    "forbidden",
    ["Your pots are worth $180.", "Could you also give us forty bags of soil next month?"],
)
def test_what_must_not_stand_in_thanks_is_stopped_and_nothing_is_lost(
    signed_in: Client, gift: Gift, forbidden: str
) -> None:
    place = address("document-prepare", "gratitude-letter", gift.pk)
    answer = signed_in.post(place, {"body": f"Thank you for the pots. {forbidden}", "language": "en"})
    page = answer.content.decode()
    assert answer.status_code == 200
    assert 'aria-invalid="true"' in page
    assert forbidden in page
    assert not gift.letters.exists()


def test_what_went_out_stays_as_it_was_printed(signed_in: Client, gift: Gift) -> None:
    partner = gift.partner
    assert partner is not None
    signed_in.post(address("document-hand-over", "gratitude-letter", gift.pk), {"state": "mailed"})
    letter = gift.letters.get()
    printed = signed_in.get(reverse("letters:letter-pdf", args=[letter.pk])).content
    type(partner).objects.filter(pk=partner.pk).update(name="Another name")
    assert signed_in.get(reverse("letters:letter-pdf", args=[letter.pk])).content == printed
    assert "Riverbend Garden Center" in text_of(printed)
    assert Thanks.objects.get(gift=gift).done_on is not None


def test_handing_over_needs_to_say_how(signed_in: Client, gift: Gift) -> None:
    signed_in.post(address("document-hand-over", "gratitude-letter", gift.pk), {"state": "draft"})
    assert not gift.letters.exists()


def test_double_tap_on_handing_over_keeps_one_letter(signed_in: Client, gift: Gift) -> None:
    for _time in range(2):
        given = {"state": "mailed", "once": "one token"}
        signed_in.post(address("document-hand-over", "gratitude-letter", gift.pk), given)
    assert gift.letters.count() == 1


def test_guest_reads_the_register_but_writes_nothing(client: Client, grace: Membership, gift: Gift) -> None:
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    type(grace).objects.filter(pk=grace.pk).update(opened=["letters"])
    assert client.get(reverse("letters:letter-list")).status_code == 200
    assert client.get(address("document-prepare", "gratitude-letter", gift.pk)).status_code == 403
    assert client.post(address("document-hand-over", "gratitude-letter", gift.pk)).status_code == 403


def test_unknown_sheet_is_not_there(signed_in: Client, gift: Gift) -> None:
    assert signed_in.get(address("document", "no-such-sheet", 1)).status_code == 404
    assert signed_in.get(address("document", "gratitude-letter", 999)).status_code == 404


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("form", ["goods", "money", "service", "space", "discount", "loan"])
def test_our_own_wording_is_never_stopped(desk: Desk, form: str, language: str) -> None:
    make_school(desk.program)
    came: dict[str, Any] = {"form": form, "lines": [Line(description="terracotta pots", quantity=60)]}
    if form == "money":
        came = {"form": form, "amount_cents": 30000, "money_kind": "check"}
    gift = receive(desk=desk, source="partner", partner=make_partner(desk.program), day=desk.day, **came)
    prepared = prepare(desk, "gratitude-letter", gift.pk)
    assert [gap.code for gap in prepared.gaps(prepared.gather({"language": language})) if gap.stops] == []


def test_a_smaller_alternative_that_has_become_more_is_not_printed(desk: Desk, gift: Gift) -> None:
    need = add_need(desk=desk, what="terracotta pots", unit="pots", quantity=67, smaller="50 pots", on_hand=0)
    sheet = prepare(desk, "leave-behind", gift.partner_id or 0)
    assert sheet.facts.smaller == Item("50 pots")
    edit_need(desk=desk, need=need, on_hand=50)
    assert prepare(desk, "leave-behind", gift.partner_id or 0).facts.smaller is None
