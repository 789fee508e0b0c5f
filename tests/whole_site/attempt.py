"""One way to fill in the form at an address, and what has to be so before."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from partners.program.models import Program


def nothing(program: Program) -> None:
    """The book is ready as it is."""


@dataclass(frozen=True)
class Attempt:
    """What is typed beyond what the form itself would send, what has to be so before, and where the form stands.

    `where` is what the address holds besides the row's number; `page` the name of the page with the form: its own
    where it is empty, none where the form sends its parts in another way.
    """

    typed: dict[str, Any] = field(default_factory=dict)
    before: Callable[[Program], object] = nothing
    where: dict[str, Any] = field(default_factory=dict)
    page: str | None = ""


def set_to(rows: str, /, **values: Any) -> Callable[[Program], object]:
    return lambda program: getattr(program, rows).update(**values)
