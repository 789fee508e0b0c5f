"""In which order sheets are delivered: place by place, and in a place street by street."""

from __future__ import annotations

import re

from partners.ground.names import name_key

# Nothing is given back once it is read, or a long row of digits would be tried from every one of them.
_HOUSE = re.compile(r"\s*+(\d++)\S*+\s++(.*)")

DeliveryKey = tuple[bool, str, str, bool, str, int, str, str]


def delivery_key(*, city: str, postal_code: str, street: str, name: str) -> DeliveryKey:
    """What letters are sorted by: city, postal code, street, house number, the whole street line, name.

    Who has no city, or no street in a city, comes behind those who have one. Accents and case do not matter.

    >>> rows = ["12 River Rd", "9 River Rd", "100 Elm St", ""]
    >>> sorted(rows, key=lambda row: delivery_key(city="Alder Falls", postal_code="", street=row, name=""))
    ['100 Elm St', '9 River Rd', '12 River Rd', '']
    """
    house = _HOUSE.fullmatch(street)
    number, along = (int(house[1][:9]), house[2]) if house else (0, street)
    town, line = name_key(city), name_key(street)
    return not town, town, postal_code.strip().upper(), not line, name_key(along), number, line, name_key(name)
