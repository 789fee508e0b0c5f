"""A book with a server that is killed and started again under writers, and what is found afterwards."""

from __future__ import annotations

import json
import os
import random
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, ClassVar

from partners.config.first_run import CHECKOUT
from tests.faults.writers import Notes, Sent, Writer

FILES = ("book.sqlite3", "book.sqlite3-wal", "book.sqlite3-shm")
FOUND = ("lost", "doubled", "half", "unsound", "differing")


def free_port() -> int:
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return int(door.getsockname()[1])


class Stem:
    """The warmed process (tests/faults/stem.py), asked from here."""

    def __init__(self, folder: Path, **variables: str) -> None:
        self.folder, self.data = folder, folder / "data"
        self.data.mkdir(parents=True)
        self.surroundings = {name: value for name, value in os.environ.items() if not name.startswith("PARTNER_BOOK_")}
        self.surroundings |= {"PARTNER_BOOK_DATA": str(self.data), "PARTNER_BOOK_ENVIRONMENT": sys.prefix}
        self.surroundings |= {"DJANGO_SETTINGS_MODULE": "partners.config.settings", **variables}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.faults.stem"], cwd=CHECKOUT, env=self.surroundings, text=True,
            stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        )  # fmt: skip
        self.seed = str(folder / "seed.json")
        self.made = self.ask("make", seed=self.seed)
        self.on_sqlite = "PARTNER_BOOK_DATABASE" not in variables
        self.fresh = folder / "fresh"
        if self.on_sqlite:
            copy_book(self.data, self.fresh)

    def ask(self, order: str, **words: Any) -> Any:
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(json.dumps({"do": order, **words}) + "\n")
        self.process.stdin.flush()
        return json.loads(self.process.stdout.readline())

    def begin_anew(self) -> None:
        """The book as it was made, while nobody serves it."""
        copy_book(self.fresh, self.data)

    def judged(self, notes: Notes, name: str = "") -> dict[str, Any]:
        told: dict[str, Any] = self.ask("judge", name=name, seed=self.seed, saved=notes.marks("saved"))
        return told

    def judged_copy(self, notes: Notes) -> dict[str, Any]:
        """The verdict on a copy, so that the next server finds the files as the last one left them."""
        copy = self.folder / "copy"
        copy_book(self.data, copy)
        return self.judged(notes, str(copy / FILES[0]))

    def end(self) -> None:
        self.process.communicate(timeout=20)


def copy_book(source: Path, target: Path) -> None:
    target.mkdir(exist_ok=True)
    for name in FILES:
        (target / name).unlink(missing_ok=True)
        if (source / name).exists():
            shutil.copyfile(source / name, target / name)


class Server:
    """A server grown from the stem, or begun cold as a teacher does it."""

    RUNNING: ClassVar[list[Server]] = []

    def __init__(self, stem: Stem, *, cold: bool = False, **limits: Any) -> None:
        self.stem, self.port = stem, free_port()
        self.log = stem.folder / f"server-{self.port}.log"
        self.cold: subprocess.Popen[bytes] | None = None
        if cold:
            with self.log.open("ab") as log:
                command = [sys.executable, str(CHECKOUT / "manage.py"), "start", "--no-browser"]
                self.cold = subprocess.Popen(
                    [*command, "--port", str(self.port)], env=stem.surroundings, stdout=log, stderr=log, cwd=CHECKOUT
                )
        else:
            self.pid = int(stem.ask("serve", port=self.port, log=str(self.log), **limits))
        self.RUNNING.append(self)

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def wait_for_door(self) -> None:
        """Until it listens and has looked at its book; it was asked for nothing yet."""
        until = time.monotonic() + 60
        while "Ctrl-C" not in (self.log.read_text() if self.log.exists() else ""):
            assert time.monotonic() < until
            time.sleep(0.01)

    def said(self) -> str:
        return self.log.read_text()

    def wait(self, seconds: float = 60) -> None:
        """Until it answers."""
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            try:
                with urllib.request.urlopen(f"{self.url}/sign-in/", timeout=seconds):  # noqa: S310
                    return
            except urllib.error.HTTPError as answer:
                answer.close()
                return
            except OSError:
                time.sleep(0.01)
        raise TimeoutError(self.log.read_text()[-2000:])

    def end(self, how: int = signal.SIGKILL) -> int:
        self.RUNNING.remove(self)
        if self.cold is not None:
            self.cold.send_signal(how)
            return self.cold.wait(30)
        return int(self.stem.ask("end", child=self.pid, how=how))


