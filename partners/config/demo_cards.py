"""Job cards, welcomes and the show of the demo book."""

from __future__ import annotations

from dataclasses import replace
from datetime import time
from typing import Any

from partners.config.demo_trades import Days
from partners.helpers.card_actions import add_card, write_welcome
from partners.helpers.show_actions import Took, add_show, record_minutes
from partners.helpers.show_plan import starting_works
from partners.program.desk import Desk

PLANNED_BEFORE = 20


def tell_cards(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    """What sessions name is there before them: `book.keyed` finds cards and the show by their keys."""
    for key, words in told["welcomes"].items():
        write_welcome(desk=desk, school=book.keyed[key], **words)
    for key, words in told["cards"].items():
        book.keyed[key] = add_card(desk=desk, **words)
    for key, values in told["shows"].items():
        book.keyed[key] = show(book, desk, dict(values))


def show(book: Days, desk: Desk, told: dict[str, Any]) -> Any:
    planned = replace(desk, day=book.school_day(-PLANNED_BEFORE))
    took = {job: Took(works=works, minutes=minutes) for job, (works, minutes) in told.pop("took").items()}
    days: dict[str, Any] = {
        "opens_on": book.school_day(told.pop("opens_in")),
        "closes_on": book.school_day(told.pop("closes_in")),
    }
    told |= {"school": book.keyed[told["school"]], "opens_at": time.fromisoformat(told["opens_at"])}
    row = add_show(desk=planned, jobs=starting_works(told["works"]), **days, **told)
    return record_minutes(desk=desk, show=row, took=took)
