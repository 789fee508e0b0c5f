"""Who must say yes to what at a school, and whether a yes is held: what pages ask before work begins."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.program.desk import Desk
from partners.school.approval_models import Approval, ApprovalFor, Procedure
from partners.school.calendar import SchoolCalendar
from partners.school.clock import clock
from partners.school.days_ahead import days_before
from partners.school.models import School


@dataclass(frozen=True)
class Standing:
    """How one thing stands at one school. `ask_by` is the last day to ask for a yes to what `begins` then.

    Where a yes is needed anew each time, `approval` is only the last one that was given, and proves nothing.
    """

    school: School
    what_for: str
    day: date
    procedure: Procedure | None = None
    approval: Approval | None = None
    ask_by: date | None = None

    @property
    def label(self) -> str:
        return str(ApprovalFor(self.what_for).label)

    @property
    def holds(self) -> bool:
        return self.approval is not None and not (self.procedure is not None and self.procedure.each_time)

    @property
    def lacks(self) -> bool:
        """Somebody must say yes, and nobody has."""
        return self.procedure is not None and not self.holds

    @property
    def heading(self) -> str:
        if self.holds:
            return _("A yes is held")
        if self.procedure is None:
            return _("Who must say yes?")
        return _("Needs a yes each time") if self.procedure.each_time else _("Needs a yes first")

    @property
    def sentence(self) -> str:
        """Who must say yes, on which form and by when; or who did."""
        facts = {"what": self.label, "school": self.school.name}
        if self.holds:
            return _("Yes to %(what)s at %(school)s: %(yes)s.") % {**facts, "yes": self.given}
        if self.procedure is None:
            return _("It is not written down who must say yes to %(what)s at %(school)s. Ask the office once.") % facts
        first = _("At %(school)s, %(who)s must say yes to %(what)s") % {**facts, "who": self.procedure.who}
        form = _("form: %(form)s") % {"form": self.procedure.form} if self.procedure.form else ""
        return "; ".join(part for part in (first, form, self.ahead) if part) + "."

    @property
    def given(self) -> str:
        """Who said yes on which day, and until when."""
        if self.approval is None:
            return ""
        words = f"{self.approval.by}, {date_format(self.approval.on, 'DATE_FORMAT')}"
        if self.approval.until is None:
            return words
        return _("%(yes)s, until %(day)s") % {"yes": words, "day": date_format(self.approval.until, "DATE_FORMAT")}

    @property
    def ahead(self) -> str:
        """By when to ask for it."""
        days = self.procedure.days_ahead if self.procedure is not None else None
        if self.ask_by is not None:
            late = self.ask_by < self.day
            words = _("ask at once, %(day)s would have been in time") if late else _("ask by %(day)s")
            return words % {"day": date_format(self.ask_by, "DATE_FORMAT")}
        if not days:
            return ""
        return ngettext("ask %(days)d school day ahead", "ask %(days)d school days ahead", days) % {"days": days}


def held(desk: Desk, school: School | None, what_for: str, day: date) -> Approval | None:
    """The yes that counts on the day, the latest of several."""
    if school is None:
        return None
    found: Approval | None = desk.approvals.valid_on(day, what_for).filter(school=school).first()
    return found


def needed(desk: Desk, school: School | None, what_for: str) -> Procedure | None:
    """What is written down about who must say yes to it."""
    if school is None:
        return None
    found: Procedure | None = desk.procedures.filter(school=school, what_for=what_for).first()
    return found


def standing(desk: Desk, school: School | None, what_for: str, begins: date | None = None) -> Standing | None:
    """For `school/_procedure.html`. Without a school it is the only one there is; of several nobody knows which."""
    if school is None:
        schools = list(desk.schools[:2])
        if len(schools) != 1:
            return None
        school = schools[0]
    procedure = needed(desk, school, what_for)
    ask_by = None
    if procedure is not None and procedure.days_ahead and begins is not None:
        ask_by = days_before(clock(desk.program, school.pk), begins, procedure.days_ahead)
    return Standing(school, what_for, desk.day, procedure, held(desk, school, what_for, desk.day), ask_by)


def lacking(desk: Desk, school: School | None, what_for: str, begins: date | None = None) -> Standing | None:
    """For pages on which only a yes that is missing is news."""
    found = standing(desk, school, what_for, begins)
    return found if found is not None and found.lacks else None


def ask_again_on(calendar: SchoolCalendar, approval: Approval, procedure: Procedure | None) -> date | None:
    """The day on which to ask again, so that the next yes is there when this one ends; None where nothing ends.

    A yes to one thing only (each time anew) is not asked for again. Never before the day it was given.
    """
    if approval.until is None or (procedure is not None and procedure.each_time):
        return None
    ahead = procedure.days_ahead or 0 if procedure is not None else 0
    return max(approval.on, days_before(calendar, approval.until, ahead))
