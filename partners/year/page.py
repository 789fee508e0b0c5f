"""What the Year page shows: numbers that open their rows, and the pictures people read at a glance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django.utils.formats import number_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.gifts.models import Form
from partners.ground.tags import money
from partners.helpers.tags import spent
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.year.counted import YearRecord
from partners.year.due_days import due_months
from partners.year.figures import LEAST_ASKS
from partners.year.numbers import Links, Number, grouped, percent
from partners.year.pictures import SIDES, month_rows, months_strip, rate_bar, side_bar, thing_bar
from partners.year.record import year_record
from partners.year.rows import FATES
from partners.year.span import chosen, spans, this_year


@dataclass(frozen=True)
class Fact:
    """One line of the year: its name, its numbers, and a word about them."""

    name: str
    numbers: tuple[Number, ...]
    about: str = ""


def year_page(desk: Desk, typed: str) -> dict[str, Any]:
    """The context of the page, in as many queries as there are kinds of figures and sources of due lines."""
    known = spans(desk)
    span = chosen(desk, known, typed)
    record = year_record(desk, span)
    links = Links(desk, span)
    now = span == this_year(desk)
    return {
        "span": span,
        "spans": known,
        "query": f"?year={span.year}",
        "now": now,
        "record": record,
        "facts": facts(desk, record, links, now=now),
        "strip": months_strip(record),
        "months": month_rows(record, links),
        "sides": [side_bar(side, record.promised[side], links) for side in SIDES if record.promised[side].all],
        "things": [thing_bar(one, links) for one in record.things],
        "rates": [rate_bar(one, links) for one in record.rates],
        "least": LEAST_ASKS,
        "again": again_words(record, now=now),
        "givers": again_numbers(record, links),
        "due": due_months(desk) if (now or not typed) and desk.reads(Opened.TODAY) else [],
        "schools": list(desk.schools),
    }


def facts(desk: Desk, record: YearRecord, links: Links, *, now: bool) -> list[Fact]:
    """In the order of a report: children first, then what came, what was kept, who helped, money, thanks."""
    found = [reached(record, links, now=now), *gifts(record, links), *trades(record, links), helpers(record, links)]
    found += grants(record, links)
    if desk.writes:
        pocket = Number(money(record.pocket_cents), links.rows("pocket") if record.pocket_cents else "")
        found.append(Fact(_("Out of your own pocket, not repaid"), (pocket,), _("Only teachers see this line.")))
    found += [thanks(record, links), became(record, links)]
    return [fact for fact in found if fact.numbers]


def reached(record: YearRecord, links: Links, *, now: bool) -> Fact:
    """Of an earlier year the numbers alone are kept, so that there are no rows to open."""
    classes = sum(one.classes for one in record.reached)
    if not classes:
        return Fact("", ())
    words = ngettext("in %(classes)d class", "in %(classes)d classes", classes) % {"classes": classes}
    if not now:
        words = _("%(in_classes)s, as they stood at the end of that school year") % {"in_classes": words}
    number = Number(grouped(record.students), links.rows("classes") if now else "")
    return Fact(_("Students reached"), (number,), words)


def gifts(record: YearRecord, links: Links) -> list[Fact]:
    kinds = tuple(
        Number(f"{Form(form).label}: {grouped(count)}", links.rows("gifts", part="gift", form=form))
        for form, count in record.gifts.forms.items()
    )
    found = [Fact(_("Gifts, by kind"), kinds, _("Counted, never valued."))]
    if record.gifts.families:
        found.append(Fact(_("Of these from families"), (families(record, links),), _("Nobody is named.")))
    if record.gifts.in_trades:
        came = links.number(record.gifts.in_trades, "gifts", part="trade")
        found.append(Fact(_("Came as part of a trade"), (came,), _("Paid for by what the children made: no gift.")))
    return found


def families(record: YearRecord, links: Links) -> Number:
    return links.number(record.gifts.families, "gifts", part="gift", source="families")


def trades(record: YearRecord, links: Links) -> list[Fact]:
    told = record.trades
    if not told.all:
        return []
    kept = Number(_("%(kept)d of %(all)d") % {"kept": told.kept, "all": told.all}, links.rows("trades", fate="kept"))
    others = tuple(
        Number(f"{getattr(told, code)} {FATES[code]}", links.rows("trades", fate=code))
        for code in ("open", "ours", "theirs", "broken")
        if getattr(told, code)
    )
    return [Fact(_("Trades kept on both sides"), (kept, *others))]


def helpers(record: YearRecord, links: Links) -> Fact:
    if not record.hours.helpers:
        return Fact("", ())
    url = links.page("helpers:hour-list", Opened.HELPERS)
    count = ngettext("%(count)d helper", "%(count)d helpers", record.hours.helpers) % {"count": record.hours.helpers}
    return Fact(_("Helpers and their hours"), (Number(count, url), Number(spent(record.hours.minutes), url)))


def grants(record: YearRecord, links: Links) -> list[Fact]:
    told = record.granted
    found = []
    if told.asked:
        asked = Number(with_sum(told.asked, told.asked_cents, links), links.rows("grants", state="asked"))
        refused = Number(_("%(count)d refused") % {"count": told.refused}, links.rows("grants", state="refused"))
        found.append(Fact(_("Grants asked for"), (asked, refused) if told.refused else (asked,)))
    if told.awarded:
        url = links.rows("grants", state="awarded")
        went_back = _("%(spent)s spent, %(back)s went back, %(left)s left")
        words = went_back if told.back_cents else _("%(spent)s spent, %(left)s left")
        sums = {"spent": money(told.spent_cents), "back": money(told.back_cents), "left": money(told.left_cents)}
        about = words % sums if links.desk.reads_amounts else ""
        awarded = Number(with_sum(told.awarded, told.awarded_cents, links), url)
        found.append(Fact(_("Grants awarded"), (awarded,), about))
    return found


def with_sum(count: int, cents: int, links: Links) -> str:
    """A number of grants, with their sum where amounts are open to the person."""
    return f"{count} ({money(cents)})" if links.desk.reads_amounts else str(count)


def thanks(record: YearRecord, links: Links) -> Fact:
    told = record.thanked
    if not told.owed:
        return Fact("", ())
    said = Number(_("%(said)d of %(owed)d") % {"said": told.said, "owed": told.owed}, links.rows("thanks"))
    open_ones = Number(_("%(count)d still owed") % {"count": told.owed - told.said}, links.rows("thanks", said="no"))
    return Fact(_("Thanks said"), (said, open_ones) if told.owed > told.said else (said,), days_words(told.days))


def days_words(days: Fraction | None) -> str:
    """The middle of the days, with a half where it is one."""
    if days is None:
        return ""
    whole = number_format(days.numerator / days.denominator, decimal_pos=0 if days.denominator == 1 else 1)
    return _("Half of them were said within %(days)s days.") % {"days": whole}


def became(record: YearRecord, links: Links) -> Fact:
    if not record.became:
        return Fact("", ())
    return Fact(_("Projects that tell what they became"), (links.number(len(record.became), "projects"),))


def again_words(record: YearRecord, *, now: bool) -> str:
    """Who gave again, in one sentence; what cannot be said is said, too."""
    told, before = record.renewal, record.span.before.name
    if told.rate is None:
        return _("Nobody gave in %(before)s, so it cannot be said who gave again.") % {"before": before}
    words = (
        _("Of the partners that gave in %(before)s, so many gave again so far: %(rate)s.")
        if now
        else _("Of the partners that gave in %(before)s, so many gave again: %(rate)s.")
    )
    return words % {"before": before, "rate": percent(told.rate)}


def again_numbers(record: YearRecord, links: Links) -> Sequence[Number]:
    told = record.renewal
    if told.rate is None:
        return ()
    counted = (
        (_("%(count)s gave again"), told.again, "again"),
        (_("%(count)s did not"), told.before - told.again, "not-again"),
        (_("%(count)s gave the year before"), told.before, "givers"),
    )
    return [
        Number(words % {"count": grouped(count)}, links.rows(what) if count else "") for words, count, what in counted
    ]
