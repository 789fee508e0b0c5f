"""What the page of a plan shows: the plan as it is stored, what would move if it were made anew, what would help."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby
from typing import Any

from django.db.models import F, Max
from django.utils.text import get_text_list
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext as _

from partners.exchanges.apportion import Rule
from partners.exchanges.models import Trade, TradeClass
from partners.exchanges.plain_items import Stock
from partners.exchanges.plan import Plan, Row, plan
from partners.exchanges.plan_actions import due_of
from partners.exchanges.plan_forms import ShareForm, share_form
from partners.exchanges.plan_words import SIGNS, day_words, few, offer_words, state_of, why_words
from partners.exchanges.planning import Gathered, gather
from partners.exchanges.strips import WeekCell, strip, weeks_between
from partners.promises.models import Part, Promise
from partners.school.closures import federal_holidays
from partners.school.models import ClosureKind


@dataclass(frozen=True)
class PlanRow:
    """One class as it is shown."""

    row: Row
    stored: TradeClass
    kind: str
    state: str
    cells: Sequence[WeekCell]
    lessons_on: str
    form: ShareForm | None

    @property
    def sign(self) -> str:
        return SIGNS[self.kind]


def as_stored(gathered: Gathered) -> Plan:
    """The plan with the shares that the rows hold: what hangs on the wall, seen from the day it is gathered for."""
    total = sum(row.share for row in gathered.rows)
    fixed = [replace(one, fixed=row.share) for one, row in zip(gathered.classes, gathered.rows, strict=True)]
    return plan(replace(gathered.wish, at_least=total, at_most=None, minimum=0), fixed)


def plan_context(desk: Any, trade: Trade, wrong: tuple[int, ShareForm] | None = None) -> dict[str, Any]:
    """Everything on the page; `wrong` is a share that was typed and cannot be, by its row's id. Raises PlainError."""
    gathered = gather(desk.program, trade, desk.day)
    fresh, stands = plan(gathered.wish, gathered.classes), as_stored(gathered)
    short_by = max(0, gathered.wish.at_least - sum(row.share - row.short_by for row in stands.rows))
    open_to_change = desk.writes and trade.called_off_on is None
    made = days_made(desk, gathered)
    began = min([gathered.first, *(day for days in made.values() for day in days)])
    weeks = weeks_between(began, max(gathered.first, gathered.wish.work_until))
    rows = shown_rows(desk, gathered, stands, weeks, made, wrong, open_to_change)
    plain = trade.plain
    over = [] if all(one.meetings for one in gathered.classes) else years_over(desk, gathered)
    return {
        "trade": trade,
        "make": trade.make,
        "wish": gathered.wish,
        "rows": rows,
        "groups": [(school, list(group)) for school, group in groupby(rows, key=lambda one: one.row.school)],
        "weeks": [(week, place == 0 or week.day <= 7) for place, week in enumerate(weeks)],
        "short_by": short_by,
        "uncounted": bool(short_by) and stands.uncounted >= short_by,
        "unshared": max(0, gathered.wish.at_least - stands.total),
        "trouble": gettext(fresh.trouble.sentence) % fresh.trouble.facts if fresh.trouble else "",
        "fits": bool(rows) and not short_by and fresh.trouble is None,
        "fresh": fresh,
        "total": stands.total,
        "stock": stock(trade, plain, fresh) if plain is not None else None,
        "reasons": reasons(rows),
        "notes": [*notes(desk, gathered, fresh, stands, plain), *over],
        # Behind the last school year nobody has room: that says nothing of what classes can make in the next one.
        "moves": [] if over else moved(fresh, gathered),
        "offers": [] if over else offers_words(fresh, gathered),
        "open_to_change": open_to_change,
        "first_start": min((one.row.first_meeting for one in rows if one.row.first_meeting), default=None),
        "reserved": fresh.rule is Rule.RESERVE,
    }


def moved(fresh: Plan, gathered: Gathered) -> list[tuple[str, int, int]]:
    """Each class whose share another plan would change: its name, the share before and after."""
    both = zip(fresh.rows, gathered.rows, strict=True)
    return [(row.label, old.share, row.share) for row, old in both if row.share != old.share]


def offers_words(fresh: Plan, gathered: Gathered) -> list[dict[str, str]]:
    return [offer_words(offer, due_of(offer, gathered), gathered.trade.partner) for offer in fresh.offers]


def days_made(desk: Any, gathered: Gathered) -> dict[int, list[date]]:
    """On which days each class finished or spoiled something, by the row's id."""
    made: dict[int, list[date]] = defaultdict(list)
    for pk, day in desk.trade_tallies.filter(trade_class__in=gathered.rows).values_list("trade_class_id", "day"):
        made[pk].append(day)
    return made


def shown_rows(
    desk: Any,
    gathered: Gathered,
    stands: Plan,
    weeks: Sequence[date],
    made: Mapping[int, Sequence[date]],
    wrong: tuple[int, ShareForm] | None,
    open_to_change: bool,
) -> list[PlanRow]:
    found = []
    for row, stored, one in zip(stands.rows, gathered.rows, gathered.classes, strict=True):
        kind, words = state_of(row, stored, desk.day)
        meets = one.meetings[: one.met_by(gathered.wish.work_until)]
        form = None
        # A teacher of some schools changes the shares of their classes.
        if open_to_change and (not desk.school_ids or stored.school_class.school_id in desk.school_ids):
            form = wrong[1] if wrong is not None and wrong[0] == stored.pk else share_form(desk, stored)
        lessons_on = ", ".join(day_words(day) for day in row.meetings)
        cells = strip(weeks, row.meetings, meets, made.get(stored.pk, ()))
        found.append(PlanRow(row, stored, kind, words, cells, lessons_on, form))
    return found


