"""Keeps two runs on one machine from preparing the same thing at once."""

from __future__ import annotations

import contextlib
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import IO

if sys.platform == "win32":
    import msvcrt

    def _taken(file: IO[bytes]) -> bool:
        file.seek(0)
        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except OSError:
            return True
        return False
else:
    import fcntl

    def _taken(file: IO[bytes]) -> bool:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return True
        except OSError:
            # A file system that knows no locks (some network shares): going on alone beats not going on.
            return False
        return False


@contextlib.contextmanager
def one_at_a_time(path: Path, waiting: str) -> Iterator[IO[bytes]]:
    """Waits until no other run holds this file, telling `waiting` once, and holds it for the block.

    The system lets go of it however the run ends. Raises OSError where the file cannot be made. Gives the open
    file, which a program started in the block may inherit to hold it as long as it lives.
    """
    with path.open("ab") as file:
        if _taken(file):
            print(waiting, flush=True)
            while _taken(file):
                time.sleep(0.1)
        yield file
