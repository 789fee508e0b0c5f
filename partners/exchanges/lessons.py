"""How many items a class makes in so many lessons, and how many lessons so many items take. Whole numbers throughout.

Children work side by side. An item that can be finished within one lesson is not left half done over night: it is begun
only where the rest of the lesson is enough for it. An item that takes longer than a lesson is carried on at the next
meeting, and what then is left of that lesson goes into the next item. Common practice; minutes are those for work,
with putting out and tidying up taken off.
"""

from __future__ import annotations


def usable_minutes(lesson_minutes: int, minutes_per_item: int) -> int:
    """The minutes of a lesson that a child can put into items, by the rule above: never 0 where a lesson has any.

    Raises ValueError for an item that takes no time.
    """
    if minutes_per_item < 1:
        raise ValueError("An item takes at least one minute.")
    whole = lesson_minutes // minutes_per_item * minutes_per_item
    return max(whole or lesson_minutes, 0)


def items_in(lessons: int, taking_part: int, lesson_minutes: int, minutes_per_item: int) -> int:
    """The most items that a class finishes in so many lessons."""
    each = lessons * usable_minutes(lesson_minutes, minutes_per_item) // minutes_per_item
    return max(0, taking_part * each)


def lessons_for(items: int, taking_part: int, lesson_minutes: int, minutes_per_item: int) -> int | None:
    """The fewest lessons in which a class finishes so many items; None where nobody takes part or lessons are empty.

    The children share the items evenly, so that the busiest of them sets the number.
    """
    if items <= 0:
        return 0
    usable = usable_minutes(lesson_minutes, minutes_per_item)
    if taking_part < 1 or usable < 1:
        return None
    busiest = -(-items // taking_part)
    return -(-busiest * minutes_per_item // usable)
