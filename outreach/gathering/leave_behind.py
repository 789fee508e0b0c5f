"""The facts of a leave-behind sheet."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.db.models import F, QuerySet

from outreach.documents.leave_behind import Facts
from outreach.gathering.gratitude import writes_to
from outreach.gathering.school import approval, letterhead, of_all_schools, school_meant, taught, tax_line
from outreach.wording.counts import Item, is_less
from partners.asking.need_fits import first_fitting
from partners.asking.progress import still_needed_of
from partners.directory.models import Partner, PartnerQuerySet
from partners.program.desk import Desk
from partners.promises.models import Side
from partners.school.clock import clock
from partners.school.models import School
from partners.wish_list.models import Need, NeedState


def gather(desk: Desk, partner: Partner | None, words: dict[str, Any]) -> Facts:
    """`words` are the teacher's own, by the names of the form; what they leave out comes from the record."""
    language = words.get("language") or desk.program.language
    need = chosen_need(desk, partner, words)
    school = chosen_school(desk, need, words)
    contact = writes_to(partner)
    return Facts(
        language=language,
        paper=desk.program.paper,
        letterhead=letterhead(school, desk) if school else of_all_schools(desk),
        day=desk.day,
        teacher=desk.signs.teacher,
        role=desk.signs.title,
        phone=desk.signs.phone,
        email=desk.signs.email,
        partner=partner.name if partner else "",
        contact=contact.name if contact else "",
        **taught(desk, school, language),
        **asked(desk, need, words),
        offer_back=words.get("offer_back"),
        last_year=words.get("last_year", last_year(desk, partner)),
        tax_line=school.tax_line if school else tax_line(desk),
        **approval(desk, school, language),
        back_on=back_on(desk, words),
    )


def together(desk: Desk, rows: PartnerQuerySet) -> PartnerQuerySet:
    """Partners for a run of sheets: with who is there."""
    return rows.with_people()


def chosen_need(desk: Desk, partner: Partner | None, words: dict[str, Any]) -> Need | None:
    """The one that was picked; else what this partner is asked for, else the first open need that fits its kind."""
    needs = desk.needs.select_related("project", "school")
    if "need" in words:
        picked: Need | None = needs.filter(pk=words["need"]).first() if words["need"] else None
        return picked
    found: Need | None = needs.filter(pk=fitting_need(desk, partner)).first() if partner else None
    if found:
        return found
    to_come = promised_by(desk, partner)
    still = list(needs.open().filter(household=False).exclude(pk__in=to_come).order_by("needed_by", "pk"))
    name, kind = (partner.name, partner.business_kind) if partner else ("", "")
    first = first_fitting([need.what for need in still], name, kind)
    return None if first is None else still[first]


def fitting_need(desk: Desk, partner: Partner) -> int | None:
    """What a coming outing plans to ask here, else what this partner was asked for last, while it is still open and
    they have not promised it.
    """
    planned = desk.outing_stops.filter(partner=partner, visit=None, outing__day__gte=desk.day, need__isnull=False)
    asked = desk.asks.filter(partner=partner, need__state=NeedState.OPEN).exclude(need__in=promised_by(desk, partner))
    ids = (rows.values_list("need_id", flat=True).first() for rows in (planned.order_by("outing__day"), asked))
    return next((pk for pk in ids if pk), None)


def promised_by(desk: Desk, partner: Partner | None) -> QuerySet[Any, Any]:
    """The needs of which this partner's word is still to be kept: they are not asked for them again."""
    rows: QuerySet[Any, Any] = desk.promises.open().filter(partner=partner, side=Side.THEM, need__isnull=False)
    return rows.values("need")


def chosen_school(desk: Desk, need: Need | None, words: dict[str, Any]) -> School | None:
    """For which school it speaks: the picked one, else the need's, else the only one; of several none, but for all."""
    if words.get("school"):
        picked: School | None = desk.schools.filter(pk=words["school"]).first()
        return picked or school_meant(desk)
    if "school" in words:
        return school_meant(desk)
    return (need.school if need else None) or school_meant(desk)


def asked(desk: Desk, need: Need | None, words: dict[str, Any]) -> dict[str, Any]:
    """What is asked for in the box, the smaller alternative, what it becomes and by when."""
    if need is None:
        return {"becomes": words.get("becomes", "")}
    asks = item(desk, need, words)
    # Written with the whole need in mind; of what is still missing, it may be more.
    smaller = words["smaller"] if "smaller" in words else need.smaller if is_less(need.smaller, asks) else ""
    project = need.project
    becomes = words.get("becomes", project.title if project else "")
    return {
        "asks": (asks,),
        "smaller": Item(smaller) if smaller else None,
        "becomes": becomes,
        "becomes_students": need.students or (project.children() if project else None),
        "becomes_by": project.shown_on if project else None,
        "needed_by": need.needed_by,
    }


def item(desk: Desk, need: Need, words: dict[str, Any]) -> Item:
    """How many are still needed of what; a unit that is the thing itself is not said twice."""
    quantity = words.get("quantity") or still_needed_of(desk, need)
    twice = need.unit and need.what.casefold().endswith(need.unit.casefold())
    return Item(need.what, quantity, "" if twice else need.unit, need.wanted)


def last_year(desk: Desk, partner: Partner | None) -> str:
    """What this partner's last gift became, when it was written down; never anybody else's."""
    if partner is None:
        return ""
    told = desk.gifts.filter(partner=partner, project__became_on__gte=F("day"))
    gift = told.select_related("project").first()
    return str(gift.project.told_of(gift.day)) if gift else ""


def back_on(desk: Desk, words: dict[str, Any]) -> date | None:
    if "back_on" in words:
        return date.fromisoformat(words["back_on"]) if words["back_on"] else None
    return clock(desk.program).on_or_after(desk.day + timedelta(days=desk.program.follow_up_days))
