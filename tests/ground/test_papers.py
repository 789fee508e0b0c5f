"""A PDF written anew, looked at with another reader than the one that wrote it (PDFium)."""

from __future__ import annotations

from typing import Any

import pypdfium2  # type: ignore[import-untyped]
import pytest
from PIL import Image, ImageChops, ImageStat

from partners.ground.papers import written_anew
from tests.ground import sent_files as sent

SECRETS = (b"quayscript", b"quayprogram", b"quaylink", b"Quay", b"JavaScript", b"/Annots", b"/Producer")


@pytest.fixture(scope="module")
def before() -> bytes:
    return sent.letter()


@pytest.fixture(scope="module")
def after(before: bytes) -> bytes:
    return written_anew(before)


def looked_at(pdf: bytes) -> Any:
    document = pypdfium2.PdfDocument(pdf)
    document.init_forms()
    return document


def most_differing(one: Image.Image, other: Image.Image) -> float:
    return ImageStat.Stat(ImageChops.difference(one, other)).extrema[0][1]


def pictures(pdf: bytes) -> list[bytes]:
    """The photographs of the first page as the file holds them."""
    found = looked_at(pdf)[0].get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE])
    return [bytes(one.get_data(decode_simple=True)) for one in found]


def test_it_shows_the_same_also_what_was_typed_into_a_form(before: bytes, after: bytes) -> None:
    # Letters in a form's field are smoothed a little differently from those of the page.
    pages = [looked_at(pdf)[0].render(scale=1).to_pil().convert("L").reduce(4) for pdf in (before, after)]
    assert most_differing(*pages) < 40
    empty = looked_at(written_anew(sent.letter(typed="")))[0].render(scale=1).to_pil().convert("L").reduce(4)
    assert most_differing(pages[0], empty) > 80
    assert "typed by hand" in looked_at(after)[0].get_textpage().get_text_range()


def test_scripts_files_links_and_authors_stay_behind(before: bytes, after: bytes) -> None:
    assert {secret for secret in SECRETS if secret in before} >= {b"quayscript", b"quayprogram", b"Quay", b"/Annots"}
    assert not [secret for secret in SECRETS if secret in after]
    assert looked_at(before).count_attachments() == 1
    assert looked_at(after).count_attachments() == 0
    assert not any(looked_at(after).get_metadata_dict().values())


def test_photographs_on_its_pages_lose_what_the_camera_wrote(before: bytes, after: bytes) -> None:
    assert [b"Exif" in one and sent.COMMENT in one for one in pictures(before)] == [True]
    assert [b"Exif" in one or sent.COMMENT in one or b"xmpmeta" in one for one in pictures(after)] == [False]


def test_the_same_paper_is_the_same_bytes(before: bytes, after: bytes) -> None:
    assert written_anew(before) == after
