"""Where what a sheet lacks is written down: the way from a gap to its field, or to the page of what it is about."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap
from outreach.gathering.gratitude import project_of
from outreach.gathering.leave_behind import chosen_need
from outreach.gathering.school import school_meant
from outreach.gathering.year_end import became, came, span_of
from outreach.prepared import Prepared
from partners.directory.models import Partner
from partners.exchanges.models import Trade
from partners.funding.grant_models import Grant
from partners.gifts.models import Gift
from partners.program.desk import Desk
from partners.school.models import School
from partners.school.project_models import Project

# What the facts of the letter home call otherwise than its form.
FIELDS = {"first": "from_on", "last": "until_on"}
APPROVALS, CLASSES = "#approvals", "#classes"
# What a sheet says of a school: a gap's code and field, and the place on the school's pages.
OF_THE_SCHOOL = {
    ("no-program", "students"): CLASSES,
    ("no-principal", "principal"): "#id_principal",
    ("no-tax-line", "tax_line"): "#id_tax_line",
    ("no-approval", "approved_by"): APPROVALS,
    ("no-approval-there", "approved_by"): APPROVALS,
}
TRADE, PROJECT, PART = "exchanges:trade-edit", "school:project-edit", "school:project-part-new"
PAGES: dict[tuple[type, str], str] = {
    **dict.fromkeys(
        ((Trade, code) for code in ("no-gives", "no-carrier", "plain-late", "no-names", "no-afterwards", "no-late")),
        TRADE,
    ),
    **dict.fromkeys(((Project, code) for code in ("no-colleague", "no-about", "no-days")), PROJECT),
    **dict.fromkeys(((Project, code) for code in ("no-ours", "no-theirs")), PART),
    (Project, "no-classes"): "school:project-classes",
}


@dataclass(frozen=True)
class Way:
    url: str
    words: str | Promise


def way(prepared: Prepared, gap: Gap, fields: Collection[str] = ()) -> Way | None:
    """`fields` are those of the form that stands on the same page."""
    if gap.field == "address" and isinstance(prepared.about.get("partner"), Partner):
        return Way(reverse("directory:partner-edit", args=[prepared.about["partner"].pk]), _("Their address"))
    field = FIELDS.get(gap.field, gap.field)
    if field in fields:
        return Way(f"#id_{field}", _("Fill it in"))
    if gap.field == "needed_by":
        return _of_its_need(prepared)
    if gap.code == "no-becomes":
        return _became(prepared, prepared.row)
    if gap.code == "no-phone":
        school = getattr(prepared.row, "school_id", None)
        if not school and not prepared.desk.keeps:
            return None
        return Way(
            reverse("school:school-edit", args=[school]) if school else reverse("program:settings"), _("Write it down")
        )
    if (gap.code, gap.field) in OF_THE_SCHOOL:
        return _at_school(prepared, OF_THE_SCHOOL[gap.code, gap.field])
    if (gap.code, gap.field) == ("no-contact", "phone"):
        return _how_to_reach(prepared.desk)
    if gap.code == "no-cannot-use":
        return Way(reverse("wish_list:cannot-use-edit"), _("Write it down"))
    page = PAGES.get((type(prepared.row), gap.code))
    return Way(reverse(page, args=[prepared.row.pk]), _("Write it down")) if page else None


def _of_its_need(prepared: Prepared) -> Way | None:
    """Also of the sheet for any place, which is about no partner."""
    need = chosen_need(prepared.desk, prepared.row, prepared.words)
    return Way(f"{need.get_absolute_url()}#id_needed_by", _("Write it down")) if need else None


def _how_to_reach(desk: Desk) -> Way | None:
    """Where who signs is written down: a colleague with the colleague, else in the settings."""
    if desk.signer:
        return Way(reverse("program:own-name") + "#id_phone", _("Write it down"))
    return Way(reverse("program:settings") + "#id_phone", _("Write it down")) if desk.keeps else None


def _at_school(prepared: Prepared, place: str) -> Way:
    """Where its school says it, or the only one; of several, the list of them."""
    row = prepared.row
    school = row if isinstance(row, School) else getattr(row, "school", None) or school_meant(prepared.desk)
    if school is None:
        return Way(reverse("school:school-list"), _("Write it down"))
    shown = place in (APPROVALS, CLASSES)
    page = school.get_absolute_url() if shown else reverse("school:school-edit", args=[school.pk])
    return Way(page + place, _("Write it down"))


def _became(prepared: Prepared, row: Any) -> Way | None:
    """The question on the page of the project; where none is named, where one is chosen."""
    desk = prepared.desk
    if isinstance(row, Partner):
        _told, untold = became(desk, came(desk, row, span_of(desk, prepared.words)))
        return _project(untold[0]) if untold else None
    project = project_of(desk, row) if isinstance(row, Gift) else getattr(row, "project", None)
    if project is not None:
        return _project(project)
    page = {Gift: "gifts:gift-edit", Grant: "funding:grant-edit"}.get(type(row))
    return Way(reverse(page, args=[row.pk]), _("Choose the project")) if page else None


def _project(project: Project) -> Way:
    return Way(reverse("school:project-became", args=[project.pk]), str(project))
