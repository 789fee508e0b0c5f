"""The one door to the record: a program as one person sees it on one day."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from functools import cache
from typing import Any

from django.db.models import Q, QuerySet

from partners.ground.models import Row
from partners.program.models import Opened, Program, Role, User


@cache
def row_names() -> dict[str, type[Row]]:
    """Every kind of row by the name a program calls them: {"visits": Visit, …}."""
    return {
        str(relation.get_accessor_name()): relation.related_model
        for relation in Program._meta.related_objects
        if isinstance(relation.related_model, type) and issubclass(relation.related_model, Row)
    }


@dataclass(frozen=True)
class Desk:
    """`desk.visits`, `desk.partners` and so on are querysets of this program's rows, narrowed to the person's schools.

    A row that names no school belongs to all of them. Views and documents use nothing else to reach the record.
    """

    program: Program
    day: date
    user: User | None = None
    role: Role = Role.KEEPER
    opened: frozenset[str] = frozenset()
    school_ids: frozenset[int] = frozenset()
    once: str | None = field(default=None, compare=False)

    def __getattr__(self, name: str) -> Any:
        model = None if name.startswith("_") else row_names().get(name)
        if model is None:
            raise AttributeError(f"A desk has no {name!r}.")
        return self.narrowed(getattr(self.program, name).all())

    def narrowed(self, rows: QuerySet[Any]) -> QuerySet[Any]:
        if not self.school_ids:
            return rows
        model: Any = rows.model
        if model._meta.model_name == "school":
            return rows.filter(pk__in=self.school_ids)
        if any(f.name == "school" for f in model._meta.concrete_fields):
            return rows.filter(Q(school__in=self.school_ids) | Q(school=None))
        return rows

    @property
    def writes(self) -> bool:
        return self.role != Role.GUEST

    @property
    def keeps(self) -> bool:
        return self.role == Role.KEEPER

    def reads(self, what: Opened | str) -> bool:
        """Whether pages of this kind are open to the person."""
        return self.writes or str(what) in self.opened
