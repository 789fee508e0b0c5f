"""How a document is drawn: one sheet alone, many in one PDF, many written to a file or sent on as they come."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import BinaryIO, Generic, TypeVar

from outreach.page.book import Book

F = TypeVar("F")
SENT_TOGETHER = 20
"""Sheets whose bytes are sent on together."""


@dataclass(frozen=True)
class Run(Generic[F]):
    """`begin` opens the book as the first sheet's facts want it, `put` draws one sheet into it."""

    begin: Callable[[F], Book]
    put: Callable[[F, Book], None]

    def draw(self, facts: F) -> bytes:
        """The sheet as a PDF; the same facts give the same bytes."""
        return self.draw_many([facts])

    def draw_many(self, many: Iterable[F]) -> bytes:
        """Sheets behind each other in one PDF."""
        file = BytesIO()
        self.write_many(many, file)
        return file.getvalue()

    def write_many(self, many: Iterable[F], file: BinaryIO) -> int:
        """Writes sheets to a file and returns how many pages that made; ValueError when there are none."""
        book: Book | None = None
        for facts in many:
            book = book or self.begin(facts)
            self.put(facts, book)
        if book is None:
            raise ValueError("There is nothing to draw.")
        book.save(file)
        return book.pages

    def stream(self, many: Iterable[F]) -> Iterator[bytes]:
        """The bytes of `write_many` piece by piece, the first of them before the second sheet is asked for."""
        book: Book | None = None
        for place, facts in enumerate(many):
            book = book or self.begin(facts)
            self.put(facts, book)
            if place % SENT_TOGETHER == 0:
                yield book.taken()
        if book is None:
            raise ValueError("There is nothing to draw.")
        end = BytesIO()
        book.save(end)
        yield end.getvalue()
