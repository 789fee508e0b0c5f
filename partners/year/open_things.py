"""Everything that stands open and goes to whoever takes over: which rows, and what a list says of each.

The page "Hand over" and the sheet of that name ask the same questions here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.db.models import Q, QuerySet
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.gifts.families import all_families
from partners.ground.due import Words
from partners.ground.tags import money
from partners.letters.models import LetterState
from partners.program.desk import Desk
from partners.program.files import owner_of, shown
from partners.school.models import School
from partners.year.rows import TEACHERS_ONLY, Line, gift_line, grant_line, promise_line, thanks_line


def desk_of(desk: Desk, school: School | None) -> Desk:
    """The desk as a teacher of that school alone would have it."""
    return desk if school is None else replace(desk, school_ids=frozenset({school.pk}))


@dataclass(frozen=True)
class OpenThings:
    """One kind of rows that somebody has to go on with. No guest reads them: notes and phones are not far from here."""

    title: Words
    about: Words
    found: Callable[[Desk], QuerySet[Any]]
    line: Callable[[Any], Line]
    opened: str = TEACHERS_ONLY
    edits: bool = False
    named: bool = False


def promises_of(desk: Desk, side: str) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.promises.open().filter(side=side)
    return rows.select_related("partner", "school", "trade").order_by("due", "pk")


def trades(desk: Desk) -> QuerySet[Any]:
    """Where one side owes its part, the memo is not signed, or the work hangs somewhere and must come back."""
    hangs = Q(display_until__isnull=False, taken_down_on=None)
    open_ones = desk.trades.with_something_open().order_by().values("pk")
    rows: QuerySet[Any] = desk.trades.going_on().filter(Q(pk__in=open_ones) | hangs)
    return rows.select_related("partner", "school").prefetch_related("promises").order_by("agreed_on", "pk")


def thanks(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.thanks.owed().select_related("partner", "gift", "promise", "school")
    return rows.prefetch_related("gift__lines").order_by("due", "pk")


def waiting(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.asks.waiting().select_related("partner", "school").order_by("asked_on", "pk")
    return rows


def gifts(desk: Desk, rows: QuerySet[Any], day: str) -> QuerySet[Any]:
    return rows.select_related("partner", "school").prefetch_related("lines").order_by(day, "pk")


def approvals(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.approvals.holding_on(desk.day).select_related("school")
    return rows.order_by("school__name", "what_for", "-on", "pk")


def grants(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.grants.going_on().select_related("partner", "school")
    return rows.order_by("spend_by", "pk")


def purchases(desk: Desk) -> QuerySet[Any]:
    """Receipts to hand in, and money or tax that is to come back."""
    still = [rows.order_by().values("pk") for rows in (desk.purchases.to_hand_in(), desk.purchases.to_repay())]
    tax = desk.purchases.tax_to_ask_back().order_by().values("pk")
    rows: QuerySet[Any] = desk.purchases.filter(Q(pk__in=still[0]) | Q(pk__in=still[1]) | Q(pk__in=tax))
    return rows.select_related("school", "grant").order_by("bought_on", "pk")


def sessions(desk: Desk) -> QuerySet[Any]:
    """To come, or over and nobody wrote down who came."""
    rows: QuerySet[Any] = desk.sessions.filter(called_off_on=None, counted_on=None).select_related("school")
    return rows.order_by("day", "starts", "pk")


def kits(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.kits.filter(back_on=None).select_related("helper", "school").order_by("due", "pk")
    return rows


def projects(desk: Desk) -> QuerySet[Any]:
    """Nobody has said yet what it became."""
    rows: QuerySet[Any] = desk.projects.filter(what_it_became="", nothing_to_tell=False)
    return rows.select_related("school", "colleague").order_by("ends_on", "pk")


def free_days(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.occasions.filter(ended_on=None, next_on__isnull=False).select_related("partner")
    return rows.order_by("next_on", "pk")


def letters(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.letters.filter(state=LetterState.DRAFT).defer("words").select_related("partner")
    return rows.order_by("-day", "-pk")


def batches(desk: Desk) -> QuerySet[Any]:
    rows: QuerySet[Any] = desk.batches.filter(settled_on=None).order_by("day", "pk")
    return rows


def papers(desk: Desk) -> QuerySet[Any]:
    rows = shown(desk).select_related("grant", "purchase", "project", "approval", "certificate")
    return rows.order_by("day", "pk")


def ask_line(ask: Any) -> Line:
    return Line(ask.asked_on, ask.what, ask.partner.get_absolute_url(), ask.partner, str(ask.get_answer_display()))


def families_line(gift: Any) -> Line:
    since = _("since %(day)s") % {"day": date_format(gift.day, "DATE_FORMAT")}
    return Line(gift.families_due, gift.told(amounts=False), gift.get_absolute_url(), all_families(gift.school), since)


def trade_line(trade: Any) -> Line:
    state = _("memo signed") if trade.memo_signed_on else _("memo not signed yet")
    return Line(trade.agreed_on, trade.what, trade.get_absolute_url(), trade.partner, state)


def approval_line(approval: Any) -> Line:
    until = _("until %(day)s") % {"day": date_format(approval.until, "DATE_FORMAT")} if approval.until else ""
    by = _("by %(who)s") % {"who": approval.by}
    what = f"{approval.get_what_for_display()}, {approval.school}"
    return Line(approval.on, what, approval.school.get_absolute_url(), None, ", ".join(filter(None, (by, until))))


def purchase_line(purchase: Any) -> Line:
    day = purchase.bought_on or purchase.slip_on
    return Line(day, purchase.what, purchase.get_absolute_url(), purchase.vendor, money(purchase.total_cents or 0))


def session_line(session: Any) -> Line:
    state = _("%(yes)d of %(needed)d said yes") % {"yes": session.said_yes, "needed": session.needed}
    return Line(session.day, f"{session}, {session.place}", session.get_absolute_url(), None, state)


def kit_line(kit: Any) -> Line:
    return Line(kit.due, kit.what, kit.helper.get_absolute_url(), str(kit.helper), _("taken home"))


def project_line(project: Any) -> Line:
    day = project.ends_on or project.shown_on
    return Line(day, project.title, project.get_absolute_url(), project.colleague, _("what it became is not told yet"))


def free_day_line(day: Any) -> Line:
    return Line(day.next_on, day.title, day.get_absolute_url(), day.partner, day.comes_back)


def letter_line(letter: Any) -> Line:
    return Line(letter.day, letter.title, letter.get_absolute_url(), letter.partner, str(letter.get_state_display()))


def batch_line(batch: Any) -> Line:
    return Line(batch.day, batch.title, batch.get_absolute_url(), None, str(batch.get_kind_display()))


def paper_line(paper: Any) -> Line:
    return Line(paper.day, paper.title, paper.get_absolute_url(), None, str(owner_of(paper)))


OPEN: dict[str, OpenThings] = {
    "theirs": OpenThings(
        gettext_lazy("Promised to us"),
        gettext_lazy("also past its day"),
        lambda desk: promises_of(desk, "them"),
        promise_line,
    ),
    "ours": OpenThings(
        gettext_lazy("Promised by us"),
        gettext_lazy("a promise is the program's, whoever gave it"),
        lambda desk: promises_of(desk, "us"),
        promise_line,
    ),
    "trades": OpenThings(
        gettext_lazy("Trades going on"), gettext_lazy("both sides, and what hangs on show"), trades, trade_line
    ),
    "thanks": OpenThings(
        gettext_lazy("Thanks owed"),
        gettext_lazy("best said by who was given to, before leaving"),
        thanks,
        thanks_line,
    ),
    "families": OpenThings(
        gettext_lazy("Families to thank"),
        gettext_lazy("one notice of a school for all that came"),
        lambda desk: gifts(desk, desk.gifts.first_of_each_school(), "families_due"),
        families_line,
    ),
    "waiting": OpenThings(
        gettext_lazy("Asks that wait for an answer"), gettext_lazy("let them know who comes back"), waiting, ask_line
    ),
    "loans": OpenThings(
        gettext_lazy("Loans to return"),
        gettext_lazy("to whom, and by when"),
        lambda desk: gifts(desk, desk.gifts.to_return(), "return_on"),
        gift_line,
    ),
    "accept": OpenThings(
        gettext_lazy("Gifts to be accepted"),
        gettext_lazy("the office or the board decides"),
        lambda desk: gifts(desk, desk.gifts.to_accept(), "accept_due"),
        gift_line,
    ),
    "awards": OpenThings(
        gettext_lazy("Awards to be accepted"),
        gettext_lazy("the office or the board decides"),
        lambda desk: desk.grants.to_accept().select_related("partner", "school").order_by("accept_due", "pk"),
        grant_line,
    ),
    "approvals": OpenThings(
        gettext_lazy("Approvals held"),
        gettext_lazy("they may lapse with who gave them or to whom they were given"),
        approvals,
        approval_line,
    ),
    "grants": OpenThings(
        gettext_lazy("Grants going on"), gettext_lazy("money to spend, claims, reports"), grants, grant_line
    ),
    "money": OpenThings(
        gettext_lazy("Receipts and money to come back"),
        gettext_lazy("own money is repaid to who paid it"),
        purchases,
        purchase_line,
    ),
    "sessions": OpenThings(
        gettext_lazy("Sessions with helpers"), gettext_lazy("to come, or not written down"), sessions, session_line
    ),
    "kits": OpenThings(gettext_lazy("Work at helpers' homes"), gettext_lazy("out, and not back"), kits, kit_line),
    "projects": OpenThings(
        gettext_lazy("Projects going on"), gettext_lazy("who gave wants to hear what it became"), projects, project_line
    ),
    "free_days": OpenThings(
        gettext_lazy("Free days that come back"), gettext_lazy("with their next time"), free_days, free_day_line
    ),
    "letters": OpenThings(
        gettext_lazy("Letters being written"), gettext_lazy("not gone out yet"), letters, letter_line
    ),
    "batches": OpenThings(
        gettext_lazy("Printed in one go, not all gone out"),
        gettext_lazy("which were handed over?"),
        batches,
        batch_line,
    ),
    "papers": OpenThings(
        gettext_lazy("Pictures and papers kept"), gettext_lazy("they stay in the book"), papers, paper_line
    ),
}


def at(rows: QuerySet[Any], school: School | None) -> QuerySet[Any]:
    """Those that name this school; without one, those that name none or have no column for it."""
    if any(field.name == "school" for field in rows.model._meta.concrete_fields):
        return rows.filter(school=school)
    return rows if school is None else rows.none()


def homes(desk: Desk) -> dict[int, frozenset[int]]:
    """For each partner with whom something happened, the schools that it names; none where it names no school.

    Of the whole program, not of the desk: who gave to another school alone does not belong to this one.
    """
    found: dict[int, set[int]] = {}
    kinds: Sequence[Any] = (
        desk.program.asks,
        desk.program.promises,
        desk.program.gifts.filter(partner__isnull=False),
        desk.program.trades,
        desk.program.grants,
    )
    for rows in kinds:
        for partner, school in rows.order_by().values_list("partner_id", "school_id").distinct():
            found.setdefault(partner, set()).update({school} if school else ())
    return {partner: frozenset(schools) for partner, schools in found.items()}
