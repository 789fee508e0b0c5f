"""Twenty thousand rows read in and taken back, and a book of more than 100,000 rows written out.

Run `.venv/bin/python -m tests.bench.bench_files`. Each part is a process of its own, with a SQLite book made for it.

s          processor time of the step
MiB        the most memory that the process held until the step's end
first s    processor time until the first piece of a file that is written out was there
"""

from __future__ import annotations

import json
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from typing import Any

from tests.bench.measure import apart, peak_mib

MODULE = "tests.bench.bench_files"
ROWS = 20_000
# Visits, asks and follow-ups each; with gifts, lines, thanks and promises these are more than 100,000 rows.
FOLLOW_UPS = 30_000
MOST_EXPORT_MIB = 128.0


def begun() -> None:
    import django

    django.setup()
    from partners.config.new_database import is_new, make_tables

    if is_new():
        make_tables()


def measure_in() -> list[tuple[str, float, float]]:
    begun()
    from django.utils import timezone

    from partners.agenda.actions import take_back
    from partners.ground.models import Event
    from partners.ground.table_in import read_table
    from partners.program.actions import set_up
    from partners.story.import_actions import import_rows
    from tests.story.files import csv_file, planned, xlsx_file

    desk, _password = set_up(name="June", program_name="Files", day=timezone.localdate())
    head = ["Name", "Kind", "People", "Phone", "E-mail", "Street", "Town", "State", "ZIP code", "Notes"]
    shops = [
        [f"Shop {n}", "Business", f"Person {n}", f"201-555-01{n % 100:02d}", f"a{n}@example.org", f"{n} Elm St",
         "Alder Falls", "MN", "01234", "comes by"]
        for n in range(ROWS)
    ]  # fmt: skip
    day = desk.day.isoformat()
    gifts = [[day, f"Shop {n}", "offcuts", 9] for n in range(ROWS)]
    content, given = csv_file(head, *shops), csv_file(["Date", "From", "What", "How many"], *gifts)
    sheet = xlsx_file(head, *shops)
    told: list[tuple[str, float, float]] = []

    def step(name: str, work: Callable[[], Any]) -> Any:
        began = time.process_time()
        made = work()
        told.append((name, time.process_time() - began, peak_mib()))
        return made

    step("CSV into cells", lambda: read_table(content))
    step("XLSX into cells", lambda: read_table(sheet))
    plan = step("partners: look at", lambda: planned(desk, "partners", content))
    step("partners: save", lambda: import_rows(desk=desk, plan=plan))
    step("the same again", lambda: planned(desk, "partners", content))
    plan = step("gifts: look at", lambda: planned(desk, "gifts", given))
    step("gifts: save", lambda: import_rows(desk=desk, plan=plan))
    step("gifts: take back", lambda: take_back(desk=desk, event=Event.objects.latest("pk")))
    saved = Event.objects.filter(about_model="partner").earliest("pk")
    step("partners: take back", lambda: take_back(desk=desk, event=saved))
    return told


def make_large() -> list[tuple[str, float, float]]:
    """The book that is written out, made once for all forms."""
    begun()
    from django.utils import timezone

    from partners.config.large_book import load_large

    began = time.process_time()
    load_large(FOLLOW_UPS, timezone.localdate())
    return [("made", time.process_time() - began, peak_mib())]


def measure_out(form: str) -> list[tuple[str, float, float]]:
    begun()
    from django.utils import timezone

    from partners.program.desk import Desk, row_names
    from partners.program.models import Program
    from partners.story import export_all

    desk = Desk(program=Program.objects.get(), day=timezone.localdate())
    rows = sum(model._base_manager.count() for model in row_names().values())
    before = peak_mib()
    began = time.process_time()
    chunks: Iterator[bytes] = getattr(export_all, form)(desk)
    size = len(next(chunks))
    first = time.process_time() - began
    size += sum(map(len, chunks))
    took = time.process_time() - began
    return [(f"{form}: {rows:,} rows", took, peak_mib()), ("first", first, before), ("MB", size / 1e6, 0.0)]


def table() -> bool:
    """Prints the figures; whether writing out stays within its memory."""
    with tempfile.TemporaryDirectory(prefix="partner-book-bench-") as folder:
        settings = {"PARTNER_BOOK_DATA": folder, "DJANGO_SETTINGS_MODULE": "partners.config.settings"}
        told = apart(MODULE, "in", **settings)
    print(f"{f'{ROWS:,} rows in':<30}{'s':>8}{'rows/s':>10}{'MiB':>8}")
    for name, seconds, mib in told:
        print(f"{name:<30}{seconds:>8.1f}{ROWS / seconds:>10,.0f}{mib:>8.0f}")
    print(f"{'the whole book out':<30}{'s':>8}{'first s':>10}{'MiB':>8}{'grew':>8}{'MB':>8}")
    most = 0.0
    with tempfile.TemporaryDirectory(prefix="partner-book-bench-") as folder:
        settings["PARTNER_BOOK_DATA"] = folder
        apart(MODULE, "made", **settings)
        for form in ("zip_of_csv", "one_xlsx", "one_json"):
            (name, seconds, mib), (_first, first, before), (_mb, size, _none) = apart(MODULE, form, **settings)
            print(f"{name:<30}{seconds:>8.1f}{first:>10.2f}{mib:>8.0f}{mib - before:>8.0f}{size:>8.1f}")
            most = max(most, mib)
    return most < MOST_EXPORT_MIB


if __name__ == "__main__":
    steps: dict[str, Callable[[], list[tuple[str, float, float]]]] = {"in": measure_in, "made": make_large}
    words = sys.argv[1:]
    print(json.dumps(steps[words[0]]() if words[0] in steps else measure_out(words[0])) if words else table())
