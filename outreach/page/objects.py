"""The numbered objects of a PDF file (ISO 32000-1, section 7.5), finished one by one and put aside until it is saved.

Small ones go many together into one packed object stream, so that what a reader needs to follow a sheet hardly makes
the file larger. The same objects in the same order give the same bytes.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable
from hashlib import blake2b
from io import BytesIO
from struct import Struct
from tempfile import TemporaryFile
from typing import IO, BinaryIO

HEADER = b"%PDF-1.7\n%\x93\x8c\x8b\x9e\n"
IN_MEMORY = 4 * 1024 * 1024
"""Bytes that are kept in memory before they go to a file of their own."""
TOGETHER = 240
"""Small objects in one stream."""
_PLACE = Struct(">BIH")


class Objects:
    """What is put here cannot be changed any more. `number` gives the next number, whoever counts them."""

    def __init__(self, number: Callable[[], int]) -> None:
        self.number = number
        self._spool: IO[bytes] = BytesIO()
        self._size = len(HEADER)
        self._kept = 0
        self._places = bytearray()
        self._small: list[tuple[int, str]] = []
        self._seen = blake2b(digest_size=16)
        self._head = HEADER

    def add(self, number: int, body: bytes) -> None:
        """An object by itself."""
        self.add_framed(number, b"%d 0 obj\n%b\nendobj\n" % (number, body))

    def add_framed(self, number: int, whole: bytes) -> None:
        """An object that begins with its own number."""
        self._place(number, 1, self._size, 0)
        self._spool.write(whole)
        if self._kept < IN_MEMORY <= self._kept + len(whole):
            self._spool = _in_a_file(self._spool)
        self._kept += len(whole)
        self._size += len(whole)
        self._seen.update(whole)

    def add_small(self, number: int, body: str) -> None:
        """An object that is no stream, in ASCII, packed together with others."""
        self._small.append((number, body))
        if len(self._small) >= TOGETHER:
            self._pack()

    def add_stream(self, number: int, about: str, data: bytes, *, effort: int = 6) -> None:
        """With an `effort` of 0 the data can be read as it is."""
        if effort:
            data, about = zlib.compress(data, effort), f"{about} /Filter /FlateDecode"
        head = f"<< {about} /Length {len(data)} >>\nstream\n".encode()
        self.add(number, head + data + b"\nendstream")

    def write(self, file: BinaryIO, root: int, about: int) -> None:
        """The whole file; `root` and `about` are the numbers of the catalog and of the file's own facts."""
        self._pack()
        number = self.number()
        self._place(number, 1, self._size, 0)
        rows = zlib.compress(bytes(self._places))
        name = self._seen.hexdigest()
        head = (
            f"{number} 0 obj\n<< /Type /XRef /Size {number + 1} /W [1 4 2] /Root {root} 0 R /Info {about} 0 R "
            f"/ID [<{name}> <{name}>] /Filter /FlateDecode /Length {len(rows)} >>\nstream\n"
        )
        file.write(self._head)
        self._spool.seek(0)
        while part := self._spool.read(1 << 16):
            file.write(part)
        self._spool.close()
        file.write(head.encode() + rows + b"\nendstream\nendobj\n")
        file.write(f"startxref\n{self._size}\n%%EOF\n".encode())

    def taken(self) -> bytes:
        """The bytes that were finished since the last time, for who sends the file on while it is written."""
        self._spool.seek(0)
        part, self._head = self._head + self._spool.read(), b""
        self._spool.close()
        self._spool, self._kept = BytesIO(), 0
        return part

    def _pack(self) -> None:
        if not self._small:
            return
        number, starts, size = self.number(), [], 0
        for place, (small, body) in enumerate(self._small):
            self._place(small, 2, number, place)
            starts.append(f"{small} {size}")
            size += len(body) + 1
        first = " ".join(starts) + "\n"
        data = first + "\n".join([body for _number, body in self._small])
        about = f"/Type /ObjStm /N {len(self._small)} /First {len(first)}"
        self._small = []
        self.add_stream(number, about, data.encode("ascii"), effort=2)

    def _place(self, number: int, kind: int, where: int, place: int) -> None:
        """Where an object is: after so many bytes (kind 1), or at a place in an object stream (kind 2)."""
        start = number * _PLACE.size
        if len(self._places) < start + _PLACE.size:
            self._places.extend(bytes(start + _PLACE.size - len(self._places)))
        _PLACE.pack_into(self._places, start, kind, where, place)


def _in_a_file(spool: IO[bytes]) -> IO[bytes]:
    """The same bytes in a file that goes when it is closed."""
    file = TemporaryFile()  # noqa: SIM115 -- closed when it is written
    file.write(spool.getvalue())  # type: ignore[attr-defined]
    return file
