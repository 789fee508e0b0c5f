"""What the page of a gift shows: what came, its thanks, whom it still has to pass, why the letter says what it says."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Min
from django.utils.translation import get_language

from partners.gifts.dates import families_since
from partners.gifts.duties import acceptance_rule
from partners.gifts.explained import explained
from partners.gifts.forms import HandInForm, LookForm
from partners.gifts.letter_links import letter_url
from partners.gifts.models import Gift, GiftLine
from partners.gifts.not_usable import any_mentioned
from partners.gifts.one_letter import thanked_with
from partners.gifts.reasons import CAUTION, NOTE_8283, OFFICE
from partners.gifts.risk_words import FOOD, TICKS, ticks_for
from partners.ground.years import year_of
from partners.program.desk import Desk
from partners.program.last_change import last_change
from partners.promises.models import Promise
from partners.wish_list.models import CannotUse

LABELS = {name: Gift._meta.get_field(name).verbose_name for name in TICKS}  # type: ignore[union-attr]


def context(desk: Desk, gift: Gift) -> dict[str, Any]:
    """The context of gifts/gift_detail.html, in a fixed number of queries."""
    lines = list(gift.lines.select_related("need", "delivery__promise"))
    thanks = desk.thanks.filter(gift=gift).first()
    risks = [line.risk for line in lines]
    ticks = ticks_for(risks)
    return {
        "gift": gift,
        "lines": lines,
        "thanks": thanks,
        "thanked_with": brought_with(gift) if thanks and thanks.done_on is None else [],
        "families_by": families_by(desk, gift),
        "letter_url": letter_url(gift.pk) if thanks else "",
        "unusable": unusable(desk, lines) if desk.writes else [],
        "unchecked": [LABELS[name] for name in ticks if not getattr(gift, name)],
        "held_food": FOOD in risks,
        "still_promised": still_promised(lines),
        "explained": explained(desk, gift, get_language() or "en-us") if thanks and desk.writes else [],
        "tax_caution": CAUTION,
        "office": OFFICE,
        "accept_form": accept_form(desk, gift),
        "fiscal_year": year_of(gift.day, desk.program.fiscal_year_starts),
        "note_8283": NOTE_8283 if gift.form == "goods" else "",
        "hand_in": HandInForm(),
        "look": LookForm(wanted=ticks, initial={name: getattr(gift, name) for name in ticks}),
        "newest": last_change(desk, gift) if desk.writes else None,
    }


def accept_form(desk: Desk, gift: Gift) -> str:
    """On which form who must accept it is asked."""
    rule = acceptance_rule(desk, gift) if gift.accept_due and gift.accepted_on is None else None
    return rule.form if rule and rule.who == gift.accept_by_whom else ""


def families_by(desk: Desk, gift: Gift) -> date | None:
    """By when all families of its school are to be thanked, for this and for what came before it."""
    due = desk.gifts.families_to_thank(families_since(desk.day)).filter(school=gift.school_id)
    found: date | None = due.aggregate(day=Min("families_due"))["day"] if due.filter(pk=gift.pk).exists() else None
    return found


def brought_with(gift: Gift) -> list[Gift | None]:
    """What the same letter thanks for."""
    return [one.gift for one in thanked_with([gift]).prefetch_related("gift__lines")]


def still_promised(lines: list[GiftLine]) -> list[Promise]:
    """The promises of which only a part came; each once."""
    promises = {line.delivery.promise_id: line.delivery.promise for line in lines if line.delivery is not None}
    return [promise for promise in promises.values() if promise.settled_on is None]


def unusable(desk: Desk, lines: list[GiftLine]) -> list[CannotUse]:
    """What the program wrote down that it cannot use, where a line's words name it."""
    listed = list(desk.cannot_use)
    places = any_mentioned([line.description for line in lines], [thing.what for thing in listed])
    return [listed[place] for place in places]
