"""What can stand in the way of a run, each told in one sentence with the way to mend it."""

from __future__ import annotations

import errno
import re
from collections.abc import Sequence
from pathlib import Path

FULL = (
    "There is not enough room on the disk: Partner Book needs about 500 MB to set itself up, "
    "so free some and run the same command again."
)
NO_VENV = (
    "This Python cannot make an environment because its venv module is missing: install it (on Debian and Ubuntu "
    "`sudo apt install python3-venv`, elsewhere the full Python from python.org), then run the same command again."
)
NO_NETWORK = (
    "The first run fetches what Partner Book is built from, and no package index answered: connect to the internet "
    "(at school the office may know a proxy), then run the same command again."
)
OTHER_HASH = (
    "A fetched package is not the one Partner Book was checked with, so nothing was installed: run the same command "
    "again, from another network if this comes back."
)


# What pip says, in the order in which one cause explains away the next.
PIP_SAYS_FULL = r"no space left|errno 28\b|disk quota exceeded|not enough space on the disk"
PIP_SAYS_OTHER_HASH = r"do not match the hashes"
PIP_SAYS_NO_NETWORK = (
    r"connection broken|newconnectionerror|name resolution|getaddrinfo|timed out|network is unreachable"
    r"|connection ?reset|proxyerror"
)
PIP_SAYS_MISSING = r"no matching distribution found for (\S+)"
PIP_SAYS_READ_ONLY = r"(?:read-only file system|permission denied|errno 13\b|errno 30\b|winerror 5\b).*?(['\"])(.+?)\1"


class Stopped(Exception):
    """What keeps a command from running, as the sentence to show; `harmless` when nothing had been changed yet."""

    def __init__(self, sentence: str, *, harmless: bool = False) -> None:
        super().__init__(sentence)
        self.harmless = harmless


def of_file(problem: OSError, folder: Path | None = None) -> Stopped:
    """The sentence for a file or folder that could not be written."""
    where = folder or problem.filename or "the data folder"
    if problem.errno in (errno.ENOSPC, errno.EDQUOT):
        return Stopped(FULL)
    if problem.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return Stopped(
            f"Partner Book may not write to {where}: copy its whole folder to a place of your own, such as your home "
            "folder, and run the command there."
        )
    why = problem.strerror or problem
    return Stopped(f"Partner Book cannot use {where} ({why}): mend that, then run the same command again.")


def of_pip(said: Sequence[str]) -> Stopped:
    """The sentence for an install that failed, read from the lines that pip wrote."""
    text = "".join(said)

    def find(pattern: str) -> re.Match[str] | None:
        return re.search(pattern, text, re.IGNORECASE)

    if find(PIP_SAYS_FULL):
        return Stopped(FULL)
    if find(PIP_SAYS_OTHER_HASH):
        return Stopped(OTHER_HASH, harmless=True)
    if find(PIP_SAYS_NO_NETWORK):
        return Stopped(NO_NETWORK, harmless=True)
    if missing := find(PIP_SAYS_MISSING):
        return Stopped(
            f"The package index that this machine is set up with does not have {missing[1]}: ask whoever looks after "
            "it, or run the same command on another network.",
            harmless=True,
        )
    if refused := find(PIP_SAYS_READ_ONLY):
        return of_file(PermissionError(errno.EACCES, "Permission denied", refused[2]))
    errors = [line.removeprefix("ERROR:").strip() for line in said if line.startswith("ERROR:")]
    last = errors[-1] if errors else "nothing"
    return Stopped(f"What Partner Book is built from could not be installed; the installer said: {last}")