def reasons(rows: Sequence[PlanRow]) -> dict[str, list[PlanRow]]:
    """The classes that cannot make their share, by why."""
    found: dict[str, list[PlanRow]] = defaultdict(list)
    for one in rows:
        if one.row.short_by:
            found[why_words(one.row.why, one.stored.school_class)].append(one)
    return dict(found)


def stock(trade: Trade, plain: Promise, fresh: Plan) -> Stock:
    to_make = 0 if trade.make.settled_on else fresh.left
    return Stock(plain.delivered, fresh.done, fresh.spoiled, to_make, trade.went_back)


def notes(desk: Any, gathered: Gathered, fresh: Plan, stands: Plan, plain: Promise | None) -> list[str]:
    """What to look out for, each in one sentence."""
    wish, found = gathered.wish, []
    if wish.due < desk.day:
        found.append(_("The promised day, %(day)s, has passed. Agree on a later one.") % {"day": day_words(wish.due)})
    elif not gathered.calendar.is_school_day(wish.due):
        facts = {"day": day_words(wish.due), "last": day_words(wish.work_until)}
        found.append(_("There is no school on %(day)s. The last lessons that count are on %(last)s.") % facts)
    elif wish.work_until < desk.day:
        facts = {"last": day_words(wish.work_until)}
        found.append(_("The last day for lessons, %(last)s, has passed; the rest is drying and packing.") % facts)
    if plain is not None:
        found += plain_notes(gathered, fresh, plain)
    found += elsewhere(desk, gathered)
    found += on_holidays(stands)
    # Those that have a share stand among what does not fit already.
    without_days = sum(not row.school_class.meets_on and not row.share for row in gathered.rows)
    if without_days:
        words = ngettext(
            "%(count)d class does not say on which days it has art. Open it and tick them.",
            "%(count)d classes do not say on which days they have art. Open them and tick the days.",
            without_days,
        )
        found.append(words % {"count": without_days})
    if not fresh.minimum_kept:
        found.append(_("The minimum for each class no longer fits into what is left, so it was left out."))
    return found


def elsewhere(desk: Any, gathered: Gathered) -> list[str]:
    """Classes that make something for another trade in the same weeks: the plan does not take those lessons off."""
    rows = desk.trade_classes.filter(
        school_class__in=[row.school_class_id for row in gathered.rows],
        share__gt=F("done"),
        start_on__lte=gathered.wish.work_until,
        trade__called_off_on=None,
        trade__promises__part=Part.MAKE,
        trade__promises__settled_on=None,
        trade__promises__due__gte=gathered.first,
    ).exclude(trade=gathered.trade)
    found: dict[str, list[str]] = defaultdict(list)
    for what, label in rows.order_by("trade_id", "pk").values_list("trade__what", "school_class__label"):
        found[what].append(label)
    sentence = _("In the same weeks also at work on %(what)s: %(classes)s. The plan does not take those lessons off.")
    return [sentence % {"what": what, "classes": few(labels)} for what, labels in found.items()]


def years_over(desk: Any, gathered: Gathered) -> list[str]:
    """Schools where no class meets any more, because the next school year is not entered."""
    schools = {row.school_class.school_id: row.school_class.school for row in gathered.rows}
    years = desk.program.school_days.filter(kind=ClosureKind.YEAR, school__in=schools).order_by()
    ends = dict(years.values_list("school").annotate(Max("last")))
    sentence = _("The school year of %(school)s ended on %(day)s. Classes meet again once the next one is entered.")
    over = [(schools[pk], last) for pk, last in ends.items() if last < min(desk.day, gathered.wish.work_until)]
    return [sentence % {"school": school, "day": day_words(last)} for school, last in over]


def on_holidays(stands: Plan) -> list[str]:
    """Schools whose calendar is open on a federal holiday, where a lesson of the plan falls on it."""
    days: dict[str, set[date]] = defaultdict(set)
    for row in stands.rows:
        days[row.school].update(row.meetings)
    holidays = {day for day, _name in federal_holidays({day.year for own in days.values() for day in own})}
    found = []
    for school, own in sorted(days.items()):
        if open_on := sorted(own & holidays):
            sentence = ngettext(
                "A lesson of the plan falls on %(days)s, a federal holiday: the calendar of %(school)s is open then.",
                "Lessons of the plan fall on %(days)s, federal holidays: the calendar of %(school)s is open then.",
                len(open_on),
            )
            listed = get_text_list([day_words(day) for day in open_on], _("and"))
            found.append(sentence % {"school": school, "days": listed})
    return found


def plain_notes(gathered: Gathered, fresh: Plan, plain: Promise) -> list[str]:
    """About plain items: not there yet, fewer than are needed, more than there is room for."""
    found = []
    if plain.settled_on is None and not plain.delivered and plain.due > gathered.wish.work_until:
        facts = {"day": day_words(plain.due)}
        found.append(
            _("The plain items are promised for %(day)s, when no lesson is left. Agree on an earlier day.") % facts
        )
    left = stock(gathered.trade, plain, fresh)
    if plain.settled_on is not None and left.short_by:
        words = ngettext("%(count)s plain item is missing.", "%(count)s plain items are missing.", left.short_by)
        found.append(words % {"count": f"{left.short_by:,}"})
    if plain.quantity is not None and fresh.possible < min(gathered.wish.at_least, plain.quantity):
        numbers = {"plain": f"{plain.quantity:,}", "room": f"{fresh.possible:,}"}
        found.append(
            _("%(plain)s plain items are promised, and the classes have room for %(room)s by the day.") % numbers
        )
    return found
