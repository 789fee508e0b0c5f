import pytest

from partners.gifts.letter_phrases import (
    asks_inside,
    calls_deductible,
    nothing_in_return,
    value_in_text,
)
from tests.gifts.sentences import ASKS, GOOD_THANKS, NOTHING, OBLIQUE_ASKS, VALUES, lines


@pytest.mark.parametrize("search", [value_in_text, nothing_in_return, asks_inside, calls_deductible])
def test_good_sentences_pass(search: object) -> None:
    assert callable(search)
    assert len(lines(GOOD_THANKS)) > 100
    assert [line for line in lines(GOOD_THANKS) if search(line)] == []


@pytest.mark.parametrize("line", lines(ASKS))
def test_asks_are_found(line: str) -> None:
    assert asks_inside(line)


@pytest.mark.parametrize("line", lines(OBLIQUE_ASKS))
def test_roundabout_asks_are_known_misses(line: str) -> None:
    assert asks_inside(line) == []


@pytest.mark.parametrize("line", lines(VALUES))
def test_values_are_found(line: str) -> None:
    assert value_in_text(line)


@pytest.mark.parametrize("line", lines(NOTHING))
def test_nothing_in_return_is_found(line: str) -> None:
    assert nothing_in_return(line)


@pytest.mark.parametrize(
    ("text", "snippets"),
    [
        ("paint worth $300 and wood", ["worth $300"]),
        ("a retail value of ＄80", ["retail value", "$80"]),
        ("un valor de $80", ["valor de $80"]),
        ("it is valued\nat 80", ["valued at"]),
        ("", []),
    ],
)
def test_snippets_are_told_in_order(text: str, snippets: list[str]) -> None:
    assert value_in_text(text) == snippets


@pytest.mark.parametrize(
    ("text", "is_called"),
    [
        ("Your gift is tax-deductible.", True),
        ("You may deduct this.", True),
        ("Su regalo es deducible de impuestos.", True),
        ("Your time is not tax-deductible.", False),
        ("Rent isn't deductible.", False),
        ("What may be deducted is limited to the payment less that value.", False),
        ("Lo que se puede deducir se limita al pago menos ese valor.", False),
        ("Usted puede deducir su regalo.", True),
    ],
)
def test_a_gift_is_called_deductible_unless_it_is_denied(text: str, is_called: bool) -> None:
    assert bool(calls_deductible(text)) is is_called
