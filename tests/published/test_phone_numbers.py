"""Phone numbers against E.164, RFC 3966 and the numbers set aside for fiction in the North American plan."""

import pytest

from partners.directory.phones import PhoneError, national, read_phone, tel_link


def test_fictional_numbers_are_valid_and_link_as_rfc_3966_says() -> None:
    # ATIS-0300115: 555-0100 to 555-0199 are set aside for fiction; RFC 3966 section 5.1.1 gives the link's form.
    phone = read_phone("(201) 555-0123")
    assert (phone.stored, phone.is_valid) == ("+12015550123", True)
    assert tel_link(phone.stored) == "tel:+1-201-555-0123"


def test_an_extension_is_written_as_rfc_3966_says() -> None:
    phone = read_phone("202.555.0143 x 45")
    assert national(phone.stored) == "(202) 555-0143 ext. 45"
    assert tel_link(phone.stored) == "tel:+1-202-555-0143;ext=45"


def test_a_number_without_its_area_code_is_possible_but_not_valid() -> None:
    assert not read_phone("555-0123").is_valid


@pytest.mark.parametrize("digits", ["1" * 16, "+" + "4" * 16])
def test_more_than_fifteen_digits_are_refused(digits: str) -> None:
    # ITU-T E.164 (11/2010) section 6: an international number has at most fifteen digits.
    with pytest.raises(PhoneError, match="too many digits"):
        read_phone(digits)
