"""The facts of a gratitude letter: for what came, at the promise, and for considering it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from django.db.models import Prefetch, Q, QuerySet

from outreach.documents.gratitude_letter import Facts
from outreach.gathering.one_letter import of_one_letter
from outreach.gathering.remembered import remembered
from outreach.gathering.school import legal_name, letterhead, school_meant, tax_number
from outreach.gathering.what_for import promised_for, tells_aim, what_for
from outreach.page import Address
from outreach.wording import gratitude
from outreach.wording.counts import Item, counted
from partners.directory.models import Contact, Partner, PartnerKind
from partners.exchanges.models import Trade
from partners.funding.grant_models import Grant
from partners.gifts.actions import gave_back
from partners.gifts.models import Form, Gift, ThanksFor
from partners.gifts.models import Thanks as Owed
from partners.program.desk import Desk
from partners.promises.models import Promise
from partners.school.models import School
from partners.school.project_models import Project


def gather_gift(desk: Desk, gift: Gift, words: dict[str, Any]) -> Facts:
    """Thanks at the delivery, for all that came with it."""
    school = gift.school or school_meant(desk)
    language = words.get("language") or desk.program.language
    gifts = of_one_letter(desk, gift)
    project = next(filter(None, (project_of(desk, one) for one in gifts)), None)
    thanks = gratitude.Thanks(
        language=language,
        moment="delivery",
        form="exchange" if gift.trade and gift.form == Form.GOODS else gift.form,  # type: ignore[arg-type]
        day=gift.day,
        **receiver(desk, gift.partner, school),
        items=tuple(
            Item(line.description, line.quantity, unit_for(line.description, line.unit), line.condition)
            for one in gifts
            for line in one.lines.all()
            if one.form != Form.MONEY or not tells_aim(line)
        ),
        **what_for(gift, gifts, language),
        amount_cents=gift.amount_cents,
        part_of_trade=gift.trade,
        back=back_for(desk, gift, language),
        back_estimate_cents=gift.gave_back_cents,
        becomes=project.told_of(gift.day) if project else "",
        students=project.children() if project else None,
        return_on=gift.return_on,
        giver_says_250=says_250(gifts),
    )
    return letter(desk, thanks, gift.partner, school, words)


def says_250(gifts: Sequence[Gift]) -> bool | None:
    """Whether the giver's own figures reach 250; None where only the giver can tell."""
    figures = [gift.given_value_cents for gift in gifts if gift.given_value_cents is not None]
    if sum(figures) >= 25000:
        return True
    return False if len(figures) == len(gifts) else None


def together(desk: Desk, rows: QuerySet[Any]) -> QuerySet[Any]:
    """Gifts for a run of letters: with their things and who is there."""
    there = Contact.objects.filter(left_on=None)
    return rows.prefetch_related("lines__delivery__promise", Prefetch("partner__contacts", there, to_attr="present"))


def project_of(desk: Desk, gift: Gift) -> Project | None:
    """What it came for: as was written down, else by what one of its things was needed for, else what its giver, a
    colleague, shared in those days.
    """
    if gift.project is not None or gift.partner is None:
        return gift.project
    if any(line.need_id for line in gift.lines.all()):
        needed: Project | None = desk.projects.filter(needs__gift_lines__gift=gift).order_by("pk").first()
        if needed is not None:
            return needed
    if gift.partner_id not in colleagues(desk):
        return None
    going_on = Q(ends_on=None) | Q(ends_on__gte=gift.day)
    shared = desk.projects.filter(going_on, colleague=gift.partner, begins_on__lte=gift.day)
    found: Project | None = shared.order_by("-begins_on", "pk").first()
    return found


@remembered
def colleagues(desk: Desk) -> set[int | None]:
    """Who shares a project, or did."""
    return set(desk.projects.exclude(colleague=None).order_by().values_list("colleague", flat=True))


def gather_owed(desk: Desk, owed: Owed, words: dict[str, Any]) -> Facts:
    """Thanks at the promise, or for considering it."""
    if owed.gift is not None:
        return gather_gift(desk, owed.gift, words)
    school = owed.school or school_meant(desk)
    language = words.get("language") or desk.program.language
    given = promised(owed.promise, desk.day, language) if owed.promise else {"form": "goods"}
    note: dict[str, Any] = {"note": "considering"} if owed.reason == ThanksFor.CONSIDERING else {}
    if owed.reason == ThanksFor.GRANT and owed.grant is not None:
        given, note = for_the_award(owed.grant), {"note": "award", "grant": owed.grant.title}
    thanks = gratitude.Thanks(
        language=language, moment="promise", day=owed.base, **receiver(desk, owed.partner, school), **given
    )
    return replace(letter(desk, thanks, owed.partner, school, words), **note)


