"""Numbers in words, and the addresses of the rows behind them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from django.urls import reverse
from django.utils.formats import number_format
from django.utils.http import urlencode
from django.utils.translation import gettext as _

from partners.program.desk import Desk
from partners.year.rows import ROWS
from partners.year.span import Span


@dataclass(frozen=True)
class Number:
    """A number in words, and where its rows are; without `url` the person may not read them."""

    words: str
    url: str = ""


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
