"""Sheets going out: each is frozen as it was printed, thanks that were owed are said, a batch that is through ends."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from typing import Any

from partners.gifts.models import Thanks
from partners.gifts.thanks_actions import all_thanked
from partners.ground.changes import Change, ChangedMeanwhile
from partners.letters.models import Batch, Letter, LetterState, Sheet
from partners.program.desk import Desk


@dataclass(frozen=True, kw_only=True)
class Going:
    """One letter that goes out, with the words and the bytes as they were printed, and the thanks it says."""

    letter: Letter
    pdf: bytes
    thanks: Thanks | None = None
    words: dict[str, Any] | None = None
    sent_to: str = ""


def go(book: Change, desk: Desk, going: Sequence[Going], *, state: str, day: date) -> None:
    """Carries it out for all of them in few statements; ChangedMeanwhile where one was saved since it was read."""
    refuse_changed([one.letter for one in going])
    kept = frozen_sheets(book, desk, [one.pdf for one in going])
    rows = []
    for one, sheet in zip(going, kept, strict=True):
        words = one.letter.words if one.words is None else one.words
        thanks = one.thanks or one.letter.thanks
        values = {"state": state, "day": day, "sheet": sheet, "sent_to": one.sent_to, "thanks": thanks, "words": words}
        rows.append((one.letter, values))
    book.update_each(rows)
    owed = [one.thanks for one in going if one.thanks is not None and one.thanks.done_on is None]
    all_thanked(book, owed, day=day, how=str(LetterState(state).label))
    end_batches(book, {one.letter.batch_id for one in going if one.letter.batch_id}, day)


def refuse_changed(letters: Sequence[Letter]) -> None:
    """ChangedMeanwhile where a letter is not as it was read."""
    stored = Letter.objects.select_for_update().in_bulk([letter.pk for letter in letters])
    for letter in letters:
        now = stored.get(letter.pk)
        if now is None or now.version != letter.version:
            raise ChangedMeanwhile(now)


def frozen_sheets(book: Change, desk: Desk, pdfs: Sequence[bytes]) -> list[Sheet]:
    """The same bytes are kept once."""
    marks = [sha256(pdf).hexdigest() for pdf in pdfs]
    known: dict[str, Sheet] = {sheet.sha256: sheet for sheet in desk.sheets.filter(sha256__in=set(marks)).defer("pdf")}
    new = {mark: Sheet(sha256=mark, pdf=pdf) for mark, pdf in zip(marks, pdfs, strict=True) if mark not in known}
    book.add_many(list(new.values()))
    return [known.get(mark) or new[mark] for mark in marks]


def end_batches(book: Change, batch_ids: Collection[int], day: date) -> None:
    """A batch of which nothing is left to go out is settled on the day."""
    if not batch_ids:
        return
    left = Letter.objects.filter(batch__in=batch_ids, state=LetterState.DRAFT).order_by().values("batch")
    through = Batch.objects.select_for_update().filter(pk__in=batch_ids, settled_on=None).exclude(pk__in=left)
    book.update_many(through.order_by("pk"), settled_on=day)
