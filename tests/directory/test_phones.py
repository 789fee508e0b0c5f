import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.directory.phones import STORED_LENGTH, Phone, PhoneError, national, phone_key, read_phone, tel_link


def test_extensions_of_every_spelling_are_kept() -> None:
    for typed in ("202.555.0143 x 45", "(202) 555-0143 ext. 45", "+1 202 555 0143;ext=45", "202-555-0143 #45"):
        assert read_phone(typed).stored == "+12025550143;ext=45"


def test_a_number_of_another_country_shows_its_country() -> None:
    assert national(read_phone("+44 20 7946 0018").stored) == "+44 20 7946 0018"


def test_a_number_that_can_exist_but_is_not_in_use_is_told_and_kept() -> None:
    assert read_phone("555-0123") == Phone("+15550123", "", is_valid=False)
    assert national("+15550123") == "555-0123"


def test_a_local_number_links_as_a_local_number() -> None:
    assert tel_link("+15550123;ext=7") == "tel:555-0123;ext=7;phone-context=+1"


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("", "no_phone"),
        ("call mom", "no_phone"),
        ("911", "too_short"),
        ("12", "too_short"),
        ("1234567890123456", "too_long"),
        ("12345678901234567890", "too_long"),
        ("201-555-0123 / 0124", "too_long"),
        ("20155501234", "too_long"),
    ],
)
def test_what_cannot_be_a_number_is_refused_with_its_reason(typed: str, code: str) -> None:
    with pytest.raises(PhoneError) as refused:
        read_phone(typed)
    assert refused.value.code == code
    assert typed in str(refused.value)


def test_ways_of_writing_have_one_key() -> None:
    keys = {
        phone_key(typed)
        for typed in ("(201) 555-0123", "1-201-555-0123", "+12015550123;ext=4", "２０１ ５５５ ０１２３")
    }
    assert keys == {"+12015550123"}
    assert phone_key(" Ask at the Desk ") == "ask at the desk"


def test_what_was_kept_without_being_a_number_is_shown_as_it_is() -> None:
    assert national("ask at the desk") == "ask at the desk"
    assert tel_link("ask at the desk") == ""


@given(st.text(max_size=30) | st.text("0123456789 ().x+-;=ext#", max_size=40))
def test_what_is_kept_fits_and_is_read_back(typed: str) -> None:
    try:
        phone = read_phone(typed)
    except PhoneError:
        return
    assert len(phone.stored) <= STORED_LENGTH
    assert read_phone(phone.stored) == phone
