"""A sentence about a project is asked back where a child's name seems to stand in it; the rule is common practice."""

from __future__ import annotations

import doctest

import pytest

from partners.school import names_hint
from partners.school.names_hint import names_hinted, words_of


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Ninety-six painted planters now stand on the porches of Canal Street.", []),
        ("Every one of 604 students had a framed picture in the winter show at the library.", []),
        ("Forty children planted a garden of pots.", []),
        ("Clay leaves hang in the hall of Millrace Elementary since May.", []),
        ("Planters stand there. Everyone painted one.", []),
        ("Emma painted the largest pot.", ["Emma"]),
        ("The largest pot was painted by Emma.", ["Emma"]),
        ("Emma and Luis Ortega made a mural.", ["Luis Ortega"]),
        ("Emma's mural hangs at the bakery.", ["Emma's"]),
        ("Forty pots, one by José, one by Zoë Quill.", ["José", "Zoë Quill"]),
        ("A mural for Riverbend.", ["Riverbend"]),
        ("", []),
        ("42", []),
    ],
)
def test_names_are_noticed_and_places_are_not(text: str, names: list[str]) -> None:
    assert names_hinted(text) == names


def test_names_of_the_book_are_no_childs() -> None:
    assert names_hinted("A mural for Riverbend Garden Center.", words_of("Riverbend Garden Center")) == []
    assert names_hinted("A mural at Millrace, with Theo Brandt.", words_of("Millrace Elementary", "Theo Brandt")) == []


def test_examples_in_the_module_hold() -> None:
    assert doctest.testmod(names_hint).failed == 0
