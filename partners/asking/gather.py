"""What the record knows about asking, as the plain values that `may_ask` judges; many partners at once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import replace
from datetime import date
from typing import Any

from django.db.models import F, Max, Min, Q
from django.utils.translation import gettext as _

from partners.asking.may_ask import Approved, AskFigures, CountedPer, HowOften, PastAsk, Situation, Verdict, may_ask
from partners.directory.models import Partner
from partners.gifts.models import ThanksFor
from partners.program.desk import Desk
from partners.school.models import ApprovalFor, School
from partners.visits.actions import figures as follow_up_figures
from partners.visits.follow_up_rule import rest_after_gift
from partners.visits.models import Answer
from partners.wish_list.models import Need

# The whole program's rows and not the desk's: an ask made for a school the person does not teach at still uses up the
# partner's turn. Nothing of it is shown but its day and who asked.


def figures(desk: Desk) -> AskFigures:
    return AskFigures(colleague_days=desk.program.colleague_days)


def situation(desk: Desk, partner: Partner, need: Need | None = None, school: School | None = None) -> Situation:
    return situations(desk, [partner], need, school)[partner.pk]


def situations(
    desk: Desk, partners: Collection[Partner], need: Need | None = None, school: School | None = None
) -> dict[int, Situation]:
    """The situation of each partner by its id, in six queries for any number of partners.

    Without a school it is the need's school, or the only one there is.
    """
    ids = [partner.pk for partner in partners]
    schools = list(desk.schools)
    school_id = _school_id(schools, need, school)
    asks = _asks(desk, ids)
    last_gift = _last_gift(desk, ids)
    thanks = _thanks_owed(desk, ids)
    results = _results_owed(desk, ids)
    approval_needed, approvals = _approvals(desk, schools, school_id)
    found = {}
    for partner in partners:
        until, why = _rest(desk, partner, last_gift.get(partner.pk))
        found[partner.pk] = Situation(
            school=school_id,
            never_ask=partner.never_ask,
            rest_until=until,
            rest_why=why,
            how_often=HowOften(partner.how_often),
            counted_per=CountedPer(partner.counted_per),
            fiscal_year_starts=partner.fiscal_year_starts,
            asks=tuple(asks[partner.pk]),
            thanks_owed_since=thanks.get(partner.pk),
            result_owed_since=results.get(partner.pk),
            needed_by=need.needed_by if need else None,
            lead_days=partner.lead_days,
            approval_needed=approval_needed,
            approvals=approvals,
        )
    return found


def for_need(known: Situation, need: Need | None) -> Situation:
    """The same situation for another need of the same school."""
    return replace(known, needed_by=need.needed_by if need else None)


def verdicts(
    desk: Desk, partners: Collection[Partner], day: date, need: Need | None = None, school: School | None = None
) -> dict[int, Verdict]:
    """May each be asked on `day`? By the partner's id."""
    known = situations(desk, partners, need, school)
    return {pk: may_ask(situation, day, figures(desk)) for pk, situation in known.items()}


def _school_id(schools: list[School], need: Need | None, school: School | None) -> int | None:
    if school is not None:
        return school.pk
    if need is not None and need.school_id:
        return need.school_id
    return schools[0].pk if len(schools) == 1 else None


def _asks(desk: Desk, ids: list[int]) -> dict[int, list[PastAsk]]:
    """What was asked, and what came without anybody asking for it."""
    found: dict[int, list[PastAsk]] = defaultdict(list)
    rows = desk.program.asks.filter(partner__in=ids)
    own = desk.user.pk if desk.user else None
    for row in rows.values("partner_id", "asked_on", "school_id", "asked_by", "answer", "created_by_id"):
        colleague = own is not None and row["created_by_id"] not in (None, own)
        found[row["partner_id"]].append(
            PastAsk(
                on=row["asked_on"],
                school=row["school_id"],
                by=(row["asked_by"] or _("a colleague")) if colleague else "",
                waiting=row["answer"] == Answer.WAITING,
            )
        )
    asked_for = Q(lines__delivery__promise__ask__isnull=False)
    unasked = _gifts(desk, ids).exclude(pk__in=desk.program.gifts.filter(asked_for).values("pk"))
    for partner_id, day, school_id in unasked.values_list("partner_id", "day", "school_id"):
        found[partner_id].append(PastAsk(on=day, school=school_id, unasked=True))
    return found


def _gifts(desk: Desk, ids: list[int]) -> Any:
    """Gifts in the strict sense: what came in a trade was paid for."""
    return desk.program.gifts.filter(partner__in=ids, trade=False)


def _last_gift(desk: Desk, ids: list[int]) -> dict[int, date]:
    return dict(
        _gifts(desk, ids).order_by().values("partner_id").annotate(last=Max("day")).values_list("partner_id", "last")
    )


def _thanks_owed(desk: Desk, ids: list[int]) -> dict[int, date]:
    owed = desk.program.thanks.owed().filter(partner__in=ids, reason__in=[ThanksFor.PROMISE, ThanksFor.GIFT])
    return dict(owed.order_by().values("partner_id").annotate(since=Min("base")).values_list("partner_id", "since"))


def _results_owed(desk: Desk, ids: list[int]) -> dict[int, date]:
    """Since when a gift went into a project of which nobody has yet written what it became."""
    direct = Q(project__isnull=False, project__what_it_became="")
    through_need = Q(project=None, lines__need__project__isnull=False, lines__need__project__what_it_became="")
    rows = _gifts(desk, ids).filter(direct | through_need).order_by()
    return dict(rows.values("partner_id").annotate(since=Min("day")).values_list("partner_id", "since"))


def _approvals(desk: Desk, schools: Iterable[School], school_id: int | None) -> tuple[bool, tuple[Approved, ...]]:
    concerned = [school for school in schools if school_id in (None, school.pk)]
    rows = desk.program.approvals.filter(what_for=ApprovalFor.ASKING, school__in=[school.pk for school in concerned])
    approved = tuple(Approved(on, until) for on, until in rows.values_list(F("on"), F("until")))
    return any(school.asking_needs_approval for school in concerned), approved


def _rest(desk: Desk, partner: Partner, last_gift: date | None) -> tuple[date | None, str]:
    """The later of the rest that was set and the one that follows from the last gift, with its reason."""
    after_gift = rest_after_gift(last_gift, follow_up_figures(desk)) if last_gift else None
    if after_gift and (partner.rest_until is None or after_gift > partner.rest_until):
        return after_gift, _("they gave last time")
    return partner.rest_until, partner.rest_why
