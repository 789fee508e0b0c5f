"""What is kept of a picture: its dots, upright; and what is not kept at all, with the reason."""

from __future__ import annotations

import contextlib
import io
from collections.abc import Callable, Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageStat

from partners.ground.pictures import LONGEST_SIDE, MOST_BYTES, Made, made_anew
from partners.ground.plain import PlainError
from tests.ground import sent_files as sent

# ITU-T T.81, table B.1: what a plain baseline JPEG is made of. APP0 is JFIF, which holds only its density.
PLAIN_MARKS = {0xE0, 0xDB, 0xC0, 0xC4, 0xDA}


def marks(jpeg: bytes) -> Iterator[int]:
    """The marks before the dots, read without Pillow."""
    at = 2
    while True:
        yield jpeg[at + 1]
        if jpeg[at + 1] == 0xDA:
            return
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big")


def opened(made: Made) -> Image.Image:
    return Image.open(io.BytesIO(made.content))


def test_what_a_phone_writes_beside_the_picture_is_gone() -> None:
    before = sent.photograph()
    kept = made_anew(before).content
    traces = (b"Exif", b"GPS", b"xmpmeta", b"ns.adobe.com", b"ICC_PROFILE", sent.MAKER.encode(), sent.COMMENT, sent.XMP)
    assert {b"Exif", b"xmpmeta", sent.MAKER.encode(), sent.COMMENT} <= {trace for trace in traces if trace in before}
    assert not [trace for trace in traces if trace in kept]
    assert set(marks(kept)) <= PLAIN_MARKS
    assert not set(marks(before)) <= PLAIN_MARKS
    assert not Image.open(io.BytesIO(kept)).getexif()


def test_a_picture_is_turned_upright() -> None:
    """Orientation 6 (Exif 2.3, 4.6.4): the first row is the right side, so the red left third comes to the top."""
    picture = opened(made_anew(sent.photograph(60, 40))).convert("RGB")
    assert picture.size == (40, 60)
    assert ImageStat.Stat(picture.crop((5, 2, 35, 12))).median[0] > 150
    assert ImageStat.Stat(picture.crop((5, 2, 35, 12))).median[2] < 90
    assert min(ImageStat.Stat(picture.crop((5, 35, 35, 55))).median) > 200


def test_a_large_picture_is_made_smaller_and_keeps_its_shape() -> None:
    assert opened(made_anew(sent.photograph(4200, 2100))).size == (LONGEST_SIDE // 2, LONGEST_SIDE)


@pytest.mark.parametrize(
    ("mode", "kind"),
    [("RGBA", "PNG"), ("P", "PNG"), ("LA", "PNG"), ("1", "PNG"), ("I;16", "PNG"), ("CMYK", "JPEG"), ("RGBA", "WEBP")],
)
def test_every_usual_picture_is_kept_as_jpeg(mode: str, kind: str) -> None:
    made = made_anew(sent.saved(Image.new(mode, (50, 40)), kind))
    assert made.kind == "picture"
    assert opened(made).format == "JPEG"
    assert opened(made).size == (50, 40)


def test_of_a_phones_double_picture_the_first_is_kept() -> None:
    assert opened(made_anew(sent.moving("MPO"))).size == (9, 9)


def test_what_shows_through_is_white() -> None:
    made = made_anew(sent.saved(Image.new("RGBA", (9, 9), (0, 0, 0, 0)), "PNG"))
    assert min(ImageStat.Stat(opened(made).convert("RGB")).median) > 250


@pytest.mark.parametrize(
    ("made", "code"),
    [
        (lambda: b"", "empty"),
        (lambda: bytes(MOST_BYTES + 1), "too_large"),
        (lambda: sent.png_that_claims(7_000, 7_000), "too_many_pixels"),
        (lambda: sent.png_that_claims(12_000, 12_000), "too_many_pixels"),
        (lambda: sent.png_that_claims(50_000, 50_000), "too_many_pixels"),
        (lambda: sent.photograph(900, 900)[:4000], "broken"),
        (lambda: b"\xff\xd8\xff" + b"no picture" * 40, "broken"),
        (lambda: sent.moving("GIF"), "moving"),
        (lambda: sent.moving("PNG"), "moving"),
        (lambda: sent.moving("WEBP"), "moving"),
        (lambda: b"\0\0\0\x18ftypheic" + bytes(90), "heic"),
        (lambda: b"MZ\x90\0" + bytes(90), "program"),
        (lambda: b"#!/bin/sh\nrm", "program"),
        (lambda: b"PK\x03\x04" + bytes(90), "office"),
        (lambda: b"<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>", "drawn"),
        (lambda: b"\xef\xbb\xbf\n<!doctype html><script>x()</script>", "drawn"),
        (lambda: b"only words", "kind"),
        (sent.locked, "locked"),
        (lambda: sent.letter()[:2000], "broken"),
        (lambda: b"%PDF-1.7 and no more", "broken"),
    ],
)
def test_what_cannot_be_kept_is_refused_with_its_reason(made: Callable[[], bytes], code: str) -> None:
    with pytest.raises(PlainError) as refused:
        made_anew(made())
    assert refused.value.code == code
    assert str(refused.value).endswith(".")


STARTS = [b"", b"\xff\xd8\xff\xe0", b"\x89PNG\r\n\x1a\n", b"%PDF-1.7\n", b"RIFF0000WEBP"]


@given(st.binary(max_size=400), st.sampled_from(STARTS))
def test_any_bytes_are_kept_or_refused_in_words(tail: bytes, start: bytes) -> None:
    """Nothing but a plain refusal comes out, whatever is sent."""
    with contextlib.suppress(PlainError):
        assert made_anew(start + tail).kind in ("picture", "pdf")
