"""The base of every list that sorts and pages."""

from __future__ import annotations

from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.functional import Promise as LazyText
from django.utils.translation import gettext
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

PER_PAGE = 50
# A list is counted no further.
COUNTED = 1000


class BookTable(django_tables2.Table):  # type: ignore[misc]
    """`caption` names the list, `empty_text` in Meta says what to do first. Give only indexed columns an order."""

    caption: str | LazyText = ""
    # Whether the list says how many it holds, which costs a query where it has more than one page.
    counts = False
    holds = ""

    class Meta:
        template_name = "tables/table.html"
        orderable = False


def configured(request: Any, table: BookTable, per_page: int = PER_PAGE) -> BookTable:
    """The table sorted and paged as the address says, without ever counting its rows to the end."""
    paging = {"paginator_class": LazyPaginator, "per_page": per_page}
    django_tables2.RequestConfig(request, paginate=paging).configure(table)
    if table.counts:
        table.holds = holding(table)
    return table


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
