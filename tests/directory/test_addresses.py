import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.directory.addresses import Address, address_key, printed_lines, read_address, same_place
from partners.directory.streets import read_delivery

ELM = Address("12 Elm Street", "Suite 4", "Alder Falls", "Ohio", "45999")


def test_an_address_prints_as_the_post_office_reads_it() -> None:
    assert printed_lines(ELM) == ("12 ELM ST STE 4", "ALDER FALLS OH  45999")


def test_a_lone_unit_number_gets_a_pound_sign() -> None:
    assert printed_lines(Address("12 Elm St", "4", "Alder Falls", "OH"))[0] == "12 ELM ST # 4"


def test_a_unit_in_words_stands_above_the_street_as_typed() -> None:
    assert printed_lines(Address("12 Elm St", "behind the bakery", "Alder Falls", "OH", "45999")) == (
        "behind the bakery",
        "12 ELM ST",
        "ALDER FALLS OH  45999",
    )


def test_another_country_prints_as_typed() -> None:
    assert printed_lines(Address("10 rue  Haute", "", "Lyon", "", "69001", "France")) == (
        "10 rue Haute",
        "Lyon, 69001",
        "France",
    )


def test_a_place_without_a_number_prints_as_typed_above_its_town() -> None:
    assert printed_lines(Address("The old mill", "", "Alder Falls", "OH")) == ("The old mill", "ALDER FALLS OH")


@pytest.mark.parametrize("odd", ["", "One Main Street", "Rue 5", "12", "12 Elm, round the back", "12 Elm St, PO Box 4"])
def test_streets_without_a_published_form_are_left_alone(odd: str) -> None:
    assert read_delivery(odd) is None


def test_no_address_prints_no_line() -> None:
    assert printed_lines(Address()) == ()
    assert address_key(Address()) == ""


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("12 Elm Street\nAlder Falls, OH 45999\nUSA", Address("12 Elm Street", "", "Alder Falls", "OH", "45999")),
        (
            "456 Oak Ave, Suite 200, New York, New York 10001-0001",
            Address("456 Oak Ave, Suite 200", "", "New York", "New York", "10001-0001"),
        ),
        ("12 Main St\nKansas City MO", Address("12 Main St", "", "Kansas City", "MO")),
        ("10 High St, London SW1A 2AA", Address("10 High St, London SW1A 2AA")),
        ("behind the library", Address("behind the library")),
        ("", Address()),
    ],
)
def test_a_pasted_address_is_split_at_its_last_line(text: str, read: Address) -> None:
    assert read_address(text) == read


def test_ways_of_writing_have_one_key() -> None:
    other = Address("12 ELM ST. #4", "", "ALDER FALLS", "OH", "45999-1234", "United States")
    assert address_key(other) == address_key(ELM) == "12 elm st|4|45999"


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("12 elm st|4|45999", "12 elm st|4|45999", "same_address"),
        ("12 elm st|4|45999", "12 elm st||45999", "same_address"),
        ("12 elm st|4|45999", "12 elm st|5|45999", "same_building"),
        ("12 elm st||45999", "12 elm st||", "same_address"),
        ("12 elm st||45999", "12 elm st||alder falls oh", "same_address"),
        ("12 elm st||45999", "12 elm st||45998", ""),
        ("12 elm st||45999", "13 elm st||45999", ""),
        ("", "", ""),
    ],
)
def test_keys_tell_the_same_door_and_the_same_building(one: str, other: str, same: str) -> None:
    assert same_place(one, other) == same_place(other, one) == same


@given(st.builds(Address, *[st.text(max_size=30)] * 6))
def test_any_address_prints_and_has_a_key_that_fits(address: Address) -> None:
    assert all(line.strip() and "\n" not in line for line in printed_lines(address))
    assert len(address_key(address)) <= 200


@given(st.text(max_size=60))
def test_any_text_is_read(text: str) -> None:
    assert isinstance(read_address(text), Address)
