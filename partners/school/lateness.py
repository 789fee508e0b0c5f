"""How late a due line is, in words."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.utils.translation import ngettext

from partners.ground.due import DueLine, Hand
from partners.school.calendar import SchoolCalendar, together


class Lateness:
    """Counts school days: those of a line's school, else of all schools together."""

    def __init__(self, known: Mapping[int, SchoolCalendar], day: date) -> None:
        self.known, self.all_schools, self.day = known, together(known.values()), day

    def of(self, line: DueLine) -> str:
        """One that says from when it is late is overdue before that; who has gone quiet is not late."""
        if line.due >= self.day or line.hand is Hand.QUIET:
            return ""
        days = self.known.get(line.school_id or 0, self.all_schools).count(line.due, self.day)
        if days <= 0:
            return ""
        if line.late_from is not None and self.day < line.late_from:
            words = ngettext("%(days)d school day overdue", "%(days)d school days overdue", days)
        else:
            words = ngettext("%(days)d school day late", "%(days)d school days late", days)
        return words % {"days": days}
