"""The words of a letter while it is written, and the sheet as it went out."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils.translation import gettext_noop

from partners.gifts.models import Thanks
from partners.ground.changes import Change, change
from partners.letters.going import Going, end_batches, frozen_sheets, go
from partners.letters.models import Letter, LetterState, Sheet
from partners.program.desk import Desk

ABOUT = ("partner", "gift", "thanks", "trade", "helper", "need", "grant", "project", "school")


def draft_of(desk: Desk, document: str, **about: Any) -> Letter | None:
    """The letter that is being written about these rows, if there is one."""
    found: Letter | None = (
        desk.letters.filter(document=document, state=LetterState.DRAFT, **about).order_by("-pk").first()
    )
    return found


def keep_words(
    *, desk: Desk, document: str, title: str, words: dict[str, Any], language: str, key: str = "", **about: Any
) -> Letter:
    """The teacher's own words for one sheet. `about` are rows by the letter's columns.

    `key` is the column that tells one draft of the document from another; without it all those of `about` do.
    """
    with change(desk, gettext_noop("Words kept: %(title)s"), title=title) as book:
        draft = draft_of(desk, document, **({key: about[key]} if key else about))
        if draft is None:
            return book.add(
                Letter(document=document, title=title, words=words, language=language, day=desk.day, **about)
            )
        return book.update(draft, title=title, words=words, language=language, day=desk.day, **about)


def gone_out(
    *, desk: Desk, letter: Letter, state: str, day: date, pdf: bytes, thanks: Thanks | None = None, sent_to: str = ""
) -> Letter:
    """Handed over, mailed or e-mailed (`sent_to` says where): the sheet is kept as it was printed, and thanks that were
    owed are said.
    """
    with change(desk, gettext_noop("Gone out: %(title)s"), title=letter.title) as book:
        go(book, desk, [Going(letter=letter, pdf=pdf, thanks=thanks, sent_to=sent_to)], state=state, day=day)
        book.about(letter)
        return letter


def frozen_sheet(book: Change, desk: Desk, pdf: bytes) -> Sheet:
    """The same bytes are kept once."""
    return frozen_sheets(book, desk, [pdf])[0]


def throw_away(*, desk: Desk, letter: Letter) -> None:
    with change(desk, gettext_noop("Draft thrown away: %(title)s"), title=letter.title) as book:
        book.remove(letter)
        end_batches(book, [letter.batch_id] if letter.batch_id else [], desk.day)
