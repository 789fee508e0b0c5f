"""Batches of sheets: made, brought up to date, gone out."""

from __future__ import annotations

from partners.letters.models import BatchKind, LetterState
from partners.program.models import Program
from tests.whole_site.attempt import Attempt

OWN = 5_000_001


def one_sheet_left(program: Program) -> None:
    program.batches.update(settled_on=None, kind=BatchKind.OUTING)
    program.letters.update(state=LetterState.DRAFT, sheet=None, batch=OWN, place=1, words={}, sent_to="")


def nothing_made_yet(program: Program) -> None:
    program.letters.update(batch=None)
    program.batches.all().delete()
    program.outing_stops.update(visit=None)
    program.gifts.update(day="2027-01-05")


def visited_since(program: Program) -> None:
    one_sheet_left(program)
    program.letters.update(words={"becomes": "planters"})
    program.outing_stops.all().delete()


ATTEMPTS: dict[str, Attempt] = {
    "outreach:batch-list": Attempt({"kind": "year_end", "year": "2026"}, before=nothing_made_yet, page=None),
    "outreach:batch-outing": Attempt(before=nothing_made_yet, page="asking:outing-detail"),
    "outreach:batch-edit": Attempt({"title": "Sheets for Tuesday"}),
    "outreach:batch-renew": Attempt(before=visited_since, page="outreach:batch-detail"),
    "outreach:batch-went": Attempt(before=one_sheet_left, page="outreach:batch-detail"),
    "outreach:batch-leave-out": Attempt({"here": str(OWN), "once": "a token"}, before=one_sheet_left, page=None),
}
