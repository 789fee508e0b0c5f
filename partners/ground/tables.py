"""The base of every list that sorts and pages."""

from __future__ import annotations

from copy import copy
from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.formats import localize
from django.utils.functional import Promise as LazyText
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString
from django.utils.translation import gettext
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

PER_PAGE = 50
# A day stays on one line, a number stands under the end of its heading.
DAY = {"td": {"class": "day"}}
NUMBER = {"th": {"class": "number"}, "td": {"class": "number"}}
# A list is counted no further.
COUNTED = 1000

# How the cells of a column stand on a phone: in one small line with those beside it, under the name of the column or,
# where their words say enough, without it; or not at all, where the page a row leads to says it.
BRIEF = {"td": {"class": "brief"}}
BARE = {"td": {"class": "brief bare"}}
SPARE = {"td": {"class": "spare"}}
# What a hand does with the row: on a phone beside the name.
ASIDE = {"td": {"class": "aside"}}


class BookTable(django_tables2.Table):  # type: ignore[misc]
    """`caption` names the list, `empty_text` in Meta says what to do first. Give only indexed columns an order."""

    caption: str | LazyText = ""
    # Whether the list says how many it holds, which costs a query where it has more than one page.
    counts = False
    holds = ""

    class Meta:
        template_name = "tables/table.html"
        orderable = False

    def body(self) -> SafeString:
        """Its rows. A template would look up eight things anew for each cell, and take half of a long page's time."""
        columns = list(self.columns)
        opened = [self._opened(column) for column in columns]
        return format_html_join(
            "\n", '<tr role="row">{}</tr>', ((self._cells(row, columns, opened),) for row in self.paginated_rows)
        )

    def _cells(self, row: Any, columns: list[Any], opened: list[tuple[SafeString, SafeString]]) -> SafeString:
        shown = (row.get_cell(column.name) for column in columns)
        # What is empty has no name before it on a phone.
        cells = ((kinds[value == ""], localize(value)) for kinds, value in zip(opened, shown, strict=True))
        return format_html_join("\n", "{}{}</td>", cells)

    def _opened(self, column: Any) -> tuple[SafeString, SafeString]:
        """How a cell of the column begins, with its name and, where it is empty, without."""
        attrs = column.attrs["td"].as_html()
        named = format_html('<td role="cell" data-label="{}" {}>', column.header, attrs)
        return named, format_html('<td role="cell" {}>', attrs)


def configured(request: Any, table: BookTable, per_page: int = PER_PAGE) -> BookTable:
    """The table sorted and paged as the address says, without ever counting its rows to the end."""
    paging = {"paginator_class": LazyPaginator, "per_page": per_page}
    django_tables2.RequestConfig(by_its_columns(request, table), paginate=paging).configure(table)
    if table.counts:
        table.holds = holding(table)
    return table


def by_its_columns(request: Any, table: BookTable) -> Any:
    """The request without an order by what is no column: the library takes a dotted name apart before it looks."""
    asked, field, names = copy(request), table.prefixed_order_by_field, table.columns.names()
    asked.GET = request.GET.copy()
    asked.GET.setlist(field, [one for one in request.GET.getlist(field) if one.removeprefix("-") in names])
    return asked


def holding(table: BookTable) -> str:
    """ "12", "51-100 of 308", "1-50 of more than 1,000"."""
    page = table.page
    shown = len(page.object_list)
    if not page.has_next() and not page.has_previous():
        return f"{shown:,}"
    first = (page.number - 1) * page.paginator.per_page + 1
    facts = {"first": f"{first:,}", "last": f"{first + shown - 1:,}"}
    total = table.data.data[: COUNTED + 1].count()
    if total > COUNTED:
        return gettext("%(first)s-%(last)s of more than %(total)s") % {**facts, "total": f"{COUNTED:,}"}
    return gettext("%(first)s-%(last)s of %(total)s") % {**facts, "total": f"{total:,}"}