@dataclass
class Life:
    """What was counted over many lives of a server."""

    kills: int = 0
    cold: int = 0
    early: int = 0
    saved: int = 0
    in_flight: int = 0
    in_flight_kept: int = 0
    again: int = 0
    events: int = 0
    seconds: float = 0
    found: dict[str, list[str]] = field(default_factory=lambda: {name: [] for name in FOUND})
    statuses: Counter[int] = field(default_factory=Counter)

    @property
    def clean(self) -> bool:
        return not any(self.found.values()) and not [code for code in self.statuses if code >= 500]

    def note(self, told: dict[str, Any]) -> None:
        for name in FOUND:
            self.found[name] += told[name]


def written(stem: Stem, server: Server, notes: Notes, again: list[Sent], **how: Any) -> list[Writer]:
    """Writers at work on the server, those forms first that were never answered."""
    writers = [Writer(number, server.port, stem.made, notes, how["seed"]) for number in range(how.get("writers", 4))]
    for place, sent in enumerate(again):
        writers[place % len(writers)].again.append(sent)
    for writer in writers:
        writer.start()
    return writers


def until_some_answered(notes: Notes, answers: int, then: float) -> None:
    """Until the writers have so many more answers, and a moment longer: where they are by then is up to chance."""
    wanted, until = notes.statuses.total() + answers, time.monotonic() + 30
    while notes.statuses.total() < wanted and time.monotonic() < until:
        time.sleep(0.003)
    time.sleep(then)


def one_life(stem: Stem, notes: Notes, life: Life, chance: random.Random, *, cold: bool, answers: int) -> None:
    """Starts a server, lets writers at it, kills it at a random moment, and judges what it left."""
    unanswered = [sent for sent in notes.sent.values() if not sent.told]
    life.again += len(unanswered)
    server = Server(stem, cold=cold)
    early = chance.random() < 0.05
    if early:
        time.sleep(chance.uniform(0, 3 if cold else 0.3))
        server.end()
    else:
        server.wait()
        writers = written(stem, server, notes, unanswered, seed=chance.random())
        until_some_answered(notes, chance.randint(0, answers), chance.uniform(0, 0.3))
        server.end()
        for writer in writers:
            writer.join(30)
    life.kills, life.cold, life.early = life.kills + 1, life.cold + cold, life.early + early
    told = stem.judged_copy(notes)
    life.note(told)
    open_now = {sent.mark for sent in notes.sent.values() if not sent.told}
    life.in_flight += len(open_now)
    life.in_flight_kept += len(open_now & set(told["kept"]))


def last_life(stem: Stem, notes: Notes, life: Life, chance: random.Random) -> None:
    """Everything that was never answered, and some of what was, is sent again; then the server ends in peace."""
    server = Server(stem)
    server.wait()
    unanswered = [sent for sent in notes.sent.values() if not sent.told]
    saved = [sent for sent in notes.sent.values() if sent.told == "saved"]
    writer = Writer(0, server.port, stem.made, notes, 0)
    for sent in unanswered + chance.sample(saved, min(20, len(saved))):
        before = sent.told
        writer.number = int(sent.mark.split("-")[1])
        writer.send(sent)
        life.again += 1
        if before == "saved" and sent.told != "saved":
            life.found["lost"].append(f"{sent.mark} was not known again")
    writer.close()
    server.end(signal.SIGTERM)
    told = stem.judged(notes)
    life.note(told)
    life.saved += len(notes.marks("saved"))
    life.events += told["events"]
    life.statuses += notes.statuses


def many_lives(stem: Stem, kills: int, *, seed: int = 1, book: int = 20, answers: int = 6, told: Any = None) -> Life:
    """So many kills over books of `book` kills each, one cold start in each full book."""
    life, chance, began = Life(), random.Random(seed), time.monotonic()
    while life.kills < kills:
        stem.begin_anew()
        notes = Notes()
        for number in range(min(book, kills - life.kills)):
            one_life(stem, notes, life, chance, cold=number == 12, answers=answers)
        last_life(stem, notes, life, chance)
        life.seconds = time.monotonic() - began
        if told is not None:
            told(life)
    return life
