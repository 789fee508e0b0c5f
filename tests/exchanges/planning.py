"""Classes and wishes for the tests of the plan, and children who work through their lessons."""

from datetime import date, timedelta

from partners.exchanges.plan import PlannedClass, Wish

MONDAY = date(2026, 10, 5)
DUE = date(2026, 11, 6)
LAST_WORK = date(2026, 11, 4)


def make_wish(at_least=60, **given):
    usual = {"due": DUE, "work_until": LAST_WORK, "minutes_per_item": 20}
    return Wish(at_least=at_least, **{**usual, **given})


def weekly(first=MONDAY, weeks=8):
    return [first + timedelta(weeks=week) for week in range(weeks)]


def make_class(key=1, students=20, **given):
    usual = {"label": f"{key}A", "school": "Millrace Elementary", "lesson_minutes": 40, "meetings": weekly()}
    return PlannedClass(key=key, students=students, **{**usual, **given})


def worked(children, lesson, item, lessons, pile):
    """How many of a pile are finished: a free child takes the next item, and one that fits into a lesson is begun only
    where it will be finished in this one.
    """
    waiting, finished = pile, 0
    still_to_do = [0] * children
    for _lesson in range(lessons):
        time = [lesson] * children
        for _turn in range(lesson):
            for child in range(children):
                if not still_to_do[child] and waiting and (item > lesson or item <= time[child]):
                    still_to_do[child], waiting = item, waiting - 1
                if still_to_do[child] and time[child]:
                    worked_now = min(time[child], still_to_do[child])
                    time[child] -= worked_now
                    still_to_do[child] -= worked_now
                    finished += not still_to_do[child]
    return finished
