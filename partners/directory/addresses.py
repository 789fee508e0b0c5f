"""US addresses in the form of USPS Publication 28, for the envelope and for finding the same place twice.

Publication 28 (October 2023): capitals, no punctuation, directions and street suffixes abbreviated (sections 233 and
234, appendix C1), the secondary unit behind the street (section 213, appendix C2), two spaces before the ZIP Code.
An address it has no form for (another country, a place without a house number) is printed as it was typed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from partners.directory.streets import read_delivery, squeezed
from partners.ground.names import KEY_LENGTH, fold
from partners.ground.reference import reference

_OURS = frozenset({"", "us", "usa", "united states", "united states of america", "estados unidos", "eeuu"})
_ZIP = re.compile(r"([0-9]{5})(?:[- ]?([0-9]{4}))?")

SamePlace = Literal["same_address", "same_building", ""]


@dataclass(frozen=True, slots=True)
class Address:
    """An address as typed. `street` may hold the unit too; `country` is empty for the United States."""

    street: str = ""
    unit: str = ""
    city: str = ""
    state: str = ""
    postcode: str = ""
    country: str = ""


def printed_lines(address: Address) -> tuple[str, ...]:
    """The lines under the name, without blanks: Publication 28 where it has a form, otherwise as typed."""
    last = last_line(address.city, address.state, address.postcode) if _is_ours(address) else None
    if last is None:
        return _as_typed(address)
    delivered = read_delivery(address.street, address.unit)
    street = read_delivery(address.street)
    if delivered:
        above: tuple[str, ...] = (delivered.line,)
    else:
        above = (squeezed(address.unit), street.line if street else squeezed(address.street))
    return tuple(line for line in (*above, last) if line)


def last_line(city: str, state: str, postcode: str) -> str | None:
    """`MEMPHIS TN  38188-1001`, the ZIP Code left out where it is not known; None when this is no US last line."""
    short = _state_code(state)
    number = _ZIP.fullmatch(postcode.strip())
    if not short or not city.strip() or (postcode.strip() and number is None):
        return None
    town = " ".join(re.sub(r"[^\w\s-]", "", city).upper().split())
    return f"{town} {short}" + (f"  {_zip(number)}" if number else "")


def address_key(address: Address) -> str:
    """The address without its ways of writing, `street|unit|zone`, cut to KEY_LENGTH; "" for no street.

    The zone is the five digits of the ZIP Code, or town and state. The kind of unit is left out: `Apt 4` and `# 4` are
    one door.
    """
    if not fold(address.street):
        return ""
    ours = _is_ours(address)
    read = read_delivery(address.street, address.unit) or read_delivery(address.street) if ours else None
    street, door = (read.street, read.door) if read else (address.street, "")
    number = _ZIP.fullmatch(address.postcode.strip())
    zone = f"{address.city} {_state_code(address.state) or address.state}"
    if ours and number:
        zone = number[1]
    elif not ours:
        zone += f" {address.postcode}"
    return "|".join(map(fold, (street, door or address.unit, zone)))[:KEY_LENGTH].rstrip()


def same_place(one: str, other: str) -> SamePlace:
    """Whether two keys name one door, or one building; what only one side tells is no difference.

    A ZIP Code beside a town tells nothing either, so that a key typed without its ZIP Code still finds its place.
    """
    if not one or not other:
        return ""
    (street, door, zone), (other_street, other_door, other_zone) = (_parts(one), _parts(other))
    comparable = zone and other_zone and zone.isdigit() == other_zone.isdigit()
    if street != other_street or (comparable and zone != other_zone):
        return ""
    return "same_building" if door and other_door and door != other_door else "same_address"


def read_address(text: str) -> Address:
    """An address typed or pasted as one or several lines, split where its last line is that of a US address.

    What cannot be split is kept whole as `street`.
    """
    whole = ", ".join(line.strip(" ,\t") for line in text.splitlines() if line.strip(" ,\t"))
    before, comma, country = whole.rpartition(",")
    if comma and fold(country) in _OURS:
        whole = before.strip(" ,")
    found = _last_line_pattern().fullmatch(whole)
    if found is None:
        return Address(street=whole)
    return Address(
        street=found["street"].strip(" ,"),
        city=found["city"].strip(),
        state=found["state"],
        postcode=found["zip"] or "",
    )


def _is_ours(address: Address) -> bool:
    return fold(address.country) in _OURS


def _as_typed(address: Address) -> tuple[str, ...]:
    town = " ".join(filter(None, (squeezed(address.state), squeezed(address.postcode))))
    town = ", ".join(filter(None, (squeezed(address.city), town)))
    lines = (squeezed(address.street), squeezed(address.unit), town, squeezed(address.country))
    return tuple(line for line in lines if line)


def _parts(key: str) -> tuple[str, str, str]:
    street, _, rest = key.partition("|")
    door, _, zone = rest.partition("|")
    return street, door, zone


def _zip(number: re.Match[str]) -> str:
    return f"{number[1]}-{number[2]}" if number[2] else number[1]


def _state_code(state: str) -> str:
    typed = fold(state).upper()
    codes: dict[str, str] = reference("publication_28")["states"]
    return typed if typed in codes else _codes_by_name().get(typed, "")


@cache
def _codes_by_name() -> dict[str, str]:
    return {name: code for code, name in reference("publication_28")["states"].items()}


@cache
def _last_line_pattern() -> re.Pattern[str]:
    states = reference("publication_28")["states"]
    names = "|".join([*sorted(states.values(), key=len, reverse=True), *states, "D\\.C\\."])
    return re.compile(
        rf"(?P<street>.+?),\s*(?P<city>[^,\d]+?),?\s+(?P<state>{names})\.?(?:,?\s+(?P<zip>\d{{5}}(?:[- ]?\d{{4}})?))?",
        re.IGNORECASE,
    )
