"""A verdict of "may I ask now?" as data that stays as it was, whatever the record says later."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, Protocol


class Reasoned(Protocol):
    """One reason: what it is, the day it ends, and the plain values its sentence needs."""

    @property
    def code(self) -> str: ...
    @property
    def until(self) -> date | None: ...
    @property
    def facts(self) -> Mapping[str, date | int | str]: ...


class Judged(Protocol):
    """A verdict as it is frozen; `partners.asking.may_ask` makes them."""

    @property
    def day(self) -> date: ...
    @property
    def allowed(self) -> bool: ...
    @property
    def reasons(self) -> Sequence[Reasoned]: ...
    @property
    def earliest(self) -> date | None: ...
    @property
    def later(self) -> Sequence[Reasoned]: ...
    @property
    def once_done(self) -> date | None: ...
    @property
    def send_by(self) -> date | None: ...


def freeze(verdict: Judged) -> dict[str, Any]:
    """The verdict by the names above, each reason as {"code", "until", "facts"}, a day as {"date": "2026-10-06"}."""
    days = {name: _kept(getattr(verdict, name)) for name in ("day", "earliest", "once_done", "send_by")}
    return {
        **days,
        "reasons": [_reason(reason) for reason in verdict.reasons],
        "later": [_reason(reason) for reason in verdict.later],
    }


def _reason(reason: Reasoned) -> dict[str, Any]:
    facts = {name: _kept(value) for name, value in reason.facts.items()}
    return {"code": str(reason.code), "until": _kept(reason.until), "facts": facts}


def thawed(value: Any) -> Any:
    """One kept value as it was: a day is a date again."""
    return date.fromisoformat(value["date"]) if isinstance(value, dict) and "date" in value else value


def _kept(value: date | int | str | None) -> Any:
    return {"date": value.isoformat()} if isinstance(value, date) else value
