"""How many items one lesson gives when everybody finishes. Pure."""

from __future__ import annotations


def whole_lesson(left: int, children: int, lesson_minutes: int | None, minutes_per_item: int) -> int:
    """Each child finishes as many items as fit into the lesson, and at least one; never more than are left.

    An item that takes several lessons is finished in the last of them, so such a lesson gives one for each child. Where
    the minutes of a lesson are not known it is one as well.
    """
    each = max(1, (lesson_minutes or 0) // max(1, minutes_per_item))
    return max(0, min(left, children * each))
