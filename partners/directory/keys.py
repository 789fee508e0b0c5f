"""What a partner is found and compared by: its name, people, phone, address and web without their ways of writing."""

from __future__ import annotations

from collections.abc import Iterable

from partners.directory.addresses import Address, address_key
from partners.directory.phones import phone_key
from partners.directory.webs import web_key
from partners.ground.names import KEY_LENGTH, name_key

PEOPLE_KEY_LENGTH = 600
# A key of an index holds at most 2,704 bytes on PostgreSQL; the folded name takes up to 800 of them.
PEOPLE_KEY_BYTES = 1600


def keys(
    *,
    name: str = "",
    phone: str = "",
    street: str = "",
    city: str = "",
    state: str = "",
    postal_code: str = "",
    web: str = "",
) -> dict[str, str]:
    """The key columns of a partner with these values; a key is empty where there is nothing to compare."""
    place = Address(street=street, city=city, state=state, postcode=postal_code)
    return {
        "name_key": name_key(name),
        "phone_key": phone_key(phone)[:KEY_LENGTH],
        "address_key": address_key(place),
        "web_key": web_key(web)[:KEY_LENGTH],
    }


def people_key(names: Iterable[str]) -> str:
    """The names of the people at a partner, folded, one behind the other; cut to what the column holds."""
    key = " ".join(filter(None, map(name_key, names)))[:PEOPLE_KEY_LENGTH]
    return key.encode()[:PEOPLE_KEY_BYTES].decode(errors="ignore").rstrip()
