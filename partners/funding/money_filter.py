"""The purchases behind a figure, as an address asks for them: ?year= &school= &state=."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet

from partners.funding.figures import span_of
from partners.funding.money_figures import TITLES, behind, figures_open
from partners.program.desk import Desk


@dataclass(frozen=True)
class Asked:
    """Purchases, and what they were narrowed to in words; empty where nothing was asked."""

    rows: QuerySet[Any]
    words: str = ""


def asked_for(desk: Desk, query: Mapping[str, str]) -> Asked:
    """What cannot be, and what a guest may not see, is as if it had not been asked."""
    span = span_of(query.get("year", ""), desk.program.fiscal_year_starts)
    state = query.get("state", "")
    state = state if state in figures_open(desk) else ""
    number = query.get("school", "")
    school = desk.schools.filter(pk=number).first() if re.fullmatch(r"[0-9]{1,18}", number, re.ASCII) else None
    rows = behind(desk.purchases, span=span, state=state)
    words = [str(TITLES[state]) if state else "", span.name if span else "", str(school or "")]
    return Asked(rows.filter(school=school) if school else rows, ", ".join(word for word in words if word))
