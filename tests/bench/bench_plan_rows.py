"""A plan of 48 classes in each of three schools out of the database: at most 50 ms, queries and all.

Run `.venv/bin/python -m tests.bench.bench_plan_rows`. Measured in a SQLite book of its own, beside the plan alone on
rows that were gathered before, and with what hangs on the calendar worked out anew for every class, as a snow day does.
"""

from __future__ import annotations

import json
import sys
import tempfile
from datetime import date, timedelta
from typing import Any

from tests.bench.measure import apart, in_turns, ratio

MODULE = "tests.bench.bench_plan_rows"
SCHOOLS, CLASSES_EACH = 3, 48
MOST_MS = 50.0
ROUNDS = 30
DAY = date(2026, 10, 6)


def make_trade() -> Any:
    """A trade of 2,500 items for 144 classes of three schools: one with weekdays, two with a cycle of six days."""
    from partners.directory.actions import add_partner
    from partners.exchanges.actions import agree
    from partners.exchanges.plan_actions import choose_classes
    from partners.program.desk import Desk
    from partners.program.models import Program
    from partners.school import actions as school

    desk = Desk(program=Program.objects.create(name="Alder Falls Art"), day=DAY)
    chosen = []
    for place, name in enumerate(("Millrace", "North Ridge", "Quarry Hill")):
        cycle = {"cycle_length": 6, "cycle_from": date(2026, 8, 31), "cycle_slips": place == 1} if place else {}
        at = school.add_school(desk=desk, name=f"{name} Elementary", **cycle)
        for days, title in ((42, "Recess"), (86, "Break"), (99, "Snow"), (140, "Holiday")):
            first = date(2026, 8, 31) + timedelta(days=days)
            kind = "unplanned" if title == "Snow" else "closed"
            school.add_days(desk=desk, school=at, first=first, last=first + timedelta(days=2), kind=kind, title=title)
        for n in range(CLASSES_EACH):
            on = [n % 6 + 1] if place else [n % 5]
            values = {"grade": n % 6, "students": 16 + n % 11, "meets_on": on, "minutes": 40}
            chosen.append((school.add_class(desk=desk, school=at, label=f"{n}", **values), n % 3))
    partner = add_partner(desk=desk, name="Riverbend Garden Center")
    promised = {"at_least": 2500, "due": date(2027, 3, 5), "minutes_per_item": 25, "minimum": 2}
    trade = agree(desk=desk, partner=partner, what="decorated seed packets", gives=[], **promised)
    choose_classes(desk=desk, trade=trade, classes=chosen)
    return trade


def measure() -> dict[str, float]:
    import django

    django.setup()
    from django.core.management import call_command

    from partners.exchanges.plan import plan
    from partners.exchanges.planning import gather, plan_of
    from partners.exchanges.stored_plan import differing_rows

    call_command("migrate", verbosity=0)
    trade = make_trade()
    program = trade.program
    gathered = gather(program, trade, DAY)
    if len(gathered.rows) != SCHOOLS * CLASSES_EACH or not plan_of(program, trade, DAY).fits:
        raise RuntimeError("This plan no longer measures what it says.")
    works = {
        "plan alone": lambda: plan(gathered.wish, gathered.classes),
        "with the queries": lambda: plan_of(program, trade, DAY),
        "what is stored, anew": lambda: differing_rows(program),
    }
    times = in_turns(works, ROUNDS)
    over = ratio(times, "with the queries", "plan alone")
    return {**{name: min(took) for name, took in times.items()}, "ratio": over}


def table() -> bool:
    """Prints the figures; whether all is within the bound."""
    with tempfile.TemporaryDirectory(prefix="partner-book-bench-") as folder:
        told = apart(MODULE, "measure", PARTNER_BOOK_DATA=folder, DJANGO_SETTINGS_MODULE="partners.config.settings")
    over = told.pop("ratio")
    for name, took in told.items():
        print(f"{name:<40} {took:7.2f} ms")
    print(f"with the queries to the plan alone: {over:.1f}; each at most {MOST_MS:.0f} ms")
    return bool(max(told.values()) < MOST_MS)


if __name__ == "__main__":
    print(json.dumps(measure()) if sys.argv[1:] == ["measure"] else table())
