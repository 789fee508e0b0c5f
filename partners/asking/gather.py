"""What the record knows about asking, as the plain values that `may_ask` judges; many partners at once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import F, Max, Min, Q
from django.utils.translation import gettext as _

from partners.asking.may_ask import (
    Approved,
    AskFigures,
    CountedPer,
    HowOften,
    PastAsk,
    Situation,
    Verdict,
    may_ask,
    together,
)
from partners.directory.models import Partner
from partners.funding.grant_models import GrantState
from partners.gifts.models import Form, ThanksFor
from partners.program.desk import Desk
from partners.school.approval_models import ApprovalFor
from partners.school.models import School
from partners.visits.actions import figures as follow_up_figures
from partners.visits.follow_up_rule import rest_after_gift
from partners.visits.models import Answer
from partners.wish_list.models import Need

PAID_FIRST = (ThanksFor.PROMISE, ThanksFor.GIFT, ThanksFor.GRANT)

# The whole program's rows and not the desk's: an ask made for a school the person does not teach at still uses up the
# partner's turn. Nothing of it is shown but its day, and who asked where the person sees the school.


@dataclass(frozen=True)
class Gathered:
    """What is known of some partners, by their ids; `situation` asks nothing more of the database."""

    desk: Desk
    schools: tuple[School, ...]
    approvals: dict[int, list[Approved]]
    with_procedure: set[int]
    asks: dict[int, list[PastAsk]]
    last_gift: dict[int, date]
    thanks_owed: dict[int, date]
    results_owed: dict[int, date]

    def situation(self, partner: Partner, need: Need | None = None, school_id: int | None = None) -> Situation:
        """Asking this partner for this need. Without a school it is the need's, or the only one there is."""
        school_id = school_id or (need.school_id if need else None) or self._only_school()
        concerned = [school for school in self.schools if school_id in (None, school.pk)]
        until, why = self._rest(partner)
        return Situation(
            school=school_id,
            never_ask=partner.never_ask,
            rest_until=until,
            rest_why=why,
            how_often=HowOften(partner.how_often),
            counted_per=CountedPer(partner.counted_per),
            fiscal_year_starts=partner.fiscal_year_starts,
            asks=tuple(self.asks.get(partner.pk, ())),
            thanks_owed_since=self.thanks_owed.get(partner.pk),
            result_owed_since=self.results_owed.get(partner.pk),
            needed_by=need.needed_by if need else None,
            lead_days=partner.lead_days,
            approval_needed=any(
                school.asking_needs_approval or school.pk in self.with_procedure for school in concerned
            ),
            approvals=tuple(one for school in concerned for one in self.approvals.get(school.pk, ())),
        )

    def verdict(self, partner: Partner, day: date, need: Need | None = None, school_id: int | None = None) -> Verdict:
        """Without a school, of all that are meant: the best of their verdicts, naming those that may ask later only."""
        one = school_id or (need.school_id if need else None) or self._only_school()
        if one or not self.schools:
            return may_ask(self.situation(partner, need, one), day, figures(self.desk))
        return together({school.name: self.verdict(partner, day, need, school.pk) for school in self.schools})

    def _only_school(self) -> int | None:
        return self.schools[0].pk if len(self.schools) == 1 else None

    def _rest(self, partner: Partner) -> tuple[date | None, str]:
        """The later of the rest that was set and the one that follows from the last gift, with its reason."""
        given_on = self.last_gift.get(partner.pk)
        after_gift = rest_after_gift(given_on, follow_up_figures(self.desk)) if given_on else None
        if after_gift and (partner.rest_until is None or after_gift > partner.rest_until):
            return after_gift, _("they gave last time")
        return partner.rest_until, partner.rest_why


def figures(desk: Desk) -> AskFigures:
    return AskFigures(colleague_days=desk.program.colleague_days)


def gather(desk: Desk, partners: Collection[Partner]) -> Gathered:
    """Everything about asking these partners, in nine queries for any number of them."""
    ids = [partner.pk for partner in partners]
    return Gathered(
        desk=desk,
        schools=tuple(desk.schools),
        approvals=_approvals(desk),
        with_procedure=_with_procedure(desk),
        asks=_asks(desk, ids),
        last_gift=_last_yes(desk, ids),
        thanks_owed=_dated(_thanks_owed(desk, ids), Min("base")),
        results_owed=_dated(_without_result(_gifts(desk, ids)), Min("day")),
    )


def situation(desk: Desk, partner: Partner, need: Need | None = None, school: School | None = None) -> Situation:
    return situations(desk, [partner], need, school)[partner.pk]


