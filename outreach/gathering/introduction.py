"""The facts of the letter of whoever takes over: what this partner gave last, and what stands on both sides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from django.db.models import Prefetch

from outreach.documents.introduction_letter import Facts
from outreach.gathering.gratitude import address_of, counted_item, greeted, project_of, unit_for
from outreach.gathering.remembered import remembered
from outreach.gathering.school import letterhead, school_meant
from outreach.wording.counts import Item, joined
from outreach.wording.introduction import Introduction, Stands
from partners.directory.models import Partner, PartnerQuerySet
from partners.gifts.models import Form, Gift
from partners.program.desk import Desk, Signer
from partners.program.signing import signer
from partners.promises.models import Promise, Side
from partners.year.handover_actions import former_teacher
from partners.year.open_things import desk_of

MOST_SCHOOLS = 3


def gather(desk: Desk, partner: Partner, words: dict[str, Any]) -> Facts:
    """`words` may say who is introduced (`teacher`) in place of whom (`former`), and that it is of one `school`."""
    program, desk = desk.program, of_school(desk, words.get("school"))
    signs = signer_named(desk, words.get("teacher", ""))
    gift, promises = last_gift(desk, partner), still_open(desk, partner)
    school = school_meant(desk)
    language = words.get("language") or program.language
    return Facts(
        paper=program.paper,
        letterhead=letterhead(school, desk),
        day=desk.day,
        about=Introduction(
            language=language,
            teacher=signs.teacher,
            school=taught_at(desk, language),
            former=words["former"] if "former" in words else former(desk, signs.teacher),
            partner=partner.name,
            contact=greeted(partner),
            **came(desk, gift),
            theirs=stands(desk, promises, Side.THEM),
            ours=stands(desk, promises, Side.US),
            phone=signs.phone,
            email=signs.email,
        ),
        role=signs.title,
        address=address_of(partner),
        text=tuple(words.get("paragraphs", ())),
        enclosures=tuple(words.get("enclosures", ())),
        left_in_peace=partner.never_ask and not promises,
    )


def together(desk: Desk, rows: PartnerQuerySet) -> PartnerQuerySet:
    """Partners for a run of letters: with who is there, what came of each and what is still to come."""
    gifts = desk.gifts.select_related("project", "partner").prefetch_related("lines").order_by("-day", "-pk")
    return rows.with_people().prefetch_related(
        Prefetch("gifts", gifts, to_attr="given"),
        Prefetch("promises", desk.promises.open().order_by("due", "pk"), to_attr="open_promises"),
    )


def last_gift(desk: Desk, partner: Partner) -> Gift | None:
    known: list[Gift] | None = getattr(partner, "given", None)
    if known is not None:
        return next(seen(desk, known), None)
    found: Gift | None = desk.gifts.filter(partner=partner).order_by("-day", "-pk").first()
    return found


def still_open(desk: Desk, partner: Partner) -> list[Promise]:
    known: list[Promise] | None = getattr(partner, "open_promises", None)
    if known is not None:
        return list(seen(desk, known))
    return list(desk.promises.open().filter(partner=partner).order_by("due", "pk"))


def seen(desk: Desk, rows: Iterable[Any]) -> Iterator[Any]:
    """What was fetched for letters of all schools, as this one school has it."""
    return (row for row in rows if not desk.school_ids or row.school_id in (None, *desk.school_ids))


@remembered
def of_school(desk: Desk, number: int | None) -> Desk:
    """The desk of the school of that number; of all where none is named."""
    return desk_of(desk, desk.schools.filter(pk=number).first()) if number else desk


@remembered
def signer_named(desk: Desk, name: str) -> Signer:
    return signer(desk, name)


@remembered
def former(desk: Desk, teacher: str) -> str:
    return former_teacher(desk, teacher)


@remembered
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
