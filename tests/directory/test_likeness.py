import pytest

from partners.directory.likeness import core_of, likeness
from partners.ground.names import name_key


def test_case_accents_and_signs_make_no_difference() -> None:
    assert likeness("Café Núñez", "CAFE  NUNEZ") == 1.0


def test_a_name_without_letters_is_like_nothing() -> None:
    assert likeness("", "") == likeness("?", "?") == likeness("", "Bluebird") == 0.0


@pytest.mark.parametrize(
    ("name", "core"),
    [
        ("The Bluebird Bakery, LLC", "bluebird bakery"),
        ("Smith & Co.", "smith"),
        ("Tamarack Hardware Company, Inc.", "tamarack hardware"),
        ("2nd St. Market", "second street market"),
        ("St. Mary's", "st marys"),
        ("The Co.", "the"),
        ("Inc.", "inc"),
        ("", ""),
    ],
)
def test_articles_and_forms_of_business_are_tamed(name: str, core: str) -> None:
    assert core_of(name_key(name)) == core
