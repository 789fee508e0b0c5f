"""While the site runs, one copy of the book a day, made by a process of its own that stands back for every other."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time

from django.conf import settings
from django.utils import timezone

# Not among the first pages that somebody opens; then it looks once an hour whether a new day has come.
FIRST_LOOK_S = 60
LOOK_S = 3600


def begin() -> None:
    """Cheap: a thread that sleeps. Several workers of one site may all call it; the command makes one copy a day."""
    if settings.COPIES_KEPT:
        threading.Thread(target=_look_on, daemon=True, name="daily copy").start()


def _look_on() -> None:
    time.sleep(FIRST_LOOK_S)
    while True:
        if is_due():
            make()
        time.sleep(LOOK_S)


def is_due() -> bool:
    return not any((settings.DATA_DIR / "copies").glob(f"daily-{timezone.localdate()}.book*"))


def make() -> None:
    """By `manage.py backup --daily`, as a timer of the system would; what stands in its way is told on the terminal."""
    command = [sys.executable, str(settings.BASE_DIR / "manage.py"), "backup", "--daily"]
    made = subprocess.run(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PARTNER_BOOK_ENVIRONMENT": os.environ.get("PARTNER_BOOK_ENVIRONMENT") or sys.prefix},
        check=False,
        creationflags=getattr(subprocess, "BELOW_NORMAL_PRIORITY_CLASS", 0),
    )
    if made.returncode > 0:
        print(f"The copy of this day was not made. {made.stderr.strip()}", file=sys.stderr, flush=True)
