"""Which partner a row of a file means: one that is in the book, one that an earlier row names, or a new one. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from partners.directory.addresses import same_place
from partners.directory.duplicates import Described, Likely, likely_same
from partners.directory.likeness import core_of
from partners.ground.plain import PlainError, gettext_noop

SEVERAL = gettext_noop(
    "Several partners are called “%(name)s”. Give the phone number or the street as well, so that one of them is meant."
)
# Rows that share so many things with others (a phone number of a mall) say nothing about being the same.
MOST_ALIKE = 20


class Index:
    """Partners by name, phone, address and web. A partner of the book has its number; a new one a number below zero.

    One partner is another when their names are the same and their phone or their address is; or when the names are and
    nothing that both tell speaks against it. Two different addresses do (a branch). Two different numbers do only
    within a file: in the book it is the number that changed.
    """

    def __init__(self, known: Iterable[Described]) -> None:
        self.by_name: dict[str, list[Described]] = defaultdict(list)
        self.by_sign: dict[tuple[str, str], list[Described]] = defaultdict(list)
        for one in known:
            self.add(one)

    def add(self, one: Described) -> None:
        self.by_name[one.key].append(one)
        for sign in _signs(one):
            self.by_sign[sign].append(one)

    def find(self, meant: Described) -> Described | None:
        """Raises PlainError where several could be meant."""
        same = self.by_name.get(meant.key, [])
        sure = [one for one in same if _same_phone(one, meant) or _same_address(one, meant)]
        both = [one for one in sure if _same_phone(one, meant) and _same_address(one, meant)]
        fits = both or sure or [one for one in same if not _another(one, meant)]
        if len(fits) > 1:
            raise PlainError("several", SEVERAL, name=meant.name)
        return fits[0] if fits else None

    def alike(self, meant: Described) -> Likely | None:
        """The partner of the book that most likely is the one meant, though its name is another."""
        near: dict[int, Described] = {}
        for sign in _signs(meant):
            found = self.by_sign.get(sign, [])
            if len(found) <= MOST_ALIKE:
                near |= {one.pk: one for one in found if one.pk is not None and one.pk > 0}
        return next(iter(likely_same(meant, near.values())), None)


def _signs(one: Described) -> list[tuple[str, str]]:
    signs = [("core", core_of(one.key).replace(" ", "")), ("phone", one.phone), ("web", one.web)]
    signs.append(("street", one.address.partition("|")[0]))
    return [sign for sign in signs if sign[1]]


def _same_phone(one: Described, other: Described) -> bool:
    return bool(one.phone) and one.phone == other.phone


def _same_address(one: Described, other: Described) -> bool:
    return same_place(one.address, other.address) == "same_address"


def _another(one: Described, meant: Described) -> bool:
    elsewhere = bool(one.address and meant.address) and not _same_address(one, meant)
    in_one_file = one.pk is not None and one.pk < 0
    return elsewhere or (in_one_file and bool(one.phone and meant.phone) and one.phone != meant.phone)
