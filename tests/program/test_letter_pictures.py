"""The letterhead and the signature as pictures: chosen, replaced, taken off, by whom, and what is refused."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from PIL import Image

from partners.ground.models import Event
from partners.ground.undo import undo
from partners.program import letter_pictures
from partners.program.actions import edit_program
from partners.program.desk import Desk
from partners.program.file_models import LetterPicture
from partners.program.keepers_changes import may_take_back
from partners.program.letter_pictures import may_sign, signature_bytes
from partners.program.models import Membership
from partners.program.signing import signer_of
from tests import people
from tests.ground import sent_files as sent
from tests.ladder import UNKNOWN, enter, flat, status
from tests.outreach.letterheads import banner, hand, png, see_through, wheel

pytestmark = pytest.mark.django_db
LIST = reverse("program:letter-picture-list")


def place(use: str = "letterhead", school: int = 0) -> str:
    return reverse("program:letter-picture-choose", args=[use, school])


def choose(client: Client, data: bytes, use: str = "letterhead", school: int = 0, **typed: Any) -> Any:
    file = SimpleUploadedFile("mill.png", data)
    return client.post(place(use, school), {"sent": file, **typed}, follow=True)


def test_a_letterhead_is_kept_clean_replaced_taken_off_and_each_is_undone(signed_in: Client, desk: Desk) -> None:
    choose(signed_in, sent.photograph())
    row = LetterPicture.objects.get()
    first, address = row.file_id, reverse("program:letter-picture", args=[row.pk])
    assert (Image.open(io.BytesIO(signed_in.get(address).content)).format, row.alone) == ("JPEG", False)
    assert address in flat(signed_in.get(LIST))
    choose(signed_in, png(see_through()), alone="on")
    row.refresh_from_db()
    assert (row.file_id != first, row.alone) == (True, True)
    signed_in.post(reverse("program:letter-picture-remove", args=[row.pk]))
    assert not LetterPicture.objects.exists()
    for expected in (row.file_id, first):
        undo(desk, Event.objects.filter(undoes=None, undone_by=None).latest("pk"))
        assert LetterPicture.objects.get().file_id == expected


def test_only_its_place_changes_where_no_other_picture_is_sent(signed_in: Client) -> None:
    choose(signed_in, png(wheel()))
    before = LetterPicture.objects.get()
    signed_in.post(place(), {"alone": "on"})
    after = LetterPicture.objects.get()
    assert (after.file_id, after.alone) == (before.file_id, True)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (sent.letter(), "Send it as a picture."),
        (png(Image.new("RGBA", (200, 90), "#ffffff80")), "nothing of this would show"),
        (b"MZ a program", "This is a program"),
    ],
)
def test_what_cannot_stand_on_paper_is_refused_in_words(signed_in: Client, data: bytes, words: str) -> None:
    assert words in flat(choose(signed_in, data))
    assert not LetterPicture.objects.exists()


@pytest.mark.parametrize(
    ("picture", "typed", "hint"), [(banner(), {}, 1), (banner(), {"alone": "on"}, 0), (wheel(), {}, 0)]
)
def test_a_very_wide_picture_that_is_not_marked_as_alone_is_asked_about(
    signed_in: Client, picture: Image.Image, typed: dict[str, str], hint: int
) -> None:
    assert flat(choose(signed_in, png(picture), **typed)).count("This picture is very wide") == hint


def test_of_two_who_choose_the_first_at_once_the_second_is_told(
    signed_in: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    choose(signed_in, png(wheel()))
    first = LetterPicture.objects.get()
    look, seen = letter_pictures.stored, [None, None]
    monkeypatch.setattr(letter_pictures, "stored", lambda *place: seen.pop() if seen else look(*place))
    told = choose(signed_in, png(hand()))
    assert (told.status_code, "Somebody else was faster" in flat(told)) == (409, True)
    assert LetterPicture.objects.get().file_id == first.file_id


def test_a_signature_is_that_of_one_person_alone(signed_in: Client, desk: Desk) -> None:
    choose(signed_in, png(hand()), "signature")
    assert may_sign(desk, "June Castellanos")
    assert not may_sign(desk, "Omar Reyes")
    edit_program(desk=desk, teacher="Omar Reyes")
    assert signature_bytes(desk, "Omar Reyes") is None
    assert "This is the signature of June Castellanos." in flat(signed_in.get(LIST))
    edit_program(desk=desk, teacher="")
    assert "whose name stands under letters" in flat(choose(signed_in, png(hand()), "signature"))


def test_a_colleague_who_signs_has_a_signature_of_their_own_and_no_other_picture(
    client: Client, june: Membership, omar: Membership, desk: Desk
) -> None:
    choose(enter(client, june), png(hand()), "signature")
    keepers_own = LetterPicture.objects.get()
    own = reverse("program:own-name")
    assert choose(enter(client, omar), png(hand()), "signature").status_code == 403
    assert "Your signature as a picture" not in flat(client.get(own))
    Membership.objects.filter(pk=omar.pk).update(signs_as="Omar Whitfield")
    assert "Letters do not carry" not in flat(choose(client, png(wheel()), "signature"))
    row = LetterPicture.objects.get(name="Omar Whitfield")
    assert reverse("program:letter-picture", args=[row.pk]) in flat(client.get(own))
    assert [status(client, reverse("program:letter-picture", args=[one.pk])) for one in (row, keepers_own)] == [
        200,
        403,
    ]
    assert (status(client, place()), status(client, LIST)) == (403, 403)
    assert "Signature of Omar Whitfield" in flat(enter(client, june).get(LIST))
    enter(client, omar).post(reverse("program:letter-picture-remove", args=[row.pk]))
    assert list(LetterPicture.objects.all()) == [keepers_own]


def test_who_calls_themselves_by_the_name_of_another_does_not_reach_their_signature(
    client: Client, june: Membership, omar: Membership
) -> None:
    choose(enter(client, june), png(hand()), "signature")
    row = LetterPicture.objects.get()
    chosen = Event.objects.latest("pk")
    Membership.objects.filter(pk=omar.pk).update(signs_as="June Castellanos")
    omar.refresh_from_db()
    enter(client, omar)
    picture, remove = (reverse(f"program:letter-picture{verb}", args=[row.pk]) for verb in ("", "-remove"))
    assert picture not in flat(client.get(reverse("program:own-name")))
    found = [
        status(client, picture),
        status(client, remove, "post"),
        choose(client, png(wheel()), "signature").status_code,
    ]
    assert found == [403] * 3
    assert not may_take_back(
        people.make_desk(june.program, user=omar.user, role=omar.role, signer=signer_of(omar)), chosen
    )
    assert LetterPicture.objects.get().file_id == row.file_id


def test_only_who_keeps_the_book_reaches_them(
    client: Client, june: Membership, omar: Membership, otto: Membership, grace: Membership
) -> None:
    school = people.make_school(june.program)
    choose(enter(client, june), png(wheel()), school=school.pk)
    row = LetterPicture.objects.get(school=school)
    picture = reverse("program:letter-picture", args=[row.pk])
    remove = reverse("program:letter-picture-remove", args=[row.pk])
    for member, answer in ((omar, 403), (grace, 403), (otto, 404)):
        enter(client, member)
        found = [status(client, picture), status(client, place(school=school.pk)), status(client, remove, "post")]
        assert found == [answer] * 3
    assert status(enter(client, june), place(school=UNKNOWN)) == 404
    assert status(client, place("signature", school.pk)) == 404
    assert status(client, place("seal")) == 404
