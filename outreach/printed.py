"""A sheet as it was printed, for the record to keep; found by `SHEET_AS_PRINTED` of the settings."""

from __future__ import annotations

from dataclasses import replace

from outreach.batches import BatchSheets
from outreach.prepared import Prepared
from outreach.preparing import to_print
from partners.letters.going import Going
from partners.letters.models import Letter
from partners.program.desk import Desk


def as_printed(desk: Desk, letter: Letter) -> Going:
    """The draft with its words and bytes of the day it was printed on: its batch's, else the one it was worded on.

    What it lacked is not asked any more: it lies on somebody's counter.
    """
    prepared = of_its_day(desk, letter)
    return Going(letter=letter, pdf=prepared.module.draw(prepared.facts), words=prepared.words_gone)


def of_its_day(desk: Desk, letter: Letter) -> Prepared:
    if letter.batch is not None:
        ((_letter, prepared),) = BatchSheets(desk, letter.batch).prepared([letter])
        return prepared
    prepared = to_print(replace(desk, day=letter.day), letter.document, letter.partner_id or 0)
    prepared.words = dict(letter.words)
    return prepared
