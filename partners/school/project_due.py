"""What a project asks for: each side's parts by their days, and at its end what it became."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import QuerySet

from partners.ground.due import Act, DueLine, DueSource, Hand
from partners.ground.links import row_link
from partners.ground.words import gettext as _
from partners.school import project_actions
from partners.school.project_models import Does, PartBy

BECAME, OURS, THEIRS = "school.became", "school.part", "school.colleague"
OF_PART = (
    "pk", "due", "what", "does", "project_id", "project__title", "project__colleague_id", "project__colleague__name",
    "project__colleague__phone", "project__school_id", "project__school__name",
)  # fmt: skip


def _became(row: tuple[Any, ...], day: date) -> DueLine:
    pk, due, title, school_id, school = row
    return DueLine(
        source=BECAME,
        pk=pk,
        due=due,
        hand=Hand.WRITE,
        verb=_("Say what it became:"),
        who=title,
        who_url=row_link("school:project-detail", pk),
        what=_("one sentence"),
        why=_("the project ended; letters of thanks and reports use that sentence"),
        school_id=school_id,
        school=school or "",
        acts=(
            Act(_("Write the sentence"), row_link("school:project-became", pk), opens=True),
            Act(_("Nothing to tell"), row_link("agenda:settle", pk, BECAME), code="done"),
            Act(_("It goes on until…"), row_link("agenda:settle", pk, BECAME), code="move"),
        ),
    )


def _part(source: str, row: tuple[Any, ...], **own: Any) -> DueLine:
    one = dict(zip(OF_PART, row, strict=True))
    settle = row_link("agenda:settle", one["pk"], source)
    return DueLine(
        source=source,
        pk=one["pk"],
        due=one["due"],
        why=_("for the project %(title)s") % {"title": one["project__title"]},
        school_id=one["project__school_id"],
        school=one["project__school__name"] or "",
        acts=(
            Act(_("Done"), settle, code="done"),
            Act(_("The project"), row_link("school:project-detail", one["project_id"]), opens=True),
            Act(_("Move to…"), settle, code="move"),
            Act(_("Not this month"), settle, code="not_this_month"),
        ),
        **own,
    )


def _ours(row: tuple[Any, ...], day: date) -> DueLine:
    verb = _("Bring") if row[3] == Does.BRINGS else _("Teach")
    return _part(OURS, row, hand=Hand.MAKE, verb=verb, what=row[2])


def _theirs(row: tuple[Any, ...], day: date) -> DueLine:
    """The colleague keeps no book: we ask."""
    one = dict(zip(OF_PART, row, strict=True))
    brought = _("whether this is there: %(what)s") if row[3] == Does.BRINGS else _("whether this is taught: %(what)s")
    partner = one["project__colleague_id"]
    return _part(
        THEIRS,
        row,
        hand=Hand.CALL,
        verb=_("Ask"),
        what=brought % {"what": row[2]},
        who=one["project__colleague__name"] or _("your colleague"),
        who_url=row_link("directory:partner-detail", partner) if partner else "",
        partner_id=partner,
        phone=one["project__colleague__phone"] or "",
    )


def _parts(by: str) -> Any:
    def rows(desk: Any) -> QuerySet[Any]:
        found: QuerySet[Any] = desk.project_parts.filter(by=by, due__isnull=False, done_on__isnull=True)
        return found.filter(project__in=desk.projects) if desk.school_ids else found

    return rows


def _ended(desk: Any) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.projects.filter(ends_on__isnull=False, what_it_became="", nothing_to_tell=False)
    return rows


def _nothing(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    project_actions.nothing_to_tell(desk=desk, project=row)


def _goes_on(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    project_actions.move_end(desk=desk, project=row, due=due)


def _done(*, desk: Any, row: Any, day: date, **_extra: Any) -> None:
    project_actions.part_done(desk=desk, part=row, day=day)


def _move(*, desk: Any, row: Any, day: date, due: date, **_extra: Any) -> None:
    project_actions.move_part(desk=desk, part=row, due=due)


SOURCES = (
    DueSource(
        slug=BECAME,
        hand=Hand.WRITE,
        rows=_ended,
        date_field="ends_on",
        columns=("pk", "ends_on", "title", "school_id", "school__name"),
        line=_became,
        settle={"done": _nothing, "move": _goes_on},
    ),
    DueSource(
        slug=OURS, hand=Hand.MAKE, rows=_parts(PartBy.US), date_field="due", columns=OF_PART, line=_ours,
        settle={"done": _done, "move": _move},
    ),
    DueSource(
        slug=THEIRS, hand=Hand.CALL, rows=_parts(PartBy.COLLEAGUE), date_field="due", columns=OF_PART, line=_theirs,
        settle={"done": _done, "move": _move}, partner="project__colleague",
    ),
)  # fmt: skip
