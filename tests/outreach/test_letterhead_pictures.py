"""Letterhead and signature as pictures on sheets: every shape fits, whose they are, how they are told and kept."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pytest
from django.test import Client
from django.urls import reverse

from outreach.batch_making import make_thanks
from outreach.batches import BatchSheets
from outreach.documents import gratitude_letter
from outreach.gathering.school import letterhead_picture
from outreach.page import INCH, LETTER, open_picture, overhear, window_reach
from outreach.page.sender import LOGO_HEIGHT, LOGO_WIDTH
from outreach.sheet_words import sheet_words
from partners.agenda.check_book import differences
from partners.directory.actions import add_partner
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.ground.pictures import Made, made_anew
from partners.letters.actions import keep_words
from partners.letters.batch_actions import edit_batch
from partners.letters.models import Batch
from partners.program.desk import Desk, Signer
from partners.program.letter_pictures import choose
from partners.program.models import Membership, Opened
from tests import people
from tests.ladder import enter, flat, status
from tests.outreach import sheets
from tests.outreach.letterheads import SHAPES, banner, hand, png, see_through, wheel
from tests.outreach.tagged import Tagged


def made(picture: Any) -> Made:
    return made_anew(png(picture))


def placed(pdf: bytes) -> list[tuple[float, float, float, float]]:
    """Left, top, right and bottom of each picture on the first page, in points from its upper left corner."""
    page = pypdfium2.PdfDocument(pdf)[0]
    high = page.get_height()
    kinds = [pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]
    bounds = [found.get_bounds() for found in page.get_objects(filter=kinds, max_depth=3)]
    return [(left, high - top, right, high - low) for left, low, right, top in bounds]


@pytest.mark.parametrize(
    ("shape", "alone"),
    [
        ("wheel", False),
        ("see-through", False),
        ("tower", False),
        ("tiny", True),
        ("ribbon", True),
        ("banner", True),
    ],
)
def test_any_shape_fits_its_place_above_the_window_of_an_envelope(shape: str, alone: bool) -> None:
    picture = open_picture(made(SHAPES[shape]).content, trimmed=True)
    head = replace(sheets.SCHOOL, logo=picture, alone=alone)
    printed = sheets.letter(replace(sheets.LETTER, letterhead=head))
    ((left, top, right, bottom),) = placed(printed.data)
    assert right - left <= (LETTER.text_width if alone else LOGO_WIDTH) + 0.01
    assert bottom - top <= LOGO_HEIGHT + 0.01
    assert (left >= LETTER.side - 0.01, bottom < window_reach(LETTER).top) == (True, True)
    assert (right - left) / (bottom - top) == pytest.approx(picture.width / picture.height, rel=0.02)
    assert len(printed.pages) == len(sheets.letter(sheets.LETTER).pages) == 1
    shown = [sign for sign in printed.signs() if sign.top < window_reach(LETTER).top / INCH]
    assert max(sign.bottom for sign in shown) < window_reach(LETTER).top / INCH


def test_a_picture_that_stands_alone_says_the_name_and_the_address_to_who_cannot_see_it() -> None:
    facts = replace(sheets.LETTER, letterhead=replace(sheets.SCHOOL, logo=open_picture(png(banner())), alone=True))
    figure = Tagged(gratitude_letter.draw(facts)).document.parts[0].parts[0]
    assert (figure.role, figure.text) == (
        "Figure", "Millrace Elementary, 12 Mill Street, Alder Falls, OR 97000, (201) 555-0110"
    )  # fmt: skip


@pytest.mark.parametrize("paper", ["#fbfaf7", "#c9c4b5"])
def test_the_paper_of_a_signature_is_as_white_as_the_letter_and_its_ink_stays(paper: str) -> None:
    picture = open_picture(made(hand(paper=paper)).content, trimmed=True, inked=True).image()
    corners = [picture.getpixel((x, 0)) for x in (picture.width // 2, picture.width - 1)]
    assert corners == [(255, 255, 255)] * 2
    assert min(picture.convert("L").tobytes()) < 60
    assert picture.width < 700


def test_the_name_is_said_once_in_a_mail() -> None:
    signed = replace(
        sheets.LETTER,
        letterhead=replace(sheets.SCHOOL, logo=open_picture(png(wheel()))),
        signature=open_picture(png(hand())),
    )
    (told,) = overhear(lambda: gratitude_letter.draw(signed))
    (plain,) = overhear(lambda: gratitude_letter.draw(sheets.LETTER))
    assert sheet_words(told) == sheet_words(plain)


@pytest.fixture
def gift(desk: Desk) -> Gift:
    school = people.make_school(desk.program, street="12 Mill Street", city="Alder Falls", state="OR")
    giver = add_partner(desk=desk, name="Bluebird Bakery")
    lines = [Line(description="boxes", quantity=6)]
    return receive(desk=desk, source="partner", partner=giver, day=desk.day, form="goods", lines=lines, school=school)


def prepare(gift: Gift) -> str:
    return reverse("outreach:document-prepare", args=["gratitude-letter", gift.pk])


def letter(client: Client, gift: Gift) -> bytes:
    return bytes(client.get(reverse("outreach:document", args=["gratitude-letter", gift.pk])).content)


@pytest.mark.django_db
def test_a_schools_own_letterhead_comes_before_the_programs(desk: Desk, gift: Gift) -> None:
    assert letterhead_picture(desk, gift.school) == (None, False)
    choose(desk=desk, use="letterhead", made=made(wheel()))
    assert letterhead_picture(desk, gift.school)[1] is False
    choose(desk=desk, use="letterhead", made=made(banner()), school=gift.school, alone=True)
    own, alone = letterhead_picture(desk, gift.school)
    of_all, _beside = letterhead_picture(desk, None)
    assert own is not None
    assert of_all is not None
    assert (alone, own.width > 4 * own.height, of_all.width == pytest.approx(of_all.height, rel=0.2)) == (True,) * 3


@pytest.mark.django_db
def test_the_signature_is_printed_where_it_is_ticked_and_else_there_is_room_to_sign(
    signed_in: Client, desk: Desk, gift: Gift
) -> None:
    assert "Print my signature" not in flat(signed_in.get(prepare(gift)))
    choose(desk=desk, use="signature", made=made(hand()))
    assert placed(letter(signed_in, gift)) == []
    page = signed_in.get(prepare(gift))
    typed = {name: page.context["form"][name].value() or "" for name in ("body", "enclosures", "language")}
    signed_in.post(prepare(gift), {**typed, "signed": "on"})
    assert len(placed(letter(signed_in, gift))) == 1
    assert signed_in.get(prepare(gift)).context["form"]["signed"].value() is True
    signed_in.post(prepare(gift), typed)
    assert placed(letter(signed_in, gift)) == []


@pytest.mark.django_db
def test_a_colleagues_sheet_tells_her_name_first_and_leaves_the_line_for_her_own_pen(
    client: Client, omar: Membership, desk: Desk, gift: Gift
) -> None:
    choose(desk=desk, use="signature", made=made(hand()))
    thanking = {"document": "gratitude-letter", "title": "Thanks", "words": {"signed": True}, "language": "en"}
    keep_words(desk=desk, key="gift", gift=gift, **thanking)
    assert "of June Castellanos, with the signature as a picture." in flat(enter(client, omar).get(prepare(gift)))
    Membership.objects.filter(pk=omar.pk).update(signs_as="Omar Whitfield")
    assert "It goes out under the name of Omar Whitfield." in flat(client.get(prepare(gift)))
    assert placed(letter(client, gift)) == []
    choose(desk=replace(desk, signer=Signer("Omar Whitfield")), use="signature", made=made(wheel()))
    assert len(placed(letter(client, gift))) == 1


@pytest.mark.django_db
def test_the_page_to_read_shows_both_and_a_guest_sees_them_only_there(
    client: Client, grace: Membership, desk: Desk, gift: Gift
) -> None:
    choose(desk=desk, use="letterhead", made=made(see_through()))
    grace.opened = [Opened.LETTERS, Opened.GIFTS]
    grace.save()
    address = reverse("outreach:document-page", args=["gratitude-letter", gift.pk])
    assert 'alt="Millrace Elementary"' in flat(enter(client, grace).get(address))
    assert status(client, reverse("program:letter-picture-list")) == 403


@pytest.mark.django_db
def test_a_batch_signs_all_or_none_and_holds_each_picture_once(desk: Desk, gift: Gift) -> None:
    choose(desk=desk, use="letterhead", made=made(banner()), alone=True)
    choose(desk=desk, use="signature", made=made(hand()))
    for number in range(5):
        receive(
            desk=desk, source="partner", partner=f"Shop {number}", day=desk.day, form="goods", school=gift.school,
            lines=[Line(description="pots", quantity=1)],
        )  # fmt: skip
    batch = make_thanks(desk, desk.day.replace(day=1))
    assert batch is not None
    for signed, pictures in ((False, 1), (True, 2)):
        edit_batch(desk=desk, batch=Batch.objects.get(), signed=signed)
        pdf = b"".join(BatchSheets(desk, Batch.objects.get()).file())
        assert (pdf.count(b"/Subtype /Image"), len(placed(pdf))) == (pictures, pictures)
        assert pypdfium2.PdfDocument(pdf).__len__() == 6
    assert differences(desk.program) == []
