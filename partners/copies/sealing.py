"""Locks a copy with a passphrase, in the age format (age-encryption.org/v1), which other programs open as well."""

from __future__ import annotations

import os
from pathlib import Path

import pyrage

MARK = b"age-encryption.org/v1"
WRONG = "The passphrase does not open this copy: type it again. If you are sure of it, the copy is damaged."
SHORTEST = 8


class Sealed(Exception):
    """Why a copy cannot be locked or opened, as the sentence to show."""


def is_sealed(file: Path) -> bool:
    with file.open("rb") as opened:
        return opened.read(len(MARK)) == MARK


def seal(plain: Path, passphrase: str) -> bytes:
    """The whole copy passes through memory."""
    return bytes(pyrage.passphrase.encrypt(plain.read_bytes(), passphrase))


def unseal(file: Path, passphrase: str) -> bytes:
    """Raises Sealed where the passphrase is another or the file was changed."""
    try:
        return bytes(pyrage.passphrase.decrypt(file.read_bytes(), passphrase))
    except pyrage.DecryptError as problem:
        raise Sealed(WRONG) from problem


def passphrase_told() -> str | None:
    """From PARTNER_BOOK_PASSPHRASE_FILE or PARTNER_BOOK_PASSPHRASE; None where neither is set. Raises Sealed."""
    path = os.environ.get("PARTNER_BOOK_PASSPHRASE_FILE")
    if path:
        try:
            told = Path(path).read_text(encoding="utf-8").strip()
        except OSError as problem:
            raise Sealed(f"The passphrase's file cannot be read ({problem.strerror}).") from problem
    else:
        told = os.environ.get("PARTNER_BOOK_PASSPHRASE", "")
    return checked(told) if told or path else None


def checked(passphrase: str) -> str:
    """Raises Sealed for one that is guessed in a day."""
    if len(passphrase) < SHORTEST:
        raise Sealed(f"A passphrase has at least {SHORTEST} signs; four or five words are easy to keep.")
    return passphrase
