"""The words of a letter while it is written, and the sheet as it went out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from django.conf import settings
from django.db.models import Q
from django.utils.module_loading import import_string
from django.utils.translation import gettext_noop

from partners.directory.models import Partner
from partners.gifts.models import Thanks
from partners.ground.changes import Change, change
from partners.ground.models import Row
from partners.letters.going import Going, end_batches, frozen_sheets, go
from partners.letters.models import Letter, LetterState, Sheet
from partners.program.desk import Desk

LEAVE_BEHIND = "leave-behind"
SHEET_DAYS = 21
"""A sheet printed longer ago was for another visit."""
ABOUT = ("partner", "gift", "thanks", "trade", "helper", "need", "grant", "project", "school")


def draft_of(desk: Desk, document: str, **about: Any) -> Letter | None:
    """The letter that is being written about these rows, if there is one."""
    found: Letter | None = (
        desk.letters.filter(document=document, state=LetterState.DRAFT, **about).order_by("-pk").first()
    )
    return found


def has_draft(desk: Desk, document: str, column: str, rows: Sequence[Row]) -> set[int]:
    """The numbers of those of the rows about which such a letter is being written."""
    about: dict[str, Any] = {f"{column}__in": rows}
    drafts = desk.letters.filter(document=document, state=LetterState.DRAFT, **about)
    return set(drafts.values_list(column, flat=True))


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


def left_there(*, desk: Desk, partner: Partner, day: date) -> None:
    """The sheet that was printed for the place was left there on the day: it is kept in the register, and a batch it
    stands in has one less to hand over. A sheet whose words nobody kept has no row and leaves none.
    """
    lately = Q(day__gte=day - timedelta(days=SHEET_DAYS)) | Q(batch__isnull=False)
    drafts = desk.letters.filter(lately, document=LEAVE_BEHIND, state=LetterState.DRAFT, partner=partner, day__lte=day)
    printed = import_string(settings.SHEET_AS_PRINTED)
    with change(desk, gettext_noop("Sheet left at %(partner)s"), partner=partner) as book:
        going = [printed(desk, letter) for letter in drafts.select_related("batch").order_by("pk")]
        if going:
            go(book, desk, going, state=LetterState.HANDED_OVER, day=day)


def frozen_sheet(book: Change, desk: Desk, pdf: bytes) -> Sheet:
    """The same bytes are kept once."""
    return frozen_sheets(book, desk, [pdf])[0]


def throw_away(*, desk: Desk, letter: Letter) -> None:
    with change(desk, gettext_noop("Draft thrown away: %(title)s"), title=letter.title) as book:
        book.remove(letter)
        end_batches(book, [letter.batch_id] if letter.batch_id else [], desk.day)
