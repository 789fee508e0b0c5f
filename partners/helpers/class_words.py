"""Does a child's name stand where only a class or room belongs? Computation only; it warns and decides nothing.

A slip asks for "child's class or room", and parents write the child's name there. No student is ever a record, so the
page asks before it is saved. The rule is common practice: what holds no number, no title, no word of schools and is no
known class, or holds a name beside a class, is likely a child.
"""

from __future__ import annotations

import re
from collections.abc import Collection

from partners.ground.names import fold

_TITLES = """
mr mrs ms miss mx dr prof coach teacher maestra maestro sr sra senor senora senorita profesor profesora
"""
_SCHOOL_WORDS = """
room rm class classroom grade gr kinder kindergarten k pre prek prekindergarten tk first second third fourth fifth
sixth seventh eighth homeroom hr art library office gym hall wing portable am pm morning afternoon none not sure
several both all no and or the of in s grado clase salon sala aula primero segundo tercero cuarto quinto sexto primer
tercer jardin elementary school st nd rd th period section special education sped ell
"""
TITLES = frozenset(_TITLES.split())
SCHOOL_WORDS = frozenset(_SCHOOL_WORDS.split())
_CODE = re.compile(r"\d+\w{0,2}|[a-z]|\w{1,2}\d+")


def seems_a_child(room: str, known: Collection[str] = ()) -> bool:
    """Whether a name seems to stand in `room`. `known`: classes and rooms that are in the book already, folded.

    `3-A`, `Room 12`, `Ms. Lopez` and `kindergarten` are none; `Emma Torres`, `Emma, 3-A` and `Emma's mom` are.
    """
    key = fold(room)
    words = key.split()
    if not words or key in known:
        return False
    if TITLES & set(words):
        return False
    for label in known:
        if label and f" {label} " in f" {key} ":
            words = f" {key} ".replace(f" {label} ", " ", 1).split()
            break
    return any(word not in SCHOOL_WORDS and not _CODE.fullmatch(word) for word in words)
