"""The notice that thanks all families of a school: what it counts, whom it may not name, how long it gets."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from outreach.documents import family_thanks
from tests.outreach.sheets import SCHOOL, Printed

THANKS = family_thanks.Facts(
    "en", "letter", SCHOOL, date(2027, 5, 20), "June Castellanos", first=date(2026, 8, 1), last=date(2027, 5, 20),
    came=(
        family_thanks.Came("egg cartons", 340, 12, "cartones de huevos"),
        family_thanks.Came("yarn", 0, 3, "estambre"),
    ),
    became="Every class built a city.", became_es="Cada clase construyó una ciudad.",
)  # fmt: skip


def test_thanks_to_all_say_counts_and_what_it_became():
    english, spanish = Printed(family_thanks.draw(THANKS)).pages
    assert "340 egg cartons" in english
    assert "yarn" in english
    assert "0 yarn" not in english
    assert "cartones de huevos: 340" in spanish
    assert "Cada clase construyó una ciudad." in spanish
    assert [gap.code for gap in family_thanks.gaps(THANKS)] == []


@pytest.mark.parametrize(
    "became",
    [
        "Thanks to Ms. Prado we sew.",
        "The Prado family sent yarn.",
        "Gracias a la familia Prado.",
        "The wool is from Ana.",
    ],
)
def test_thanks_that_name_somebody_are_stopped(became):
    assert [gap.code for gap in family_thanks.gaps(replace(THANKS, became=became)) if gap.stops] == ["named"]


@pytest.mark.parametrize("paper", ["letter", pytest.param("a4", marks=pytest.mark.nightly)])
def test_sixty_things_still_make_a_proper_notice(paper):
    came = tuple(
        family_thanks.Came(f"thing number {number}", 1200 + number, 2, f"cosa {number}") for number in range(60)
    )
    sheet = Printed(family_thanks.draw(replace(THANKS, came=came, paper=paper)))
    assert all(f"thing number {number}" in sheet.text for number in range(60))
    assert "second-page" in [gap.code for gap in family_thanks.gaps(replace(THANKS, came=came, paper=paper))]
