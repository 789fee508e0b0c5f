"""The delivery line of a US address in the form of USPS Publication 28 (October 2023)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from partners.ground.reference import reference

_BOX = re.compile(r"(?:P ?O ?|POST OFFICE |POSTAL )BOX (?:# ?)?([A-Z0-9-]+)|POB (?:# ?)?([A-Z0-9-]+)")
_RURAL = re.compile(
    r"(?:RR|RFD|RURAL ROUTE|RURAL DELIVERY|RFD ROUTE|RR ROUTE) (?:# ?)?([0-9]+) (?:BOX |# ?|BOX # ?)([A-Z0-9-]+)"
)
_CONTRACT = re.compile(
    r"(?:HC|HIGHWAY CONTRACT|HIGHWAY CONTRACT ROUTE|HC ROUTE|STAR ROUTE) (?:# ?)?([0-9]+) (?:BOX |# ?)([A-Z0-9-]+)"
)
_NUMBER = re.compile(r"[0-9]+[A-Z]?(?:-[0-9]+[A-Z]?)?|[NSEW][0-9]+[NSEW][0-9]+|[0-9]+\.[0-9]+|[0-9]+[NSEW][0-9]+")
_FRACTION = re.compile(r"[0-9]/[0-9]")
_IDENTIFIER = re.compile(r"[A-Z]?-?[0-9]++(?:-?[A-Z0-9]++)?|[A-Z]{1,2}|[0-9]+/[0-9]+")
_ORDINAL = re.compile(r"([0-9]+)(?:ST|ND|RD|TH)")
_ROADS = {"HWY": "HIGHWAY", "RD": "ROAD", "RT": "ROUTE", "RTE": "ROUTE"}
_OWNERS = {"ST": "STATE", "CO": "COUNTY", "CNTY": "COUNTY", "CTY": "COUNTY"}


@dataclass(frozen=True, slots=True)
class Delivery:
    """A delivery line in its parts: `123 N MAIN ST` and (`BLDG 2`, `APT 4`). A box is a street without units."""

    street: str
    units: tuple[str, ...] = ()

    @property
    def line(self) -> str:
        return " ".join((self.street, *self.units))

    @property
    def door(self) -> str:
        """What tells the units apart, without their kind: `2 4`."""
        return " ".join(unit.split(" ", 1)[-1] for unit in self.units)


def squeezed(text: str) -> str:
    """`text` on one line, with single spaces."""
    return " ".join(text.split())


def read_delivery(street: str, unit: str = "") -> Delivery | None:
    """What was typed in Publication 28's form, or None where that has none for it.

    A lone number in `unit` gets the pound sign that section 213 allows where the kind of unit is not known.
    """
    parts = [_clean(part) for part in street.split(",") if _clean(part)]
    if not parts:
        return None
    inner = _clean(unit)
    if inner:
        parts.append(f"# {inner}" if _IDENTIFIER.fullmatch(inner) else inner)
    elif route := _route(" ".join(parts)):
        return Delivery(route)
    if len(parts) > 1 and _units(parts[0].split()):
        parts.append(parts.pop(0))
    return _street_and_units(parts)


def _clean(text: str) -> str:
    upper = text.upper().replace("½", " 1/2").replace("¼", " 1/4").replace("¾", " 3/4")
    upper = re.sub(r"['’‘`]", "", re.sub(r"(?<=\b[A-Z])\.(?=[A-Z]\b)", "", upper))
    upper = re.sub(r"(?<![0-9])\.|\.(?![0-9])", " ", upper).replace("#", " # ")
    return squeezed(re.sub(r"[^\w\s#./-]", " ", upper))


def _route(whole: str) -> str | None:
    if box := _BOX.fullmatch(whole):
        return f"PO BOX {box[1] or box[2]}"
    if rural := _RURAL.fullmatch(whole):
        return f"RR {rural[1]} BOX {rural[2]}"
    if contract := _CONTRACT.fullmatch(whole):
        return f"HC {contract[1]} BOX {contract[2]}"
    return "GENERAL DELIVERY" if whole == "GENERAL DELIVERY" else None


def _street_and_units(parts: list[str]) -> Delivery | None:
    words = parts[0].split()
    start, units = _tail_units(words)
    words = words[:start]
    for part in parts[1:]:
        found = _units(part.split())
        if found is None:
            return None
        units += found
    if len(words) < 2 or not _NUMBER.fullmatch(words[0]):
        return None
    head = 2 if _FRACTION.fullmatch(words[1]) else 1
    name = _street_name(words[head:])
    return Delivery(" ".join([*words[:head], *name]), tuple(units)) if name else None


def _tail_units(words: list[str]) -> tuple[int, list[str]]:
    """Where the units at the end of a line begin, and the units.

    A street keeps its number and one word, and two before a unit without a number (`12 LAKE FRONT` has none).
    """
    for start in range(2, len(words)):
        found = _units(words[start:])
        if found and (" " in found[0] or start > 2):
            return start, found
    return len(words), []


def _units(words: list[str]) -> list[str] | None:
    """`words` read wholly as secondary units, in their short form; None when something else is among them."""
    table, alone = _unit_table(), reference("publication_28")["units_that_stand_alone"]
    units: list[str] = []
    while words:
        short = table.get(words[0], "")
        rest = words[1:]
        if short and rest[:1] == ["#"]:
            rest = rest[1:]
        ordinal = _ORDINAL.fullmatch(words[0])
        if (short or words[0] == "#") and rest and _is_identifier(rest[0]):
            units.append(f"{short or '#'} {rest[0]}")
            words = rest[1:]
        elif short in alone:
            units.append(short)
            words = words[1:]
        elif ordinal and len(words) > 1 and table.get(words[1]) == "FL":
            units.append(f"FL {ordinal[1]}")
            words = words[2:]
        else:
            return None
    return units or None


def _is_identifier(word: str) -> bool:
    taken = (_unit_table(), _suffix_table(), _direction_table())
    return bool(_IDENTIFIER.fullmatch(word)) and (len(word) == 1 or not any(word in table for table in taken))


def _street_name(words: list[str]) -> list[str]:
    words = _highway(words)
    before, words = _direction(words, from_left=True)
    after, words = _direction(words, from_left=False)
    if len(words) > 1:
        words = [*words[:-1], _suffix_table().get(words[-1], words[-1])]
    return [*before, *words, *after]


def _direction(words: list[str], *, from_left: bool) -> tuple[list[str], list[str]]:
    """A direction at one end of a street's name, and the rest; none where it is the name (`NORTH AVE`, `E ST`)."""
    for length in (2, 1):
        end, rest = (words[:length], words[length:]) if from_left else (words[-length:], words[:-length])
        short = _direction_table().get("".join(end))
        if short and len(end) == length and not _only_suffixes(rest):
            return [short], rest
    return [], words


