"""PostgreSQL and gunicorn for a test: a cluster that can be restarted under its users, and workers that use it."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

import pytest

from partners.config.first_run import CHECKOUT
from tests.faults.harness import Stem, free_port

BINARIES = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda path: int(path.parent.name))
PATIENCE = "240"  # Seconds: a busy machine may take more than the minute that the tool waits by itself.


class Cluster:
    """A PostgreSQL server of its own, which brings every commit to the disk as a real one does."""

    def __init__(self, folder: Path) -> None:
        if not BINARIES:
            pytest.skip("this machine has no PostgreSQL")
        self.folder, self.port, self.tools = folder, free_port(), BINARIES[-1]
        self.root = os.geteuid() == 0
        folder.mkdir(parents=True)
        if self.root:
            shutil.chown(folder, "postgres", "postgres")
            for parent in folder.parents:
                if parent.owner() == "root" and parent != Path("/"):
                    parent.chmod(parent.stat().st_mode | 0o011)
        self.run("initdb", "-D", f"{folder}/data", "-U", "book", "-A", "trust", "-E", "UTF8", "--locale", "C.UTF-8")
        options = f"-p {self.port} -k {folder} -c listen_addresses=127.0.0.1"
        self.run("pg_ctl", "-D", f"{folder}/data", "-l", f"{folder}/log", "-w", "-t", PATIENCE, "-o", options, "start")
        self.run("createdb", "-h", "127.0.0.1", "-p", str(self.port), "-U", "book", "book")

    @property
    def address(self) -> str:
        return f"postgres://book@127.0.0.1:{self.port}/book"

    def run(self, tool: str, *words: str) -> None:
        command = [str(self.tools / tool), *words]
        if self.root:
            command = ["runuser", "-u", "postgres", "--", *command]
        subprocess.run(command, check=True, cwd="/", stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def restart(self) -> None:
        """As after a crash: every connection breaks at once, and the log is replayed."""
        self.run(
            "pg_ctl",
            "-D",
            f"{self.folder}/data",
            "-l",
            f"{self.folder}/log",
            "-w",
            "-t",
            PATIENCE,
            "-m",
            "immediate",
            "restart",
        )

    def end(self) -> None:
        self.run("pg_ctl", "-D", f"{self.folder}/data", "-m", "immediate", "stop")


class Gunicorn:
    """The site as DEVELOPERS.md says to serve it to several schools: two workers of four threads."""

    def __init__(self, stem: Stem, **variables: str) -> None:
        self.port = free_port()
        self.log = stem.folder / f"gunicorn-{self.port}.log"
        command = [sys.executable, "-m", "gunicorn", "-c", "python:partners.config.workers"]
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [*command, "--bind", f"127.0.0.1:{self.port}", "partners.config.wsgi"],
                env={**stem.surroundings, **variables}, cwd=CHECKOUT, stdout=log, stderr=log,
            )  # fmt: skip
        self.wait()

    def wait(self) -> None:
        until = time.monotonic() + 120
        while True:
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/health/", timeout=60) as answer:
                    assert answer.read() == b"ok\n"
                    return
            except OSError as problem:
                if isinstance(problem, urllib.error.HTTPError):
                    problem.close()
                assert time.monotonic() < until, self.log.read_text()[-3000:]
            time.sleep(0.05)

    def end(self, how: int = signal.SIGTERM) -> int:
        self.process.send_signal(how)
        return self.process.wait(60)


class Served:
    """A book on either engine with its server, for tests that treat both alike."""

    def __init__(self, folder: Path, engine: str) -> None:
        self.cluster = Cluster(folder / "postgresql") if engine == "postgresql" else None
        variables = {"PARTNER_BOOK_DATABASE": self.cluster.address} if self.cluster else {}
        self.stem = Stem(folder / "stem", **variables)
        self.server = Gunicorn(self.stem)
        self.port = self.server.port

    def end(self) -> Any:
        self.server.end()
        self.stem.end()
        if self.cluster:
            self.cluster.end()
