"""What the benches share: work in turns, figures from a process of its own, and the middle of ratios."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Hashable, Mapping
from pathlib import Path
from statistics import median
from typing import Any, TypeVar

Key = TypeVar("Key", bound=Hashable)


def apart(module: str, *words: str, **variables: str) -> Any:
    """What `python -m module words` prints as JSON on its last line, run with these variables besides."""
    # The benches say themselves on which database they measure.
    given = {name: value for name, value in os.environ.items() if name != "PARTNER_BOOK_DATABASE"}
    command = [sys.executable, "-m", module, *words]
    told = subprocess.run(command, env={**given, **variables}, check=False, capture_output=True, text=True)
    if told.returncode:
        raise RuntimeError(told.stderr[-3000:])
    return json.loads(told.stdout.splitlines()[-1])


def in_turns(works: Mapping[Key, Callable[[], Any]], rounds: int, warm_up: int = 3) -> dict[Key, list[float]]:
    """Milliseconds of the processor for each run of each work: one round after the other, every work once a round.

    What else the machine does then falls on all of them alike, and a ratio within a round hardly feels it.
    """
    times: dict[Key, list[float]] = {key: [] for key in works}
    for number in range(warm_up + rounds):
        for key, work in works.items():
            began = time.process_time()
            work()
            if number >= warm_up:
                times[key].append((time.process_time() - began) * 1000)
    return times


def ratio(times: Mapping[Key, list[float]], one: Key, other: Key) -> float:
    """The middle of the ratios of two works, round by round."""
    return median(first / second for first, second in zip(times[one], times[other], strict=True))


def peak_mib() -> float:
    """The most memory this process ever held.

    On Linux by the kernel's own mark: ru_maxrss would begin with what the process held that started this one.
    """
    status = Path("/proc/self/status")
    if status.exists():
        mark = next(line for line in status.read_text().splitlines() if line.startswith("VmHWM:"))
        return int(mark.split()[1]) / 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024**2 if sys.platform == "darwin" else 1024)
