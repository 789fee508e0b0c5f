"""A plan of 48 classes in each of three schools: at most 50 ms, and how much of that is the bare arithmetic.

Run `.venv/bin/python -m tests.bench.bench_plan`. The arithmetic alone is the largest remainder, lessons and starts on
lists of numbers, without rows, reasons, bounds or offers.
"""

from __future__ import annotations

from bisect import bisect_right
from datetime import date, timedelta

from partners.exchanges.plan import OfferKind, Plan, PlannedClass, Wish, plan
from partners.school.calendar import SchoolCalendar
from partners.school.cycle import Cycle, numbered_days
from tests.bench.measure import in_turns, ratio

SCHOOLS, CLASSES_EACH = 3, 48
MOST_MS = 50.0
MOST_RATIO = 30.0
ROUNDS = 30
FIRST, LAST = date(2026, 8, 31), date(2027, 6, 10)
CLOSED = [FIRST + timedelta(days=n) for n in (7, 42, 86, 87, 88, *range(115, 127), 140, 168, *range(215, 220))]
SNOW = [FIRST + timedelta(days=n) for n in (99, 130, 155)]
FITS = Wish(at_least=2500, due=date(2027, 3, 5), work_until=date(2027, 3, 3), minutes_per_item=25, minimum=2)
SHORT = Wish(at_least=57_000, due=date(2027, 3, 5), work_until=date(2027, 3, 3), minutes_per_item=25, minimum=2)


def classes() -> list[PlannedClass]:
    """All classes, their meetings of a whole year worked out: a school's days once, then each class picks its own."""
    calendar = SchoolCalendar(CLOSED)
    found = []
    for school in range(SCHOOLS):
        days = list(numbered_days(calendar, FIRST, LAST, Cycle(FIRST, 6, slips=school > 0), SNOW))
        for n in range(CLASSES_EACH):
            key, meetings = school * CLASSES_EACH + n, [day for day, number in days if number == n % 6 + 1]
            one = PlannedClass(
                key=key, label=f"{n}", school=f"{school}", students=16 + n % 11, lesson_minutes=40, meetings=meetings
            )
            found.append(one)
    return found


def whole(wish: Wish) -> Plan:
    return plan(wish, classes())


def arithmetic(wish: Wish, made: list[PlannedClass]) -> list[date]:
    """Shares, lessons and latest starts, and nothing besides."""
    sizes = [one.students for one in made]
    everybody = sum(sizes)
    shares = [wish.at_least * size // everybody for size in sizes]
    rest = [wish.at_least * size % everybody for size in sizes]
    for place in sorted(range(len(sizes)), key=lambda place: -rest[place])[: wish.at_least - sum(shares)]:
        shares[place] += 1
    per_lesson = 40 // wish.minutes_per_item
    lessons = [-(-share // (size * per_lesson)) for share, size in zip(shares, sizes, strict=True)]
    return [one.meetings[bisect_right(one.meetings, wish.work_until) - n] for one, n in zip(made, lessons, strict=True)]


def table() -> bool:
    """Prints the figures; whether the longest is within the bound, and the ratio within its own."""
    made = classes()
    if not plan(FITS, made).fits or len(plan(SHORT, made).offers) < len(OfferKind):
        raise RuntimeError("These plans no longer measure what they say.")
    works = {
        "arithmetic alone": lambda: arithmetic(FITS, made),
        "plan that fits": lambda: plan(FITS, made),
        "the same with all meetings of the year": lambda: whole(FITS),
        "plan that does not fit, with all offers": lambda: plan(SHORT, made),
        "the same with all meetings of the year ": lambda: whole(SHORT),
    }
    times = in_turns(works, ROUNDS)
    for name, took in times.items():
        print(f"{name.strip():<40} {min(took):7.2f} ms")
    over = ratio(times, "plan that fits", "arithmetic alone")
    longest = max(min(took) for took in times.values())
    print(f"plan to arithmetic alone: {over:.1f} (at most {MOST_RATIO:.0f}); longest at most {MOST_MS:.0f} ms")
    return longest < MOST_MS and over < MOST_RATIO


if __name__ == "__main__":
    table()
