import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.ground.names import KEY_LENGTH, fold, name_key


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("", ""),
        ("  ", ""),
        ("?!", ""),
        ("José Núñez", "jose nunez"),
        ("Nguyễn Thị Đào", "nguyen thi dao"),
        ("STRASSE", "strasse"),
        ("Straße", "strasse"),
        ("Søren Łukasz Đặng", "soren lukasz dang"),
        ("Æsop & Œuvre", "aesop and oeuvre"),
        ("İzmir ılık", "izmir ilik"),
        ("O’Neill's  Café-Bar", "oneills cafe bar"),
        ("A.B.C. Hardware, Co.", "abc hardware co"),
        ("St. Mary's", "st marys"),
        ("Ｆｕｌｌ　ｗｉｄｔｈ", "full width"),
        ("tab\tand\nline", "tab and line"),
        ("Bluebird\u200b Bakery\u200f", "bluebird bakery"),
        ("No. 7½", "no 71 2"),
        ("🎨 Art Corner", "art corner"),
    ],
)
def test_case_accents_and_signs_go(name: str, key: str) -> None:
    assert name_key(name) == key


@pytest.mark.parametrize("name", ["אבי כהן", "محمد علي", "Ελένη", "ताज महल", "がんばれ", "한국", "ไทย"])
def test_names_of_every_script_keep_their_letters(name: str) -> None:
    kept = name_key(name)
    assert len(kept.split()) == len(name.split())
    assert len(unicodedata.normalize("NFC", kept)) == len(unicodedata.normalize("NFC", name))


def test_points_of_right_to_left_names_go() -> None:
    assert name_key("מֹשֶׁה") == name_key("משה")
    assert name_key("مُحَمَّد") == name_key("محمد")


def test_a_key_fits_its_column_however_the_name_grows() -> None:
    assert len(name_key("\ufdfa" * 50)) <= KEY_LENGTH
    assert len(fold("\ufdfa" * 50)) > KEY_LENGTH


@given(st.text(max_size=60))
def test_folding_twice_changes_nothing(text: str) -> None:
    assert name_key(name_key(text)) == name_key(text)


@given(st.text(max_size=60))
def test_composed_and_decomposed_spellings_have_one_key(text: str) -> None:
    assert fold(unicodedata.normalize("NFD", text)) == fold(unicodedata.normalize("NFC", text))


@given(st.text(max_size=60))
def test_keys_are_trimmed_and_single_spaced(text: str) -> None:
    assert " ".join(name_key(text).split()) == name_key(text)
