"""The pictures of the Year page: the months, promises of both sides, what came of them, how often a yes came."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.directory.models import BusinessKind, PartnerKind
from partners.promises.models import Side
from partners.year.charts import Part, Strip, lying, share, strip
from partners.year.counted import Promised, Thing, YearRecord
from partners.year.figures import YesRate
from partners.year.numbers import Links, Number, grouped, percent
from partners.year.record import KINDS

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
