"""A loss of power: what a disk may hold at that moment opens as a whole book with everything that was answered "saved".

SQLite says of a file and its log (sqlite.org/wal.html, sqlite.org/atomiccommit.html), where each commit is brought to
the disk before it is answered, as `synchronous=FULL` asks: what was in the log when a commit was answered is on the
disk; of what came later any part may be, whole, torn or as rubbish; pages of the file itself are older or newer, as it
comes; and the log is only begun anew once the file is on the disk. So the copies here are made.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.faults.harness import FILES, FOUND, Notes, Server, Stem, written

BOOK, LOG, INDEX = FILES


def head(path: Path) -> bytes:
    """The first bytes of a log: they change when it is begun anew."""
    with path.open("rb") as file:
        return file.read(32)


def cut(stem: Stem, folder: Path, chance: random.Random) -> bool:
    """What a disk might hold if the power went while this runs; whether this was within one life of the log."""
    folder.mkdir(exist_ok=True)
    for name in FILES:
        (folder / name).unlink(missing_ok=True)
    begun, synced = head(stem.data / LOG), (stem.data / LOG).stat().st_size
    shutil.copyfile(stem.data / BOOK, folder / BOOK)
    time.sleep(chance.uniform(0, 0.05))
    mixed(folder / BOOK, (stem.data / BOOK).read_bytes(), chance)
    time.sleep(chance.uniform(0, 0.05))
    log = (stem.data / LOG).read_bytes()
    keep = chance.randint(synced, len(log)) if len(log) > synced else len(log)
    rubbish = chance.randbytes(chance.choice([0, 0, 512, 4096]))
    (folder / LOG).write_bytes(log[:keep] + rubbish)
    if chance.random() < 0.5:
        (folder / INDEX).write_bytes(chance.choice([(stem.data / INDEX).read_bytes(), chance.randbytes(32_768)]))
    return head(stem.data / LOG) == begun and len(begun) == 32


def mixed(path: Path, later: bytes, chance: random.Random) -> None:
    """Some pages of the copy as they are later."""
    pages = bytearray(path.read_bytes())
    for start in range(0, min(len(pages), len(later)), 4096):
        if chance.random() < 0.5:
            pages[start : start + 4096] = later[start : start + 4096]
    path.write_bytes(pages)


def many_cuts(stem: Stem, cuts: int, seed: int = 1) -> tuple[int, dict[str, list[str]]]:
    """How many were answered "saved" before the last of so many cuts, and what was found wrong after any."""
    chance, done, notes = random.Random(seed), 0, Notes()
    found: dict[str, list[str]] = {name: [] for name in FOUND}
    server = Server(stem)
    server.wait()
    writers = written(stem, server, notes, [], seed=seed)
    saved: list[str] = []
    while done < cuts:
        time.sleep(chance.uniform(0.05, 0.5))
        saved = notes.marks("saved")
        if not saved or not cut(stem, stem.folder / "cut", chance):
            continue
        done += 1
        told = stem.ask("judge", name=str(stem.folder / "cut" / BOOK), seed=stem.seed, saved=saved)
        for name in FOUND:
            found[name] += told[name]
    server.end()
    for writer in writers:
        writer.join(30)
    return len(saved), found


def test_a_book_whose_power_was_cut_is_whole_and_has_what_was_saved(stem: Stem) -> None:
    saved, found = many_cuts(stem, 3)
    assert found == {name: [] for name in FOUND}
    assert saved


@pytest.mark.nightly
def test_two_hundred_cuts(stem: Stem) -> None:
    total = 0
    for seed in range(10):
        stem.begin_anew()
        saved, found = many_cuts(stem, 20, seed)
        assert found == {name: [] for name in FOUND}
        total += saved
    print(f"\n200 cuts, {total} answered saved before them, nothing lost or half; load {os.getloadavg()[0]:.1f}")


@contextmanager
def disk(image: Path, folder: Path) -> Iterator[None]:
    """A disk of its own for the folder: what was not brought to it is not in the image."""
    mounted = subprocess.run(["mount", "-o", "loop", image, folder], check=False, capture_output=True)
    if mounted.returncode:
        pytest.skip("this machine lets nobody mount")
    try:
        yield
    finally:
        subprocess.run(["umount", "-l", folder], check=False)


@pytest.mark.nightly
@pytest.mark.skipif(os.geteuid() != 0 or not shutil.which("mkfs.ext4"), reason="only root may make a disk")
def test_what_was_saved_had_reached_the_disk(tmp_path: Path) -> None:
    """Twenty images of a disk, taken while its file system had brought no more to it than it was asked to."""
    image, taken, other = tmp_path / "disk", tmp_path / "taken", tmp_path / "other"
    stem = Stem(tmp_path / "stem")
    other.mkdir()
    image.write_bytes(bytes(48 << 20))
    subprocess.run(["mkfs.ext4", "-q", image], check=True)
    chance, counted = random.Random(1), 0
    with disk(image, stem.data):
        stem.begin_anew()
        subprocess.run(["sync", "-f", stem.data], check=True)
        server, notes = Server(stem), Notes()
        server.wait()
        writers = written(stem, server, notes, [], seed=1)
        for _cut in range(20):
            time.sleep(chance.uniform(0.2, 1))
            os.kill(server.pid, signal.SIGSTOP)
            saved = notes.marks("saved")
            shutil.copyfile(image, taken)
            os.kill(server.pid, signal.SIGCONT)
            with disk(taken, other):
                told = stem.ask("judge", name=str(other / BOOK), seed=stem.seed, saved=saved)
            assert {name: told[name] for name in FOUND} == {name: [] for name in FOUND}
            counted += 1
        server.end()
        for writer in writers:
            writer.join(30)
    stem.end()
    print(f"\n{counted} disks, {len(saved)} answered saved before the last, nothing lost")
