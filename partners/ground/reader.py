"""In which language a page is read, and how its addresses begin: a long list asks for both at every word and link.

Each asking costs Django more than the word or the link itself; while one request is answered neither changes.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from django.urls import get_script_prefix
from django.utils.translation import get_language


@dataclass(frozen=True, slots=True)
class Reader:
    language: str | None
    prefix: str


class _Here(threading.local):
    reader: Reader | None = None


_here = _Here()


def reader() -> Reader:
    return _here.reader or _asked()


@contextmanager
def one_reader() -> Iterator[None]:
    """Within it both are asked once, so nothing in it may turn to another language."""
    before, _here.reader = _here.reader, _asked()
    try:
        yield
    finally:
        _here.reader = before


def _asked() -> Reader:
    return Reader(get_language(), get_script_prefix())
