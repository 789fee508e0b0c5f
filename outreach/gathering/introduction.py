"""The facts of the letter of whoever takes over: what this partner gave last, and what stands on both sides."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from outreach.documents.introduction_letter import Facts
from outreach.gathering.gratitude import address_of, counted_item, project_of, unit_for, writes_to
from outreach.gathering.school import letterhead, school_meant
from outreach.wording.counts import Item, joined
from outreach.wording.introduction import Introduction, Stands
from partners.directory.models import Partner
from partners.gifts.models import Form, Gift
from partners.program.desk import Desk
from partners.promises.models import Side
from partners.year.handover_actions import former_teacher

MOST_SCHOOLS = 3


def gather(desk: Desk, partner: Partner, words: dict[str, Any]) -> Facts:
    program = desk.program
    gift: Gift | None = desk.gifts.filter(partner=partner).order_by("-day", "-pk").first()
    promises = list(desk.promises.open().filter(partner=partner).order_by("due", "pk"))
    school, contact = school_meant(desk), writes_to(partner)
    language = words.get("language") or program.language
    return Facts(
        paper=program.paper,
        letterhead=letterhead(school, desk),
        day=desk.day,
        about=Introduction(
            language=language,
            teacher=program.teacher,
            school=taught_at(desk, language),
            former=former_teacher(desk),
            partner=partner.name,
            contact=contact.name if contact else "",
            **came(desk, gift),
            theirs=stands(desk, promises, Side.THEM),
            ours=stands(desk, promises, Side.US),
            phone=program.phone,
            email=program.email,
        ),
        role=program.title,
        address=address_of(partner),
        text=tuple(words.get("paragraphs", ())),
        enclosures=tuple(words.get("enclosures", ())),
        left_in_peace=partner.never_ask and not promises,
    )


def taught_at(desk: Desk, language: str) -> str:
    """The schools by name; of many, the program."""
    names = list(desk.schools.values_list("name", flat=True)[: MOST_SCHOOLS + 1])
    return joined(names, language) if 0 < len(names) <= MOST_SCHOOLS else str(desk.program.name)


def came(desk: Desk, gift: Gift | None) -> dict[str, Any]:
    """What came last, described and never valued, and what it became."""
    if gift is None:
        return {}
    project = project_of(desk, gift)
    items = tuple(
        Item(line.description, line.quantity, unit_for(line.description, line.unit)) for line in gift.lines.all()
    )
    form = "trade" if gift.trade else gift.form if gift.form in (Form.GOODS, Form.MONEY) else "help"
    return {
        "form": form,
        "came": () if form == "money" else items,
        "came_on": gift.day,
        "became": project.told_of(gift.day) if project else "",
    }


def stands(desk: Desk, promises: list[Any], side: str) -> tuple[Stands, ...]:
    """What is still to come; of a number, what is missing of it. A day that is over is not held against anybody."""
    found = []
    for one in promises:
        if one.side == side:
            item = Item(one.what) if one.amount_cents is not None else counted_item(one)
            if one.delivered:
                item = replace(item, quantity=one.missing or None, at_most=None)
            found.append(Stands(item, one.due if one.due >= desk.day else None))
    return tuple(found)
