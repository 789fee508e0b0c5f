"""The one door to the record: a program as one person sees it on one day."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from functools import cache
from typing import Any

from django.db.models import ForeignKey, Q, QuerySet

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


@cache
def school_path(model: type[Row]) -> str:
    """How a row leads to its school: its own column, else through what it is a part of; "" where it has none.

    A thing of a gift is of the gift's school, a class in a trade of the trade's, whatever class it is: what a row
    cannot be without and names first is what it is a part of.
    """
    columns = model._meta.concrete_fields
    if any(column.name == "school" for column in columns):
        return "school"
    for column in columns:
        if isinstance(column, ForeignKey) and not column.null and issubclass(column.remote_field.model, Row):
            path = school_path(column.remote_field.model)
            return f"{column.name}__{path}" if path else ""
    return ""


@dataclass(frozen=True)
class Signer:
    """Who stands under letters and sheets, and how to reach them."""

    teacher: str
    title: str = ""
    phone: str = ""
    email: str = ""


@dataclass(frozen=True)
class Desk:
    """`desk.visits`, `desk.partners` and so on are querysets of this program's rows, narrowed to the person's schools.

    A row that names no school belongs to all of them. Views and documents use nothing else to reach the record. A run
    of many sheets has a desk of its own that keeps in `kept` what is the same for all of them.
    """

    program: Program
    day: date
    user: User | None = None
    role: Role = Role.KEEPER
    opened: frozenset[str] = frozenset()
    school_ids: frozenset[int] = frozenset()
    once: str | None = field(default=None, compare=False)
    kept: dict[Any, Any] | None = field(default=None, compare=False, repr=False)
    signer: Signer | None = field(default=None, compare=False)

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
        path = school_path(model)
        return rows.filter(Q(**{f"{path}__in": self.school_ids}) | Q(**{path: None})) if path else rows

    @property
    def sees(self) -> tuple[Any, ...]:
        """All that decides which rows the desk leads to, whatever stands in them."""
        return self.program.pk, self.role, self.opened, self.school_ids

    @property
    def signs(self) -> Signer:
        """The program's teacher, or the colleague at this desk who signs what they print."""
        return self.signer or self.program_signs

    @property
    def program_signs(self) -> Signer:
        program = self.program
        return Signer(program.teacher, program.title, program.phone, program.email)

    @property
    def writes(self) -> bool:
        return self.role != Role.GUEST

    @property
    def keeps(self) -> bool:
        return self.role == Role.KEEPER

    def reads(self, what: Opened | str) -> bool:
        """Whether pages of this kind are open to the person."""
        return self.writes or str(what) in self.opened

    @property
    def reads_amounts(self) -> bool:
        """Whether amounts of money are open to the person: with the gifts or with the money, and with nothing else."""
        return self.reads(Opened.GIFTS) or self.reads(Opened.MONEY)

    def without_amounts(self, rows: QuerySet[Any], *columns: str) -> QuerySet[Any]:
        """The rows, or those alone that hold no amount in these columns, where amounts are not open to the person."""
        return rows if self.reads_amounts else rows.filter(**{f"{column}__isnull": True for column in columns})