def situations(
    desk: Desk, partners: Collection[Partner], need: Need | None = None, school: School | None = None
) -> dict[int, Situation]:
    """The situation of each partner by its id, in as many queries as `gather`."""
    known = gather(desk, partners)
    school_id = school.pk if school else None
    return {partner.pk: known.situation(partner, need, school_id) for partner in partners}


def verdicts(
    desk: Desk, partners: Collection[Partner], day: date, need: Need | None = None, school: School | None = None
) -> dict[int, Verdict]:
    """May each be asked on `day`? By the partner's id."""
    known = situations(desk, partners, need, school)
    return {pk: may_ask(situation, day, figures(desk)) for pk, situation in known.items()}


def _dated(rows: Any, day: Any) -> dict[int, date]:
    """One day for each partner among the rows."""
    return dict(rows.order_by().values("partner_id").annotate(on=day).values_list("partner_id", "on"))


def _asks(desk: Desk, ids: list[int]) -> dict[int, list[PastAsk]]:
    """What was asked, and what came without anybody asking for it."""
    found: dict[int, list[PastAsk]] = defaultdict(list)
    rows = desk.program.asks.filter(partner__in=ids)
    own = desk.user.pk if desk.user else None
    for row in rows.values("partner_id", "asked_on", "school_id", "asked_by", "answer", "created_by_id"):
        colleague = own is not None and row["created_by_id"] not in (None, own)
        # Of a school that the person does not see nothing is told but the day.
        seen = not desk.school_ids or row["school_id"] is None or row["school_id"] in desk.school_ids
        by = ((seen and row["asked_by"]) or _("a colleague")) if colleague else ""
        waiting = row["answer"] == Answer.WAITING
        found[row["partner_id"]].append(PastAsk(row["asked_on"], row["school_id"], by, waiting))
    asked_for = desk.program.gifts.filter(partner__in=ids, lines__delivery__promise__ask__isnull=False)
    unasked = _gifts(desk, ids).exclude(pk__in=asked_for.values("pk"))
    for partner_id, day, school_id in unasked.values_list("partner_id", "day", "school_id"):
        found[partner_id].append(PastAsk(day, school_id, unasked=True))
    grants = desk.program.grants.filter(partner__in=ids, asked_on__isnull=False).order_by()
    for grant in grants.values("partner_id", "asked_on", "school_id", "state"):
        past = PastAsk(grant["asked_on"] or date.min, grant["school_id"], waiting=grant["state"] == GrantState.ASKED)
        found[grant["partner_id"]].append(past)
    return found


def _gifts(desk: Desk, ids: list[int]) -> Any:
    """Gifts in the strict sense: what came in a trade was paid for, and what was lent goes back."""
    return desk.program.gifts.filter(partner__in=ids, trade=False).exclude(form=Form.LOAN)


def _last_yes(desk: Desk, ids: list[int]) -> dict[int, date]:
    """The day of the last gift or award, whichever came later: a grantmaker rests after its yes as a shop does."""
    last = _dated(_gifts(desk, ids), Max("day"))
    awarded = desk.program.grants.awarded().filter(partner__in=ids, answered_on__isnull=False)
    for pk, day in _dated(awarded, Max("answered_on")).items():
        last[pk] = max(day, last.get(pk, day))
    return last


def _thanks_owed(desk: Desk, ids: list[int]) -> Any:
    return desk.program.thanks.owed().filter(partner__in=ids, reason__in=PAID_FIRST)


def _without_result(gifts: Any) -> Any:
    """Gifts to a project of which nobody has written yet what it became, or had written before the gift came."""
    direct, need = Q(project__isnull=False), Q(project=None, lines__need__project__isnull=False)
    unsaid = Q(project__became_on=None) | Q(project__became_on__lt=F("day"))
    unsaid_of_need = Q(lines__need__project__became_on=None) | Q(lines__need__project__became_on__lt=F("day"))
    return gifts.filter((direct & unsaid) | (need & unsaid_of_need))


def _with_procedure(desk: Desk) -> set[int]:
    """The schools at which it is written down who must say yes to asking."""
    return set(desk.program.procedures.filter(what_for=ApprovalFor.ASKING).values_list("school_id", flat=True))


def _last_day(until: date | None, lapsed_on: date | None) -> date | None:
    """The last day on which an approval counts; None where it stands."""
    before = lapsed_on - timedelta(days=1) if lapsed_on is not None else None
    return min((day for day in (until, before) if day is not None), default=None)


def _approvals(desk: Desk) -> dict[int, list[Approved]]:
    found: dict[int, list[Approved]] = defaultdict(list)
    rows = desk.program.approvals.filter(what_for=ApprovalFor.ASKING)
    for school_id, on, until, lapsed_on in rows.values_list("school_id", "on", "until", "lapsed_on"):
        found[school_id].append(Approved(on, _last_day(until, lapsed_on)))
    return found
