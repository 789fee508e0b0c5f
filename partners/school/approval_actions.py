"""Approvals, the procedures by which they are got, and who must accept a gift."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.ground.changes import Change, change
from partners.program.desk import Desk
from partners.school.approval_models import AcceptanceRule, Approval, Procedure
from partners.school.approvals import ask_again_on, needed
from partners.school.clock import clock
from partners.school.models import School


def add_approval(
    *,
    desk: Desk,
    school: School,
    what_for: str,
    by: str,
    on: date,
    until: date | None = None,
    paper_held: str = "",
    follows: Approval | None = None,
) -> Approval:
    """`follows` is the approval that this one renews; its end is then no longer a due line.

    With a new yes to the same thing nobody is asked any more in place of somebody who left.
    """
    with change(desk, gettext_noop("Approval by %(by)s recorded"), by=by) as book:
        lapsed = desk.approvals.filter(school=school, what_for=what_for, lapsed_on__isnull=False, renewed=False)
        before = {row.pk: row for row in [*lapsed, *([follows] if follows is not None else [])]}
        book.update_many(before.values(), renewed=True)
        row = Approval(school=school, what_for=what_for, by=by, on=on, until=until, paper_held=paper_held)
        row.ask_on = ask_again_on(clock(desk.program, school.pk), row, needed(desk, school, what_for))
        added = book.add(row)
        book.about(added)
        return added


def add_approvals(*, desk: Desk, school: School, also: Iterable[Approval], **values: Any) -> int:
    """One yes to one thing, and the same to all that lapsed besides and is named in `also`. Returns to how many."""
    with change(desk, gettext_noop("Approval by %(by)s recorded"), by=values["by"]) as book:
        add_approval(desk=desk, school=school, **values)
        things = dict.fromkeys(one.what_for for one in also if one.what_for != values["what_for"])
        for what_for in things:
            add_approval(desk=desk, school=school, **{**values, "what_for": what_for, "follows": None})
        book.about(school)
        return 1 + len(things)


def edit_approval(*, desk: Desk, approval: Approval, seen: int | None = None, **values: Any) -> Approval:
    with change(desk, gettext_noop("Approval by %(by)s changed"), by=approval.by) as book:
        book.update(approval, seen=seen, **values)
        _count_anew(book, desk, approval.school)
        return Approval.objects.get(pk=approval.pk)


def remove_approval(*, desk: Desk, approval: Approval) -> None:
    """Take out one that was entered by mistake. Raises ProtectedError where an ask, a trade or a paper is about it."""
    with change(desk, gettext_noop("Approval by %(by)s taken out"), by=approval.by) as book:
        book.remove(approval)


def lapse_approvals(*, desk: Desk, school: School, approvals: Iterable[Approval], day: date) -> int:
    """They no longer hold from the day on, because who gave them has left. Returns how many."""
    with change(desk, gettext_noop("Approvals at %(school)s that no longer hold"), school=school) as book:
        count = book.update_many(approvals, lapsed_on=day)
        book.about(school)
        return count


def holds_again(*, desk: Desk, approval: Approval) -> Approval:
    """Whoever follows stands by it."""
    with change(desk, gettext_noop("Approval by %(by)s still holds"), by=approval.by) as book:
        return book.update(approval, lapsed_on=None)


def add_procedure(*, desk: Desk, school: School, what_for: str, who: str, **values: Any) -> Procedure:
    with change(desk, gettext_noop("%(who)s must say yes at %(school)s"), who=who, school=school) as book:
        procedure = book.add(Procedure(school=school, what_for=what_for, who=who, **values))
        _count_anew(book, desk, school)
        return procedure


def edit_procedure(*, desk: Desk, procedure: Procedure, seen: int | None = None, **values: Any) -> Procedure:
    with change(desk, gettext_noop("How %(who)s says yes changed"), who=procedure.who) as book:
        book.update(procedure, seen=seen, **values)
        _count_anew(book, desk, procedure.school)
        return procedure


def remove_procedure(*, desk: Desk, procedure: Procedure) -> None:
    """What was approved so far stays."""
    with change(desk, gettext_noop("%(who)s need no longer say yes"), who=procedure.who) as book:
        book.remove(procedure)
        _count_anew(book, desk, procedure.school)


def _count_anew(book: Change, desk: Desk, school: School) -> None:
    """On which day to ask again follows the procedures."""
    calendar = clock(desk.program, school.pk)
    known = {one.what_for: one for one in desk.program.procedures.filter(school=school)}
    rows = desk.program.approvals.filter(school=school)
    days = [(row, ask_again_on(calendar, row, known.get(row.what_for))) for row in rows]
    book.update_each([(row, {"ask_on": day}) for row, day in days if row.ask_on != day])


def add_rule(*, desk: Desk, school: School, from_cents: int, who: str, form: str = "") -> AcceptanceRule:
    with change(desk, gettext_noop("%(who)s decides on gifts at %(school)s"), who=who, school=school) as book:
        return book.add(AcceptanceRule(school=school, from_cents=from_cents, who=who, form=form))


def remove_rule(*, desk: Desk, rule: AcceptanceRule) -> None:
    with change(desk, gettext_noop("%(who)s no longer decides on gifts"), who=rule.who) as book:
        book.remove(rule)
