"""What a file would do to the book, in words: shown before anything is saved."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext, gettext_noop, ngettext
from django.utils.translation import gettext as _

from partners.directory.models import BusinessKind, CountedPer, HowOften, MayName, PartnerKind
from partners.directory.phones import national
from partners.ground.plain import PlainError
from partners.school.class_words import short_grade
from partners.story.kinds import KINDS
from partners.story.planned import Becomes, Plan, Planned

SHOWN = 100
# From so many rows on the page that saves tells how far it is.
LONG = 500
# As measured on a slow machine, by tests/bench/bench_files.py.
ROWS_A_SECOND = 500
CHOICES: dict[str, Any] = {
    "kind": PartnerKind, "business_kind": BusinessKind, "how_often": HowOften, "counted_per": CountedPer,
    "may_name": MayName,
}  # fmt: skip
WORDS = {
    Becomes.WRONG: gettext_noop("needs mending"),
    Becomes.NEW: gettext_noop("is added"),
    Becomes.CHANGED: gettext_noop("is changed"),
    Becomes.SAME: gettext_noop("stands so already"),
    Becomes.LEFT: gettext_noop("is in the book already and stays as it is"),
}
ORDER = list(WORDS)


def sentence(error: PlainError) -> str:
    return gettext(error.sentence) % error.facts


def context_of(plan: Plan) -> dict[str, Any]:
    """Counts and the rows that matter most: first what is wrong, then what is to be looked at, then what changes."""
    ranked = sorted(
        plan.rows, key=lambda row: (ORDER.index(row.becomes) > 0, not row.remarks, ORDER.index(row.becomes))
    )
    todo = plan.count(Becomes.NEW, Becomes.CHANGED)
    return {
        "plan": plan,
        "whole": [sentence(error) for error in plan.wrong],
        "counts": {str(one): plan.count(one) for one in Becomes},
        "remarked": sum(bool(row.remarks) and not row.line.wrong for row in plan.rows),
        "all": len(plan.rows),
        "new_partners": len(plan.new_partners),
        "todo": todo,
        "seconds": max(1, round(todo / ROWS_A_SECOND)) if todo > LONG else 0,
        "rows": [shown(plan, row) for row in ranked[:SHOWN]],
        "further": max(0, len(ranked) - SHOWN),
    }


def shown(plan: Plan, row: Planned) -> dict[str, Any]:
    becomes = row.becomes
    return {
        "number": row.line.number,
        "title": title(plan, row),
        "becomes": gettext(WORDS[becomes]),
        "wrong": [
            {"cell": one.cell, "head": one.head if one.cell else "", "sentence": sentence(one.error)}
            for one in row.line.wrong
        ],
        "told": [sentence(error) for error in row.remarks] if becomes is not Becomes.WRONG else [],
        "changes": changes(plan, row) if becomes is Becomes.CHANGED else [],
    }


def title(plan: Plan, row: Planned) -> str:
    day = row.values.get("day")
    parts = [row.title, row.values.get("partner", "") if row.values.get("partner") != row.title else ""]
    parts.append(date_format(day, "DATE_FORMAT") if isinstance(day, date) else "")
    return ", ".join(filter(None, parts))


def changes(plan: Plan, row: Planned) -> list[str]:
    """`Phone: (201) 555-0123 → (201) 555-0144`; what is new stands alone."""
    labels = {one.name: gettext(one.label) for one in KINDS[plan.kind].columns}
    found = []
    for name, value in row.changes.items():
        before, after = words(name, row.before.get(name)), words(name, value)
        both = _("%(before)s → %(after)s") % {"before": before, "after": after} if before else after
        found.append(_("%(column)s: %(change)s") % {"column": labels[name], "change": both})
    return found


def words(name: str, value: Any) -> str:
    if value in (None, "", []):
        return ""
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, date):
        return date_format(value, "DATE_FORMAT")
    if name == "phone":
        return national(value)
    if name == "grade":
        return short_grade(value)
    if name in CHOICES:
        return str(CHOICES[name](value).label)
    listed = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    return listed if len(listed) <= 80 else f"{listed[:80]} …"


def saved_words(plan: Plan) -> str:
    """What was done, in one sentence for each kind of thing."""
    added, changed, places = plan.count(Becomes.NEW), plan.count(Becomes.CHANGED), len(plan.new_partners)
    told = []
    if added:
        told.append(ngettext("%(count)s row added.", "%(count)s rows added.", added) % {"count": f"{added:,}"})
    if places:
        words = ngettext("%(count)s new partner with them.", "%(count)s new partners with them.", places)
        told.append(words % {"count": f"{places:,}"})
    if changed:
        told.append(ngettext("%(count)s row changed.", "%(count)s rows changed.", changed) % {"count": f"{changed:,}"})
    return " ".join(told) or _("All of it stands in the book already. Nothing was changed.")
