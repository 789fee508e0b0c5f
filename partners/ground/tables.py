"""The base of every list that sorts and pages."""

from __future__ import annotations

from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django.utils.functional import Promise as LazyText
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

PER_PAGE = 50


class BookTable(django_tables2.Table):  # type: ignore[misc]
    """`caption` names the list, `empty_text` in Meta says what to do first. Give only indexed columns an order."""

    caption: str | LazyText = ""

    class Meta:
        template_name = "tables/table.html"
        orderable = False


def configured(request: Any, table: BookTable, per_page: int = PER_PAGE) -> BookTable:
    """The table sorted and paged as the address says, without ever counting its rows."""
    paging = {"paginator_class": LazyPaginator, "per_page": per_page}
    django_tables2.RequestConfig(request, paginate=paging).configure(table)
    return table
