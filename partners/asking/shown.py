"""A verdict as a page shows it: what the template asks for, with every reason in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from partners.asking.may_ask import Verdict
from partners.asking.reasons import Code, Reason
from partners.asking.words import answer, clause, short, to_do
from partners.visits.frozen_verdict import thawed


@dataclass(frozen=True)
class Shown:
    """`earliest` is the first day of a yes, if what is to be done first (`deeds`) were done today."""

    allowed: bool
    earliest: date | None
    sentences: tuple[str, ...]
    deeds: tuple[str, ...]
    answer: str
    short: str
    send_by: date | None


def show(verdict: Verdict, partner: str) -> Shown:
    now = [capfirst(clause(reason, partner)) for reason in verdict.reasons]
    then = [_("By then: %(reason)s") % {"reason": clause(reason, partner)} for reason in verdict.later]
    return Shown(
        allowed=verdict.allowed,
        earliest=verdict.once_done,
        sentences=(*now, *then),
        deeds=tuple(to_do(reason) for reason in verdict.to_do),
        answer=answer(verdict, partner),
        short=short(verdict),
        send_by=verdict.send_by,
    )


def thaw(frozen: dict[str, Any]) -> Verdict:
    """The verdict that `freeze` kept."""
    return Verdict(
        day=thawed(frozen["day"]),
        reasons=_reasons(frozen["reasons"]),
        earliest=thawed(frozen["earliest"]),
        later=_reasons(frozen["later"]),
        once_done=thawed(frozen["once_done"]),
        send_by=thawed(frozen["send_by"]),
    )


def _reasons(frozen: list[dict[str, Any]]) -> tuple[Reason, ...]:
    return tuple(
        Reason(
            Code(one["code"]),
            thawed(one["until"]),
            {name: thawed(value) for name, value in one["facts"].items()},
        )
        for one in frozen
    )
