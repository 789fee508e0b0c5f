"""Contact cards: partners and the people there as a phone's address book reads them.

vCard 4.0 (RFC 6350), written here: the fields are few, and no library in the lock writes them. Notes have no field.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

END = "\r\n"
MOST_OCTETS = 75
# RFC 6350, 3.4: a semicolon parts components, so one inside of any text is escaped too, as it allows.
_ESCAPED = str.maketrans({"\\": "\\\\", ",": "\\,", ";": "\\;", "\n": "\\n"})
BEFORE_A_NAME = frozenset({"dr", "mr", "mrs", "ms", "miss", "mx", "prof", "rev"})
BEHIND_A_NAME = frozenset({"jr", "sr", "ii", "iii", "iv", "phd", "md", "esq", "cpa"})


@dataclass(frozen=True, slots=True)
class Card:
    """One partner, or one person there. `organization` alone, without a person's name, makes a card of kind org.

    `tel` holds addresses as RFC 3966 writes them, `web` an address that a browser follows; `uid` a UUID.
    """

    uid: str
    name: str
    is_person: bool = False
    organization: str = ""
    role: str = ""
    tel: tuple[str, ...] = ()
    email: str = ""
    street: str = ""
    city: str = ""
    state: str = ""
    postal_code: str = ""
    web: str = ""


def card_file(cards: Iterable[Card]) -> Iterator[bytes]:
    """The file, card by card."""
    for card in cards:
        yield b"".join(folded(line) for line in lines(card))


def lines(card: Card) -> Iterator[str]:
    yield "BEGIN:VCARD"
    yield "VERSION:4.0"
    yield f"KIND:{'individual' if card.is_person else 'org'}"
    yield f"UID:urn:uuid:{card.uid}"
    yield f"FN:{text(card.name)}"
    yield "N:" + ";".join(map(text, name_parts(card.name) if card.is_person else ("",) * 5))
    if card.organization:
        yield f"ORG:{text(card.organization)}"
    if card.role:
        yield f"TITLE:{text(card.role)}"
    for number in card.tel:
        yield f'TEL;VALUE=uri;TYPE="work,voice":{one_line(number)}'
    if card.email:
        yield f"EMAIL;TYPE=work:{text(card.email)}"
    if card.street or card.city or card.postal_code:
        # A post office box and an apartment, both of which the standard wants left empty; no country.
        yield f"ADR;TYPE=work:;;{text(card.street)};{text(card.city)};{text(card.state)};{text(card.postal_code)};"
    if card.web:
        yield f"URL:{one_line(card.web)}"
    yield "END:VCARD"


def name_parts(name: str) -> tuple[str, str, str, str, str]:
    """Family name, given name, further names, titles before, titles behind (RFC 6350, 6.2.2).

    The last word is taken for the family name, which is common practice and at times wrong; the name as they write it
    stands in FN, and that is what is shown.
    """
    words = name.replace(",", " ").split()
    before: list[str] = []
    behind: list[str] = []
    while len(words) > 1 and bare(words[0]) in BEFORE_A_NAME:
        before.append(words.pop(0))
    while len(words) > 1 and bare(words[-1]) in BEHIND_A_NAME:
        behind.insert(0, words.pop())
    family = words.pop() if len(words) > 1 or before else ""
    return family, " ".join(words), "", " ".join(before), " ".join(behind)


def bare(word: str) -> str:
    return word.replace(".", "").casefold()


def text(value: str) -> str:
    kept = (sign if sign.isprintable() or sign == "\n" else " " for sign in value.replace("\r\n", "\n"))
    return "".join(kept).translate(_ESCAPED)


def one_line(value: str) -> str:
    """An address, which has no escapes: nothing in it may begin a line."""
    return "".join(sign for sign in value if sign.isprintable() and sign != " ")


def folded(line: str) -> bytes:
    """The line in pieces of at most 75 octets, each after the first behind a blank; no character is split."""
    pieces, piece = [], b""
    for sign in line:
        octets = sign.encode("utf-8", "replace")
        if len(piece) + len(octets) > MOST_OCTETS:
            pieces.append(piece)
            piece = b" "
        piece += octets
    pieces.append(piece)
    return (END.encode().join(pieces)) + END.encode()
