"""US addresses against USPS Publication 28 (October 2023) and against usaddress-scourgify, a reference normaliser."""

from itertools import product

import pytest
from scourgify import normalize_address_record
from scourgify.address_constants import STREET_TYPE_ABBREVIATIONS

from partners.directory.addresses import last_line
from partners.directory.streets import read_delivery
from partners.ground.reference import reference

# Sections 213, 233 and 234 of Publication 28.
PUBLISHED = [
    ("123 North Main Street Apartment 4", "123 N MAIN ST APT 4"),
    ("456 Oak Avenue, Suite 200", "456 OAK AVE STE 200"),
    ("89 West Parkway Drive", "89 W PARKWAY DR"),
    ("101 1/2 Main Street", "101 1/2 MAIN ST"),
]
# The same publication as remembered, where the reference normaliser refuses or is known to differ: route and box
# forms, two-word directions, floors, numbered roads (appendix F). Not read again while this was written.
REMEMBERED = [
    ("P.O. Box 12", "PO BOX 12"),
    ("Post Office Box #7", "PO BOX 7"),
    ("Rural Route 2, Box 152", "RR 2 BOX 152"),
    ("RFD Route 4 #87A", "RR 4 BOX 87A"),
    ("Star Route 68 Box 23A", "HC 68 BOX 23A"),
    ("123 South East 5th Avenue", "123 SE 5TH AVE"),
    ("12 Avenue E", "12 AVENUE E"),
    ("200 Second St, 2nd Floor", "200 SECOND ST FL 2"),
    ("250 O'Neill Ct. Apt. #3B", "250 ONEILL CT APT 3B"),
    ("1200 US Hwy 50 Lot 5", "1200 US HIGHWAY 50 LOT 5"),
    ("40 I-10 Frontage Road", "40 INTERSTATE 10 FRONTAGE RD"),
    ("100 Main St Rear", "100 MAIN ST REAR"),
]
# Written differently on purpose, so as to meet the exceptions: the reference agrees on every one.
AGREED = """
12 North Ave|12 N Ave|12 E St|12 N E St|500 Main St N|45 Broadway North|7 Old Lot Rd|12 Lake Front|88 Front Street
123 S.E. 5th Ave.|1 Martin Luther King Jr. Blvd|N6W23001 Bluemound Rd|112-10 Bronx Rd|250 O'Neill Court #3B
Apt 4, 12 Elm Street|12 Elm Street Bldg 2 Suite 300|12 St. Charles Ave.|12 Court Street|12 Park Place East
12 Bay West Drive|12 The Circle|5 Calle Luna|12 Highland Park Road|22 Circle Drive Unit B|22 Mill Creek Trail
14 Crossing Lane Ste B-4|14 Northwest Highway|900 Old Highway 5 South|12A Elm St|221B Baker Street|10 Upper Mill Rd
10 Office Park Drive|10 Side Rd|10 Key Lane|200 Second St, Floor 2|4310 Lake Shore Drive Apartment 12B
""".replace("\n", "|").strip("|")

NUMBERS = ("7", "1420", "18B")
DIRECTIONS = ("", "North", "S.", "southeast")
NAMES = ("Millrace", "Second Hill", "Saint Anne")
SUFFIXES = ("Street", "Avenue", "Blvd", "road", "Lane", "Parkway", "Terrace", "Crossing")
UNITS = ("", "Apartment 4", "Suite 200", "Unit B", "Bldg 3", "# 9")


def reference_form(typed: str) -> str:
    record = {"address_line_1": typed, "address_line_2": None, "city": "Memphis", "state": "TN", "postal_code": "38188"}
    read = normalize_address_record(record)
    return " ".join(filter(None, (read["address_line_1"], read["address_line_2"])))


def form(typed: str) -> str:
    read = read_delivery(typed)
    return read.line if read else ""


@pytest.mark.parametrize(("typed", "printed"), PUBLISHED)
def test_published_examples(typed: str, printed: str) -> None:
    assert form(typed) == printed == reference_form(typed)


@pytest.mark.parametrize(("typed", "printed"), REMEMBERED)
def test_remembered_forms(typed: str, printed: str) -> None:
    assert form(typed) == printed


@pytest.mark.parametrize("typed", AGREED.split("|"))
def test_unusual_streets_agree_with_the_reference(typed: str) -> None:
    assert form(typed) == reference_form(typed)


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_plain_streets_agree_with_the_reference(suffix: str) -> None:
    streets = [
        " ".join(filter(None, (number, direction, name, suffix, unit)))
        for number, direction, name, unit in product(NUMBERS, DIRECTIONS, NAMES, UNITS)
    ]
    assert [(typed, form(typed)) for typed in streets if form(typed) != reference_form(typed)] == []


def test_the_last_line_has_two_spaces_before_the_zip_code() -> None:
    assert last_line("Memphis", "Tennessee", "381881001") == "MEMPHIS TN  38188-1001"


def test_suffixes_agree_with_the_reference_table() -> None:
    suffixes: dict[str, list[str]] = reference("publication_28")["suffixes"]
    ours = {word: short for short, words in suffixes.items() for word in words}
    shared = {word: short for word, short in ours.items() if word in STREET_TYPE_ABBREVIATIONS}
    assert len(shared) > 300
    assert shared == {word: STREET_TYPE_ABBREVIATIONS[word] for word in shared}
