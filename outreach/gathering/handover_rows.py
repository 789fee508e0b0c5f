"""The rows of the hand-over's lists, a cell of words for each column of `outreach.wording.handover.KINDS`."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any

from outreach.wording.board import day_of_year
from outreach.wording.counts import dollars, number
from outreach.wording.dates import spelled
from outreach.wording.handover import by_day, sentences, shortened
from outreach.wording.hours import from_until
from outreach.wording.hours import hour as hour_words
from partners.directory.phones import national
from partners.gifts.families import all_families
from partners.gifts.models import ThanksFor
from partners.helpers.words import jobs_words
from partners.program.desk import Desk
from partners.program.files import owner_of
from partners.promises.models import Part
from partners.year.whom_to_ask import ASK, NEVER, Whom

Row = tuple[str, ...]
MOST_IN_A_PLACE = 12


def day(value: date | None) -> str:
    return day_of_year(value) if value else ""


def day_words(label: str, value: date | None) -> str:
    """In a sentence, with its month spelled."""
    return f"{label} {spelled(value, 'en')}" if value else ""


def promise_row(desk: Desk, promise: Any) -> Row:
    hour = f", {hour_words(promise.due_hour, 'en')}" if promise.due_hour else ""
    fetched = "we collect" if promise.collect and promise.side == "them" else ""
    part = "part of a trade" if promise.trade_id else ""
    more = ", ".join(one for one in (part, fetched) if one)
    come = f"{number(promise.delivered)} delivered" if promise.delivered else ""
    what = f"{promise.words} ({more})" if more else promise.words
    return f"{by_day(promise.due, desk.day)}{hour}", promise.partner.name, what, come


def trade_row(desk: Desk, trade: Any) -> Row:
    sides: dict[str, list[str]] = {Part.MAKE: [], Part.PLAIN: [], Part.GIVE: []}
    for one in trade.promises.all():
        ended = "done" if one.settled_on else f"by {by_day(one.due, desk.day)}"
        sides[one.part].append(f"{one.words}, {ended}")
    plain = "; ".join(f"plain items: {words}" for words in sides[Part.PLAIN])
    given = "; ".join(one for one in (*sides[Part.GIVE], plain) if one)
    return trade.partner.name, "; ".join(sides[Part.MAKE]) or trade.what, given, memo_words(trade)


def memo_words(trade: Any) -> str:
    """What was agreed besides, as it stands in the memo."""
    return sentences(
        day_words("signed", trade.memo_signed_on) or "not signed yet",
        trade.size,
        trade.materials,
        f"on the work: {trade.names_on_work}" if trade.names_on_work else "",
        day_words("on show from", trade.display_from),
        day_words("to take down by", trade.display_until) if not trade.taken_down_on else "",
        f"afterwards: {trade.afterwards}" if trade.afterwards else "",
        f"if late: {trade.if_late}" if trade.if_late else "",
    )


def thanks_row(desk: Desk, owed: Any) -> Row:
    gift = owed.gift.what if owed.reason == ThanksFor.GIFT and owed.gift else ""
    promised = owed.promise.words if owed.promise else ""
    what = ": ".join(one for one in (str(owed.get_reason_display()), gift or promised) if one)
    return f"{day(owed.base)}{', late' if owed.due < desk.day else ''}", owed.partner.name, what


def families_row(desk: Desk, gift: Any) -> Row:
    late = ", late" if gift.families_due < desk.day else ""
    return f"{day(gift.day)}{late}", all_families(gift.school), f"{gift.told(amounts=False)}, and what came since"


def ask_row(desk: Desk, ask: Any) -> Row:
    return day(ask.asked_on), ask.partner.name, ask.what, ask.asked_by or desk.program.teacher


def gift_row(desk: Desk, gift: Any, due: date | None, last: str) -> Row:
    return by_day(due, desk.day), gift.giver, gift.what, last


def accept_rows(desk: Desk, gifts: Any, awards: Any) -> tuple[Row, ...]:
    """Gifts and awards in one list, the earliest first."""
    found = [(one.accept_due, gift_row(desk, one, one.accept_due, one.accept_by_whom)) for one in gifts]
    for one in awards:
        what = f"{one.title}, {dollars(one.awarded_cents)}" if one.awarded_cents else one.title
        row = by_day(one.accept_due, desk.day), one.partner.name, what, one.accept_by_whom
        found.append((one.accept_due, row))
    return tuple(row for _due, row in sorted(found, key=lambda pair: pair[0]))


def approval_row(desk: Desk, approval: Any) -> Row:
    until = f"until {day_of_year(approval.until)}" if approval.until else "no end written down"
    return str(approval.get_what_for_display()), approval.by, f"{day(approval.on)}, {until}", approval.paper_held


def procedure_row(desk: Desk, one: Any) -> Row:
    ahead = f"{one.days_ahead} school days ahead" if one.days_ahead else ""
    each = "anew each time" if one.each_time else ""
    return (
        str(one.get_what_for_display()),
        one.who,
        "; ".join(part for part in (one.form, ahead, each) if part),
        one.how,
    )


def rule_row(desk: Desk, rule: Any) -> Row:
    """From which value of a gift somebody else accepts it."""
    return f"gifts from {dollars(rule.from_cents)} on", rule.who, rule.form, ""


def partner_row(desk: Desk, one: Whom, last_gift: str) -> Row:
    partner: Any = one.partner
    named = (f"{person.name}{' (decides)' if person.decides else ''}" for person in partner.present)
    how = sentences(
        ", ".join(named),
        national(partner.phone).replace(" ", "\N{NO-BREAK SPACE}") if partner.phone else "",
        f"best time: {partner.best_time}" if partner.best_time else "",
        f"{partner.lead_days} days ahead" if partner.lead_days else "",
        f"they give {partner.get_how_often_display()}" if partner.how_often else "",
        partner.decides,
        partner.wants,
        shortened(partner.notes),
    )
    if one.how == ASK:
        return partner.name, how, sentences(last_gift, one.why, day_words("last heard of on", partner.last_heard_on))
    why = sentences(one.why or "no reason is written down", last_gift)
    if one.how == NEVER:
        return partner.name, how, why
    return partner.name, day(one.again) or "once it is settled", how, why


def need_row(desk: Desk, counted: Any) -> Row:
    need, still = counted.need, counted.still
    wanted = number(still.pieces) if still else number(counted.wanted) if counted.wanted else ""
    unit = f"{wanted} {need.unit}".strip() if wanted else ""
    about = f"for {need.project}" if need.project else ""
    kind = "; ".join(one for one in (need.wanted, about, "found in a household" if need.household else "") if one)
    return need.what, unit, by_day(need.needed_by, desk.day), kind


def project_row(desk: Desk, project: Any) -> Row:
    colleague = project.colleague.name if project.colleague else ""
    with_whom = ", ".join(one for one in (colleague, project.subject) if one)
    return day(project.ends_on), project.title, with_whom, project.about


def session_row(desk: Desk, session: Any) -> Row:
    hours = from_until(session.starts, session.ends, "en")
    return (
        f"{by_day(session.day, desk.day)}, {hours}",
        str(session.get_job_display()),
        session.place,
        f"{session.said_yes} of {session.needed}",
    )


def helper_row(desk: Desk, helper: Any) -> Row:
    where = ("at school", helper.at_school), ("from home", helper.from_home), ("on show days", helper.show_day)
    can = sentences(jobs_words(helper.jobs), ", ".join(name for name, can in where if can), helper.skills)
    if not helper.cleared:
        return helper.name, can, "not cleared"
    until = f"until {by_day(helper.cleared_until, desk.day)}" if helper.cleared_until else "yes"
    return helper.name, can, ", ".join(one for one in (until, helper.cleared_by) if one)


def kit_row(desk: Desk, kit: Any) -> Row:
    return by_day(kit.due, desk.day), str(kit.helper), kit.what


def grant_row(desk: Desk, grant: Any) -> Row:
    asked = f"asked for {dollars(grant.asked_cents)}" if grant.asked_cents else ""
    given = f"{dollars(grant.awarded_cents)} awarded" if grant.awarded_cents else ""
    left = f"{dollars(grant.left_cents)} left" if grant.awarded_cents and grant.left_cents > 0 else ""
    dates = (
        ("apply by", grant.apply_by if not grant.asked_on else None),
        ("answer expected by", grant.answer_by if not grant.answered_on else None),
        ("to be accepted by", grant.accept_due if not grant.accepted_on else None),
        ("buy from", grant.buy_from),
        ("spend by", grant.spend_by),
        ("claim by", grant.claim_by if not grant.claimed_on else None),
        ("report by", grant.report_due),
    )
    return (
        f"{grant.title}, {grant.partner.name}",
        "; ".join(one for one in (given or f"{grant.get_state_display()}; {asked}".strip("; "), left) if one),
        "; ".join(day_words(name, value) for name, value in dates if value),
        shortened(grant.conditions, 200),
    )


def purchase_row(desk: Desk, purchase: Any) -> Row:
    total = dollars(purchase.total_cents) if purchase.total_cents else ""
    steps = (
        ("receipt to hand in by", purchase.claim_due if not purchase.handed_in_on else None),
        ("money expected by", purchase.repay_due if not purchase.repaid_on else None),
        ("tax to ask back by", purchase.tax_back_due if not (purchase.tax_back_on or purchase.tax_let_go) else None),
    )
    return (
        day(purchase.bought_on),
        f"{purchase.what}, {purchase.vendor}",
        ", ".join(one for one in (str(purchase.get_payer_display()), total) if one),
        "; ".join(day_words(name, value) for name, value in steps if value),
    )


def free_day_row(desk: Desk, occasion: Any) -> Row:
    whose = occasion.partner.name if occasion.partner else ""
    where = ", ".join(one for one in (occasion.title, whose, occasion.place, occasion.hours) if one)
    bring = f"bring {occasion.bring}" if occasion.bring else ""
    more = sentences(bring, occasion.limits, occasion.proof)
    return by_day(occasion.next_on, desk.day), where, occasion.comes_back or "once", more


def place_rows(gifts: Iterable[Any]) -> tuple[Row, ...]:
    """What lies in each place, the latest first. Nobody is named: a thing is the school's now."""
    lying: dict[str, list[str]] = {}
    for gift in gifts:
        lying.setdefault(gift.place, []).extend(line.words for line in gift.lines.all())
    return tuple((place, _most(things)) for place, things in sorted(lying.items()) if things)


def _most(things: list[str]) -> str:
    left = len(things) - MOST_IN_A_PLACE
    return ", ".join(things[:MOST_IN_A_PLACE]) + (f", and {number(left)} more" if left > 0 else "")


def paper_row(desk: Desk, paper: Any) -> Row:
    return paper.title, str(owner_of(paper)), "in the book"


def certificate_row(desk: Desk, one: Any) -> Row:
    return f"exemption certificate {one}", f"until {day(one.valid_until)}" if one.valid_until else "", one.paper_held


def letter_row(desk: Desk, letter: Any) -> Row:
    return day(letter.day), letter.title


def rows(desk: Desk, found: Iterable[Any], row: Callable[[Desk, Any], Row]) -> tuple[Row, ...]:
    return tuple(row(desk, one) for one in found)