def for_the_award(grant: Grant) -> dict[str, Any]:
    """Thanks for a grant name the award and what it is for; that it is money already given would not be true."""
    reached = grant.project.students if grant.project else None
    return {"form": "money", "amount_cents": grant.awarded_cents or 0, "students": reached}


def back_for(desk: Desk, gift: Gift, language: str) -> str:
    """What we gave for it. Our side of a trade is told in the letter's language, unless somebody wrote other words."""
    agreed = desk.trades.filter(promises__deliveries__gift_line__gift=gift).first() if gift.trade else None
    if agreed is None or gift.gave_back not in ("", agreed.make.words[:160], gave_back(agreed.make)):
        return gift.gave_back
    return ours(agreed, language)


def ours(trade: Trade, language: str) -> str:
    """What we make, with its number or range; once it is delivered, with the number that was."""
    item, kept = counted_item(trade.make), trade.make.kept_quantity
    return counted(replace(item, quantity=kept, at_most=None) if kept else item, language)


def promised(promise: Promise, day: date, language: str = "en") -> dict[str, Any]:
    """What the letter of `day` says of it; a day that has gone by is announced to nobody."""
    need = promise.need
    project = need.project if need else None
    side = {"part_of_trade": True, "back": ours(promise.trade, language)} if promise.trade else {}
    goods = "exchange" if promise.trade else "goods"
    return {
        **side,
        "form": "money" if promise.amount_cents is not None else goods,
        "amount_cents": promise.amount_cents,
        "items": () if promise.amount_cents else (counted_item(promise),),
        "meant_for": promised_for(promise),
        "expected_on": promise.due if promise.due >= day else None,
        "we_collect": promise.collect,
        "students": (need.students or (project.children() if project else None)) if need else None,
    }


def counted_item(promise: Promise) -> Item:
    return Item(promise.what, promise.quantity, unit_for(promise.what, promise.unit), at_most=promise.at_most)


def unit_for(what: str, unit: str) -> str:
    """A unit that the thing's own name says already is not said twice."""
    return "" if unit and unit.casefold() in what.casefold() else unit


def receiver(desk: Desk, partner: Partner | None, school: School | None) -> dict[str, Any]:
    return {
        "partner": partner.name if partner else "",
        "contact": greeted(partner),
        "receiver": (school.legal_name or school.name) if school else legal_name(desk),
        "governmental": school.governmental if school else True,
        "teacher": desk.signs.teacher,
        "school": school.name if school else "",
    }


def writes_to(partner: Partner | None) -> Contact | None:
    """Who decides there and has not left; never the manager before."""
    if partner is None:
        return None
    # Of many letters, those who are there were fetched together.
    there: list[Contact] | None = getattr(partner, "present", None)
    found: Contact | None = partner.contacts.filter(left_on=None).first() if there is None else next(iter(there), None)
    return found


def greeted(partner: Partner | None) -> str:
    """Whom a letter greets by name: a partner who is a person is greeted as that, not as a place with friends in it."""
    contact = writes_to(partner)
    if contact is None:
        return partner.name if partner is not None and partner.kind == PartnerKind.PERSON else ""
    return contact.name


def letter(
    desk: Desk, thanks: gratitude.Thanks, partner: Partner | None, school: School | None, words: dict[str, Any]
) -> Facts:
    return Facts(
        paper=desk.program.paper,
        letterhead=letterhead(school, desk),
        day=desk.day,
        thanks=thanks,
        teacher=desk.signs.teacher,
        role=desk.signs.title,
        address=address_of(partner),
        paragraphs=tuple(words.get("paragraphs", ())),
        number=school.ein if school else tax_number(desk),
        receipts_by=school.receipts_by if school else "",
        enclosures=tuple(words.get("enclosures", ())),
    )


def address_of(partner: Partner | None) -> Address:
    if partner is None:
        return Address()
    contact = writes_to(partner)
    person = contact.name if contact else ""
    business = "" if partner.name == person else partner.name
    street = (partner.street,) if partner.street else ()
    return Address(person, business, street, partner.city, partner.state, partner.postal_code)
