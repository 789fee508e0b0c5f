"""The monthly review, Today and saving a visit, in a small and a very large book; prints a table.

    python3 manage.py test tests/bench -s                                        # this and the letters
    .venv/bin/python -m tests.bench.bench_review                                 # this alone
    PARTNER_BOOK_BENCH_ROWS=10000 .venv/bin/python -m tests.bench.bench_review   # one size

PARTNER_BOOK_BENCH_ROWS names the sizes, in follow-ups; without it 10,000 and 1,000,000. Each is a SQLite book made for
the run by partners/config/large_book.py; the large one takes minutes and 0.7 GB. Every request goes through the whole
site: middleware, session, person, view, template. Works take turns, and a ratio is the middle of those of each round.

ms        processor time, the middle of many runs; "clock ms" also counts waiting, for the disk or for the processor
to plain  to a hand-written template of the same lines with the same buttons (plain_pages.py) behind the same
          middleware, every value worked out before and no row asked for
to asked  to the same template where it asks for its rows as the page does
to words  to a hand-written template of the same lines without any button and no row asked for
to floor  to SQLite alone: the same statements through sqlite3, the lines joined by an f-string; for the save, the same
          statements in one transaction
steps     instructions that SQLite carried out, which do not depend on the machine
peak MiB  of a process that does nothing else
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any

from tests.bench.measure import apart, in_turns, peak_mib, ratio

MODULE = "tests.bench.bench_review"
SIZES = (10_000, 1_000_000)
WORKS = ("review", "today", "save")
ROUNDS = 40
MOST_TO_PLAIN = 2.0
MOST_GROWTH = 1.2


def sizes() -> list[int]:
    told = os.environ.get("PARTNER_BOOK_BENCH_ROWS", "")
    return [int(word) for word in told.replace("_", "").split(",") if word.strip()] or list(SIZES)


def set_up() -> None:
    import django

    django.setup()
    from django.conf import settings

    settings.ROOT_URLCONF = "tests.bench.plain_pages"


def load(rows: int) -> dict[str, float]:
    """Makes the book in the data folder."""
    set_up()
    from django.conf import settings
    from django.core.management import call_command
    from django.db import connection
    from django.utils import timezone

    from partners.config.large_book import load_large

    call_command("migrate", verbosity=0)
    began = time.perf_counter()
    load_large(rows, timezone.localdate())
    seconds = time.perf_counter() - began
    connection.close()
    return {"seconds": seconds, "mib": Path(settings.DATABASES["default"]["NAME"]).stat().st_size / 2**20}


def measure(work: str, folders: list[str]) -> list[dict[str, float]]:
    """One kind of work in each of the books, in turns with what it is compared to."""
    set_up()
    from tests.bench.books import Book

    books = [Book(Path(folder)) for folder in folders]
    works: dict[tuple[str, int], Callable[[], Any]] = {}
    for place, book in enumerate(books):
        for way, do in book.ways(work).items():
            works[way, place] = do
    clock: dict[int, list[float]] = {place: [] for place in range(len(books))}
    for place in clock:
        works["ours", place] = timed(works["ours", place], clock[place])
    times = in_turns(works, ROUNDS)
    return [figures(work, times, place, book, books[0], clock[place]) for place, book in enumerate(books)]


def timed(work: Callable[[], Any], clock: list[float]) -> Callable[[], Any]:
    """The work, which also writes down how long it took by the clock: what a disk takes is no processor time."""

    def run() -> None:
        began = time.perf_counter()
        work()
        clock.append((time.perf_counter() - began) * 1000)

    return run


def figures(work: str, times: Any, place: int, book: Any, first: Any, clock: list[float]) -> dict[str, float]:
    found = {"ms": median(times["ours", place]), "clock": median(clock), **book.counted(work)}
    for way in ("plain", "asked", "words", "floor"):
        if (way, place) in times:
            found[way] = ratio(times, ("ours", place), (way, place))
    found["growth"] = ratio(times, ("ours", place), ("ours", 0))
    return found


def peak(work: str, folder: str) -> dict[str, float]:
    """Memory of a process that does this work ten times and nothing else."""
    set_up()
    from tests.bench.books import Book

    ours = Book(Path(folder)).ways(work, compared=False)["ours"]
    for _time in range(10):
        ours()
    return {"mib": peak_mib()}


def ask(folder: str, *words: str) -> Any:
    given = {"PARTNER_BOOK_DATA": folder, "DJANGO_SETTINGS_MODULE": "partners.config.settings"}
    return apart(MODULE, *words, **given)


def table(books: dict[int, str]) -> dict[str, list[dict[str, float]]]:
    """Prints the figures of the books in these folders, and whether the targets are met; gives the figures."""
    folders = list(books.values())
    print(
        f"{'page':>8} {'follow-ups':>11} {'ms':>7} {'clock ms':>9} {'to plain':>9} {'to asked':>9} {'to words':>9} "
        f"{'to floor':>9} {'queries':>8} {'steps':>7} {'KB':>5} {'peak MiB':>9}"
    )
    told = {}
    for work in WORKS:
        told[work] = ask(folders[0], "measure", work, *folders)
        for rows, folder, row in zip(books, folders, told[work], strict=True):
            ratios = [f"{row[way]:>8.2f}x" if way in row else f"{'-':>9}" for way in ("plain", "asked", "words")]
            mib = ask(folder, "peak", work, folder)["mib"]
            print(
                f"{work:>8} {rows:>11,} {row['ms']:>7.1f} {row['clock']:>9.1f} {' '.join(ratios)} "
                f"{row['floor']:>8.1f}x {row['queries']:>8.0f} {row['steps']:>7,.0f} {row['kb']:>5.0f} {mib:>9.1f}",
                flush=True,
            )
    for line in verdicts(told, list(books)):
        print(line)
    return told


def verdicts(told: dict[str, list[dict[str, float]]], rows: list[int]) -> list[str]:
    def met(is_so: bool) -> str:
        return "met" if is_so else "NOT met"

    found = []
    for way, what in (("plain", "no row asked for"), ("asked", "the same rows asked for")):
        worst = max(row[way] for row in told["review"])
        found.append(
            f"review: {worst:.2f} times a hand-written template of the same lines, {what} (target {MOST_TO_PLAIN}): "
            f"{met(worst <= MOST_TO_PLAIN)}"
        )
    if len(rows) > 1:
        grown = {work: row[-1]["growth"] for work, row in told.items()}
        words = ", ".join(f"{work} {growth:.2f}" for work, growth in grown.items())
        found.append(
            f"{rows[-1]:,} to {rows[0]:,} follow-ups: {words} (target for the review {MOST_GROWTH}): "
            f"{met(grown['review'] <= MOST_GROWTH)}"
        )
        same = all(len({row["queries"] for row in each}) == 1 for each in told.values())
        found.append(f"the same number of queries at every size: {met(same)}")
    return found


def run() -> dict[str, list[dict[str, float]]]:
    """Makes the books for this run and prints the table."""
    with tempfile.TemporaryDirectory(prefix="partner-book-bench-") as place:
        books = {}
        for rows in sizes():
            books[rows] = str(Path(place) / str(rows))
            made = ask(books[rows], "load", str(rows))
            print(f"a book of {rows:,} follow-ups: made in {made['seconds']:.0f} s, {made['mib']:,.0f} MiB", flush=True)
        return table(books)


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["load", rows]:
            print(json.dumps(load(int(rows))))
        case ["measure", work, *folders]:
            print(json.dumps(measure(work, folders)))
        case ["peak", work, folder]:
            print(json.dumps(peak(work, folder)))
        case _:
            run()
