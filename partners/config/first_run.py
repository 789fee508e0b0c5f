"""Makes the project's own environment on the first run, and hands every command to it.

Needs the standard library only, since it runs before anything is installed. What stands in the way is told in
one sentence that says how to mend it.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib
import importlib.util
import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import IO

from partners.config import hindrance
from partners.config.hindrance import Stopped
from partners.config.one_at_a_time import one_at_a_time

CHECKOUT = Path(__file__).resolve().parent.parent.parent
LOCKS = Path(__file__).resolve().parent
SITE_LOCK = "requirements.lock"
TESTS_LOCK = "requirements-tests.lock"
HANDED_OVER = "PARTNER_BOOK_HANDED_OVER"


def run(argv: Sequence[str]) -> int:
    """Runs `manage.py` with these words in the project's environment, made where it is missing; gives the exit code."""
    try:
        return _run(list(argv))
    except Stopped as stopped:
        print(stopped, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print(file=sys.stderr)
        return 130


def _run(argv: list[str]) -> int:
    folder = Path(os.environ.get("PARTNER_BOOK_ENVIRONMENT") or CHECKOUT / ".venv").absolute()
    testing = argv[1:2] == ["test"]
    handed_over = os.environ.pop(HANDED_OVER, "") == str(folder)
    if not handed_over:
        prepare(folder, TESTS_LOCK if testing else SITE_LOCK)
    if testing:
        os.chdir(CHECKOUT)
        return hand_over([str(python_of(folder)), "-m", "pytest", *argv[2:]], {})
    if handed_over or (folder.is_dir() and os.path.samefile(folder, sys.prefix)):
        return run_here(argv)
    return hand_over([str(python_of(folder)), str(CHECKOUT / "manage.py"), *argv[1:]], {HANDED_OVER: str(folder)})


def run_here(argv: list[str]) -> int:
    """Runs the command in this process, whose Python has the project's libraries."""
    from django.conf import settings
    from django.core.exceptions import ImproperlyConfigured
    from django.core.management import execute_from_command_line

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "partners.config.settings")
    try:
        _ = settings.INSTALLED_APPS
    except ImproperlyConfigured as problem:
        raise Stopped(str(problem)) from problem
    except OSError as problem:
        raise hindrance.of_file(problem) from problem
    execute_from_command_line(argv)
    return 0


def hand_over(command: list[str], variables: dict[str, str], replace: bool = os.name == "posix") -> int:
    """Lets another Python go on with the command and gives its exit code.

    Where the system can, this process becomes that one, so that whoever stops it stops the site itself.
    """
    surroundings = {**os.environ, **variables}
    sys.stdout.flush()
    if replace:
        os.execve(command[0], command, surroundings)
    with subprocess.Popen(command, env=surroundings) as other:
        while True:
            with contextlib.suppress(KeyboardInterrupt):
                return other.wait()


def python_of(folder: Path) -> Path:
    return folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def prepare(folder: Path, lock: str) -> None:
    """Sees to it that the environment in this folder holds what the lock names. Cheap when it does.

    Raises Stopped with the sentence for whatever stands in the way.
    """
    if _is_ready(folder, lock):
        return
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        door = folder.with_name(folder.name + ".lock")
        with one_at_a_time(door, "Another run is making the environment; waiting for it.") as held:
            if not _is_ready(folder, lock):
                _install(folder, lock, held)
    except OSError as problem:
        raise hindrance.of_file(problem, folder) from problem


def _unfinished(folder: Path) -> Path:
    return folder / "unfinished"


def _stamp(folder: Path) -> Path:
    return folder / "installed.json"


def _wanted(folder: Path, *locks: str) -> dict[str, str]:
    python = os.path.realpath(python_of(folder))
    return {"python": python} | {lock: hashlib.sha256((LOCKS / lock).read_bytes()).hexdigest() for lock in locks}


def _is_ready(folder: Path, lock: str) -> bool:
    if _unfinished(folder).exists() or not python_of(folder).exists():
        return False
    try:
        installed = json.loads(_stamp(folder).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    return isinstance(installed, dict) and installed.items() >= _wanted(folder, lock).items()


def _install(folder: Path, lock: str, held: IO[bytes]) -> None:
    print("Partner Book is getting what it needs; this takes about a minute.", flush=True)
    unfinished = _unfinished(folder)
    if unfinished.exists() or not _has_pip(folder):
        _make(folder)
    unfinished.touch()
    try:
        _run_pip(folder, lock, held)
    except Stopped as stopped:
        if stopped.harmless:
            unfinished.unlink()
        raise
    # The tests' lock holds the site's lock whole (a test compares them), so one install answers for both.
    locks = (SITE_LOCK, TESTS_LOCK) if lock == TESTS_LOCK else (lock,)
    _stamp(folder).write_text(json.dumps(_wanted(folder, *locks)), encoding="utf-8")
    unfinished.unlink()
    importlib.invalidate_caches()


def _has_pip(folder: Path) -> bool:
    """Whether the environment's Python runs and finds pip; not so after the machine's Python went or changed."""
    try:
        asked = subprocess.run(
            [str(python_of(folder)), "-I", "-c", "import pip"], capture_output=True, stdin=subprocess.DEVNULL
        )
    except OSError:
        return False
    return asked.returncode == 0


def _make(folder: Path) -> None:
    if importlib.util.find_spec("venv") is None or importlib.util.find_spec("ensurepip") is None:
        raise Stopped(hindrance.NO_VENV)
    venv = importlib.import_module("venv")
    venv.EnvBuilder(clear=True, symlinks=os.name == "posix").create(folder)
    _unfinished(folder).touch()
    with_pip = [str(python_of(folder)), "-I", "-m", "ensurepip", "--default-pip"]
    made = subprocess.run(with_pip, capture_output=True, stdin=subprocess.DEVNULL, text=True, check=False)
    if made.returncode:
        full = hindrance.of_pip([made.stdout, made.stderr])
        raise full if str(full) == hindrance.FULL else Stopped(hindrance.NO_VENV)


def _run_pip(folder: Path, lock: str, held: IO[bytes]) -> None:
    """Installs what the lock names, from whatever index the machine's own settings give; raises Stopped."""
    command = [str(python_of(folder)), "-m", "pip", "install", "--require-hashes", "--no-deps", "-r", str(LOCKS / lock)]
    # Python compiles what is really imported when it first is: to compile all of it takes half of an installation.
    command += ["--no-input", "--disable-pip-version-check", "--progress-bar", "off", "--no-compile"]
    packages = (LOCKS / lock).read_text(encoding="utf-8").count("==")
    said: list[str] = []
    with subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        env={**os.environ, "PIP_USER": "0", "PYTHONIOENCODING": "utf-8"},
        # A run that is killed leaves pip behind for a moment: pip goes on holding the door shut.
        pass_fds=(held.fileno(),) if os.name == "posix" else (),
    ) as pip:
        for line in pip.stdout or ():
            said.append(line)
            if sys.stdout.isatty() and line.startswith("Collecting "):
                done = sum(1 for earlier in said if earlier.startswith("Collecting "))
                print(f"\r  {done} of {packages}", end="", flush=True)
    if sys.stdout.isatty():
        print(flush=True)
    if pip.returncode:
        raise hindrance.of_pip(said)
