"""Labels and envelopes measured on the printed page itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from outreach.documents import envelope, labels
from outreach.label_forms import LabelForm, first_values, label_words
from outreach.label_measures import LENGTHS, READY, Measures, grid_of
from outreach.page import A4, LETTER, Address
from outreach.page.label_grid import SMALLEST_HIGH, SMALLEST_WIDE
from tests.outreach.sheets import ADDRESS, LONG_NAME, LONG_PERSON, Printed

EVERY = [pytest.param(one, id=f"{one.paper} {one.size}") for sheets in READY.values() for one in sheets]
LONGEST = Address(
    LONG_PERSON, LONG_NAME, ("1200 North Riverbend Industrial Parkway, Building C, Suite 200",),
    "Alder Falls on the Lower Millrace", "OR", "97000-1234",
)  # fmt: skip


@pytest.mark.parametrize("one", EVERY)
def test_ready_made_measures_fill_their_paper_and_lie_in_its_middle(one: Measures) -> None:
    """The same margin at both sides, in eighths of an inch or tenths of a millimetre: so such sheets are cut."""
    grid, page = grid_of(one), LETTER if one.paper == "letter" else A4
    last = grid.box(grid.count - 1)
    assert (grid.page.width, grid.page.height) == (page.width, page.height)
    assert page.width - last.right == pytest.approx(grid.left, abs=0.3)
    assert page.height - last.bottom == pytest.approx(grid.top, abs=0.3)
    assert grid.width >= SMALLEST_WIDE
    assert grid.height >= SMALLEST_HIGH


@pytest.mark.parametrize("one", EVERY)
def test_no_sign_of_the_longest_address_leaves_its_label(one: Measures) -> None:
    grid = grid_of(one)
    printed = Printed(labels.draw(labels.Facts("en", grid, (LONGEST, ADDRESS))))
    boxes = [grid.box(place) for place in (0, 1)]
    for sign in printed.signs():
        inside = [
            box.left <= sign.left * 72 and sign.right * 72 <= box.right
            and box.top <= sign.top * 72 and sign.bottom * 72 <= box.bottom
            for box in boxes
        ]  # fmt: skip
        assert any(inside), sign


def test_what_is_too_long_for_a_label_is_named_and_what_fits_is_not() -> None:
    narrow, wide = (grid_of(READY["letter"][number]) for number in (6, 3))
    assert [gap.code for gap in labels.gaps(labels.Facts("en", narrow, (LONGEST,)))] == ["too-long"]
    assert labels.gaps(labels.Facts("en", wide, (LONGEST, ADDRESS))) == ()


def test_a_sheet_that_was_begun_is_used_from_the_label_that_is_said() -> None:
    grid = grid_of(READY["letter"][0])
    facts = labels.Facts("en", grid, tuple(replace(ADDRESS, person=f"Number {n}") for n in range(31)), start=29)
    printed = Printed(labels.draw(facts))
    assert [page.count("Number") for page in printed.pages] == [2, 29]
    first = min(printed.signs(), key=lambda sign: (sign.top, sign.left))
    assert (first.top * 72, first.left * 72) > (grid.box(28).top, grid.box(28).left)


def test_the_check_sheet_frames_every_label_and_says_how_to_look() -> None:
    grid = grid_of(READY["a4"][0])
    printed = Printed(labels.draw(labels.Facts("es", grid, check=True, start=3)))
    assert "Impreso al 100 %" in printed.text
    assert "3 · aquí empieza la impresión" in printed.text
    picture = printed.picture(dots=72)
    box = grid.box(grid.count - 1)
    edge = [picture.getpixel((round(box.left) + shift, round(box.top + box.height / 2))) for shift in (-1, 0, 1)]
    assert any(isinstance(dot, int) and dot < 128 for dot in edge)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"columns": "4"}, "columns"), ({"rows": "11"}, "rows"), ({"start": "31"}, "start"), ({"start": "0"}, "start"),
        ({"width": "0.3", "columns": "1"}, "width"), ({"height": "much"}, "height"), ({"left": "-1"}, "left"),
        ({"paper": "a5"}, "paper"), ({"width": "nan"}, "width"), ({"width": "inf"}, "width"),
    ],
)  # fmt: skip
def test_measures_that_cannot_be_are_said_at_their_field(changed: dict[str, str], field: str) -> None:
    typed = {name: str(value) for name, value in first_values("letter").items()}
    assert LabelForm(typed).is_valid()
    form = LabelForm({**typed, **changed})
    assert not form.is_valid()
    assert list(form.errors) == [field]
    assert "grid" not in label_words({**typed, **changed})


def test_the_form_shows_measures_that_are_valid_as_they_stand() -> None:
    for paper, sheets in READY.items():
        for number in range(len(sheets)):
            form = LabelForm(first_values(paper, number))
            assert form.is_valid(), form.errors
            told = [getattr(form.measures, name) for name in LENGTHS]
            assert told == pytest.approx([getattr(sheets[number], name) for name in LENGTHS], abs=0.0001)


@pytest.mark.parametrize("to", [ADDRESS, LONGEST, replace(ADDRESS, person="Á. Ñandú")])
def test_an_envelope_stands_as_the_post_reads_it(to: Address) -> None:
    """USPS DMM 202 (letters): a #10 envelope is 4-1/8 by 9-1/2 in, length by height 1.3 to 2.5; the address stands in
    the OCR read area, 1/2 in from the sides and 5/8 to 2-3/4 in above the lower edge; the lower right 4-3/4 by 5/8 in
    stays free for the barcode; type is at least 8 points. The last line is as USPS Publication 28 prints it.
    """
    sender = Address("June Castellanos", "Millrace Elementary", ("14 Millrace Road",), "Alder Falls", "OR", "97000")
    printed = Printed(envelope.draw(envelope.Facts("en", to, sender)))
    (page,) = printed.reader.pages
    wide, high = (float(side) / 72 for side in page.mediabox.upper_right)
    assert (wide, high) == pytest.approx((9.5, 4.125))
    assert 1.3 <= wide / high <= 2.5
    signs = printed.signs()
    delivery = [sign for sign in signs if sign.left > 3.95]
    returned = [sign for sign in signs if sign.left <= 3.95]
    assert all(sign.left >= 0.5 and sign.right <= wide - 0.5 for sign in delivery)
    assert all(high - sign.bottom >= 0.625 and high - sign.top <= 2.75 for sign in delivery)
    assert all(high - sign.bottom > 2.75 for sign in returned)
    assert "".join(sign.sign for sign in returned).startswith("JuneCastellanosMillrace")
    assert f"{to.city.upper()} OR" in printed.text
    assert min(sizes(page)) >= 8


def sizes(page: Any) -> list[float]:
    words = page.get_contents().get_data().decode("latin-1").split()
    return [float(words[place - 1]) for place, word in enumerate(words) if word == "Tf"]


def test_an_envelope_names_what_the_post_would_miss() -> None:
    bare = envelope.Facts("en", Address("Dana Whitlock"))
    assert [gap.code for gap in envelope.gaps(bare)] == ["no-street", "no-last-line", "no-sender"]
