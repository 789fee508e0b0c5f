"""Several files as one ZIP, sent while they are written: nothing is held back and no file is made on the way."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator
from datetime import date

AT_ONCE = 64 * 1024
# Lists shrink to a twentieth: to wait for more than this would keep whoever saves them waiting for seconds.
PACKED_AT_ONCE = 4 * 1024


class _Pipe:
    """What was written and not yet taken. A ZIP that cannot go back tells each size behind its part (APPNOTE 4.3.9)."""

    def __init__(self) -> None:
        self.waiting: list[bytes] = []
        self.size = 0

    def write(self, data: bytes) -> int:
        self.waiting.append(bytes(data))
        self.size += len(data)
        return len(data)

    def flush(self) -> None:
        """Nothing lies in between."""

    def taken(self) -> bytes:
        told, self.waiting, self.size = b"".join(self.waiting), [], 0
        return told


def zipped(files: Iterable[tuple[str, Iterable[bytes]]], day: date) -> Iterator[bytes]:
    """`files` are names and what is in them; `day` is the day that each of them bears."""
    pipe = _Pipe()
    with zipfile.ZipFile(pipe, "w", zipfile.ZIP_DEFLATED) as packed:  # type: ignore[call-overload]
        for name, chunks in files:
            part = zipfile.ZipInfo(name, (max(day.year, 1980), day.month, day.day, 0, 0, 0))
            part.compress_type = zipfile.ZIP_DEFLATED
            with packed.open(part, "w") as inside:
                for chunk in chunks:
                    inside.write(chunk)
                    if pipe.size > PACKED_AT_ONCE:
                        yield pipe.taken()
    yield pipe.taken()


def gathered(texts: Iterable[str]) -> Iterator[bytes]:
    """Short texts as UTF-8, many of them together."""
    waiting: list[str] = []
    size = 0
    for text in texts:
        waiting.append(text)
        size += len(text)
        if size > AT_ONCE:
            yield "".join(waiting).encode("utf-8", "replace")
            waiting, size = [], 0
    yield "".join(waiting).encode("utf-8", "replace")