def _only_suffixes(words: list[str]) -> bool:
    return not words or (len(words) == 1 and words[0] in _suffix_table())


def _highway(words: list[str]) -> list[str]:
    """Numbered roads keep their kind in full (appendix F): `US HWY 50` → `US HIGHWAY 50`, `I-10` → `INTERSTATE 10`."""
    spelled: list[str] = []
    for place, word in enumerate(words):
        numbered = place + 1 < len(words) and re.fullmatch(r"[0-9]+[A-Z]?", words[place + 1])
        if interstate := re.fullmatch(r"I-?([0-9]+)", word):
            spelled += ["INTERSTATE", interstate[1]]
        elif numbered and word in ("CR", "I"):
            spelled += ["COUNTY", "ROAD"] if word == "CR" else ["INTERSTATE"]
        elif numbered and (word in _ROADS or word in _ROADS.values()):
            if spelled and spelled[-1] in _OWNERS:
                spelled[-1] = _OWNERS[spelled[-1]]
            spelled.append(_ROADS.get(word, word))
        else:
            spelled.append(word)
    return spelled


@cache
def _suffix_table() -> dict[str, str]:
    table: dict[str, list[str]] = reference("publication_28")["suffixes"]
    return {word: short for short, words in table.items() for word in (short, *words)}


@cache
def _unit_table() -> dict[str, str]:
    table: dict[str, list[str]] = reference("publication_28")["units"]
    return {word: short for short, words in table.items() for word in (short, *words)}


@cache
def _direction_table() -> dict[str, str]:
    table: dict[str, list[str]] = reference("publication_28")["directions"]
    return {word: short for short, words in table.items() for word in (short, *words)}
