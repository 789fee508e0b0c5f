"""The secret part of a member's calendar address: their number and turn, signed. Nothing secret is stored."""

from __future__ import annotations

import re

from django.core.signing import BadSignature, Signer

LONGEST = 120
_SIGNER = Signer(salt="partner_book.calendar", sep=".")
_HELD = re.compile(r"([0-9]{1,18})-([0-9]{1,18})", re.ASCII)


def written(member: int, turn: int) -> str:
    return _SIGNER.sign(f"{member}-{turn}")


def read(secret: str) -> tuple[int, int] | None:
    """The member's number and turn; None for anything that was not made here."""
    if len(secret) > LONGEST:
        return None
    try:
        held = _HELD.fullmatch(_SIGNER.unsign(secret))
    except BadSignature:
        return None
    return (int(held[1]), int(held[2])) if held else None
