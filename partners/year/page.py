"""What the Year page shows: numbers that open their rows, and the pictures people read at a glance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from django.urls import reverse
from django.utils.formats import date_format, number_format
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.directory.models import BusinessKind, PartnerKind
from partners.gifts.models import Form
from partners.ground.tags import money
from partners.helpers.tags import spent
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.promises.models import Side
from partners.year.charts import Part, Strip, lying, share, strip
from partners.year.due_days import due_months
from partners.year.figures import LEAST_ASKS, YesRate
from partners.year.record import KINDS, Promised, Thing, YearRecord, year_record
from partners.year.rows import FATES, ROWS
from partners.year.span import Span, chosen, spans, this_year

ENDS = {
    "kept": gettext_lazy("kept"),
    "to_come": gettext_lazy("still to come"),
    "past": gettext_lazy("past its day"),
    "never": gettext_lazy("never came"),
}
STRIP_NAMES = {
    "asks": gettext_lazy("Asks"),
    "gifts": gettext_lazy("What came"),
    "thanks": gettext_lazy("Thanks said"),
}
SIDES = {Side.THEM: gettext_lazy("They promised"), Side.US: gettext_lazy("We promised")}


@dataclass(frozen=True)
class Number:
    """A number in words, and where its rows are; without `url` the person may not read them."""

    words: str
    url: str = ""


@dataclass(frozen=True)
class Fact:
    """One line of the year: its name, its numbers, and a word about them."""

    name: str
    numbers: tuple[Number, ...]
    about: str = ""


@dataclass(frozen=True)
class SideBar:
    name: str
    whole: str
    parts: tuple[Part, ...]
    ends: tuple[tuple[str, str, Number], ...]


@dataclass(frozen=True)
class ThingBar:
    what: str
    words: Number
    wide: float


@dataclass(frozen=True)
class RateBar:
    name: str
    asks: Number
    words: str
    wide: float


class Links:
    """Addresses of rows of one year, for what is open to the person."""

    def __init__(self, desk: Desk, span: Span) -> None:
        self.desk, self.span = desk, span

    def rows(self, what: str, **narrowed: str) -> str:
        if not self.desk.reads(ROWS[what].opened):
            return ""
        asked = {"what": what, "year": str(self.span.year), **narrowed}
        return f"{reverse('year:rows')}?{urlencode(asked)}"

    def page(self, name: str, opened: str) -> str:
        return reverse(name) if self.desk.reads(opened) else ""

    def number(self, count: int, what: str, **narrowed: str) -> Number:
        return Number(grouped(count), self.rows(what, **narrowed) if count else "")


def grouped(count: int) -> str:
    return number_format(count, force_grouping=True)


def percent(rate: Fraction) -> str:
    """To a whole percent, half a percent up."""
    return _("%(rate)s%%") % {"rate": grouped(int(rate * 100 + Fraction(1, 2)))}


def year_page(desk: Desk, typed: str) -> dict[str, Any]:
    """The context of the page, in as many queries as there are kinds of figures and sources of due lines."""
    known = spans(desk)
    span = chosen(known, typed)
    record = year_record(desk, span)
    links = Links(desk, span)
    now = span == this_year(desk)
    return {
        "span": span,
        "spans": known,
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
        "due": due_months(desk) if now and desk.reads(Opened.TODAY) else [],
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
    """Classes are kept as they are today, so that nothing is said of an earlier year."""
    classes = sum(one.classes for one in record.reached)
    if not now or not classes:
        return Fact("", ())
    words = ngettext("in %(classes)d class", "in %(classes)d classes", classes) % {"classes": classes}
    url = reverse("school:school-list") if links.desk.writes else ""
    return Fact(_("Students reached"), (Number(grouped(record.students), url),), words)


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
        asked = Number(f"{told.asked} ({money(told.asked_cents)})", links.rows("grants", state="asked"))
        refused = Number(_("%(count)d refused") % {"count": told.refused}, links.rows("grants", state="refused"))
        found.append(Fact(_("Grants asked for"), (asked, refused) if told.refused else (asked,)))
    if told.awarded:
        url = links.rows("grants", state="awarded")
        words = _("%(spent)s spent, %(left)s left")
        about = words % {"spent": money(told.spent_cents), "left": money(told.left_cents)}
        awarded = Number(f"{told.awarded} ({money(told.awarded_cents)})", url)
        found.append(Fact(_("Grants awarded"), (awarded,), about))
    return found


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


def months_strip(record: YearRecord) -> Strip:
    initials = [date_format(month, "M")[:1] for month in record.span.months]
    return strip([(str(STRIP_NAMES[kind]), record.months[kind]) for kind in KINDS], initials)


def month_rows(record: YearRecord, links: Links) -> list[tuple[str, list[Number]]]:
    """The same numbers as a table: a line for each month."""
    return [
        (
            date_format(month, "YEAR_MONTH_FORMAT"),
            [links.number(record.months[kind][at], kind, month=month.strftime("%Y-%m")) for kind in KINDS],
        )
        for at, month in enumerate(record.span.months)
    ]


def side_bar(side: str, told: Promised, links: Links) -> SideBar:
    counted = [(code, getattr(told, code)) for code in ENDS]
    ends = tuple(
        (code, str(ENDS[code]), links.number(count, "promises", side=side, end=code))
        for code, count in counted
        if count
    )
    return SideBar(str(SIDES[Side(side)]), grouped(told.all), lying(counted), ends)


def thing_bar(one: Thing, links: Links) -> ThingBar:
    what = f"{one.what} ({one.unit})" if one.unit else one.what
    words = _("%(received)s of %(promised)s") % {
        "received": grouped(one.received),
        "promised": grouped(one.promised),
    }
    url = links.rows("promises", side=Side.THEM, thing=one.what, unit=one.unit)
    return ThingBar(what, Number(words, url), share(one.received, one.promised))


def rate_bar(one: YesRate, links: Links) -> RateBar:
    name = str(BusinessKind(one.kind).label if one.kind in BusinessKind.values else PartnerKind(one.kind).label)
    asks = ngettext("%(asks)d ask", "%(asks)d asks", one.asks) % {"asks": one.asks}
    words = percent(one.rate) if one.rate is not None else ""
    wide = share(one.yes, one.asks) if one.rate is not None else 0.0
    return RateBar(name, Number(asks, links.rows("asks", kind=one.kind)), words, wide)


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
    before = _("%(count)s gave the year before") % {"count": grouped(told.before)}
    again = _("%(count)s gave again") % {"count": grouped(told.again)}
    url = links.rows("givers", again="yes") if told.again else ""
    return (Number(again, url), Number(before, links.rows("givers")))
