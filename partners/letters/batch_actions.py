"""Verbs of a batch: what goes in, in which order, and all of it gone out but what is still here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.db.models import Max
from django.utils.translation import gettext_noop

from partners.ground.changes import Change, change
from partners.letters.going import Going, end_batches, go
from partners.letters.models import Batch, BatchKind, Letter, LetterState
from partners.program.desk import Desk
from partners.school.models import School
from partners.visits.models import Outing

MADE_FOR_IT = frozenset({"need", "school", "year", "teacher", "former"})
"""Words that a batch puts into a draft itself; a draft with any others was written by somebody."""
TO_PARTNERS = (BatchKind.YEAR_END, BatchKind.INTRODUCTION)
"""Who sees the gifts of some schools only cannot tell whether one of these for all schools is still wanted."""
AT_ONCE = 500


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """A sheet that belongs into a batch: about which rows, and what it is sorted by.

    `key` is the letter's column that tells one draft of the document from another. `words` are a beginning, and give
    way to those of a draft that somebody began; `always` are the batch's own.
    """

    document: str
    title: str
    key: str
    about: dict[str, Any]
    language: str
    order: tuple[Any, ...]
    words: dict[str, Any] = field(default_factory=dict)
    always: dict[str, Any] = field(default_factory=dict)

    @property
    def place(self) -> tuple[str, int]:
        return self.document, self.about[self.key].pk


def open_batch(desk: Desk, **given: Any) -> Batch | None:
    """The batch of that kind, span, outing and school that is not through yet."""
    found: Batch | None = desk.batches.filter(settled_on=None, **given).order_by("-pk").first()
    return found


def fill_batch(
    *,
    desk: Desk,
    kind: str,
    title: str,
    wanted: Sequence[Wanted],
    first: date | None = None,
    last: date | None = None,
    outing: Outing | None = None,
    school: School | None = None,
    batch: Batch | None = None,
    **told_by: Any,
) -> Batch | None:
    """A batch of drafts in the order of delivery. Where one is open already (`batch`, or one of the same kind, days,
    outing and school, and by what else it is `told_by`), it is brought up to date; None where there is neither one nor
    anything to put in.

    A draft somebody began is taken along with its words. One that stands in another open batch stays there; one that
    is wanted no more leaves, and is thrown away where nobody wrote in it.
    """
    with change(desk, gettext_noop("Batch made: %(title)s"), title=title) as book:
        of = {"first": first, "last": last, "outing": outing, "school": school}
        batch = batch or open_batch(desk, kind=kind, **of, **told_by)
        drafts = drafts_of(desk, wanted)
        if batch is None and all(one.place in drafts and drafts[one.place].batch_id for one in wanted):
            return None
        batch = batch or book.add(Batch(kind=kind, title=title[:120], day=desk.day, **of))
        book.about(batch)
        inside = {one.pk for one in drafts.values()}
        others = desk.letters.filter(batch=batch, state=LetterState.DRAFT).exclude(pk__in=inside)
        _leave(book, others.exclude(school=None) if desk.school_ids and kind in TO_PARTNERS else others)
        _put_in(book, desk, batch, wanted, drafts)
        end_batches(book, [batch.pk], desk.day)
    return batch


def drafts_of(desk: Desk, wanted: Sequence[Wanted]) -> dict[tuple[str, int], Letter]:
    """The draft that is being written of each, where there is one, by document and row."""
    keys: dict[tuple[str, str], list[int]] = {}
    for one in wanted:
        keys.setdefault((one.document, one.key), []).append(one.about[one.key].pk)
    found: dict[tuple[str, int], Letter] = {}
    for (document, key), pks in keys.items():
        for start in range(0, len(pks), AT_ONCE):
            rows = {f"{key}__in": pks[start : start + AT_ONCE]}
            drafts = desk.letters.filter(document=document, state=LetterState.DRAFT, **rows).order_by("pk")
            found |= {(document, getattr(one, f"{key}_id")): one for one in drafts.select_related("batch")}
    return found


def _put_in(
    book: Change, desk: Desk, batch: Batch, wanted: Sequence[Wanted], drafts: dict[tuple[str, int], Letter]
) -> None:
    """In their order; who sees the sheets of some schools only leaves them their places and adds behind all others."""
    new, moved = [], []
    last = (batch.letters.aggregate(last=Max("place"))["last"] or 0) if desk.school_ids else 0
    for number, one in enumerate(sorted(wanted, key=lambda one: one.order), last + 1):
        draft = drafts.get(one.place)
        if draft is None:
            begun = {"document": one.document, "title": one.title[:200], "language": one.language}
            words = {**one.words, **one.always}
            new.append(Letter(**begun, words=words, day=desk.day, batch=batch, place=number, **one.about))
            continue
        words = {**one.words, **draft.words, **one.always}
        place = draft.place if desk.school_ids and draft.batch_id == batch.pk else number
        stands = draft.batch_id, draft.place, draft.words
        if draft.batch_id in (None, batch.pk) and stands != (batch.pk, place, words):
            moved.append((draft, {"batch": batch, "place": place, "words": words}))
    book.add_many(new)
    book.update_each(moved)


def edit_batch(*, desk: Desk, batch: Batch, seen: int | None = None, **values: Any) -> Batch:
    """Its title, and the day that stands on its sheets."""
    with change(desk, gettext_noop("Batch changed: %(title)s"), title=values.get("title", batch.title)) as book:
        return book.update(batch, seen=seen, **values)


def leave_out(*, desk: Desk, batch: Batch, letters: Iterable[Letter]) -> int:
    """These are not to go out with the batch, or not at all. Returns how many left."""
    with change(desk, gettext_noop("Taken out of the batch: %(title)s"), title=batch.title) as book:
        book.about(batch)
        left = _leave(book, letters)
        end_batches(book, [batch.pk], desk.day)
    return left


def _leave(book: Change, letters: Iterable[Letter]) -> int:
    rows = list(letters)
    written = [one for one in rows if set(one.words) - MADE_FOR_IT]
    book.update_each([(one, {"batch": None, "place": None}) for one in written])
    for one in rows:
        if one not in written:
            book.remove(one)
    return len(rows)


def batch_gone(*, desk: Desk, batch: Batch, parts: Iterable[Sequence[Going]], state: str, day: date) -> Iterator[int]:
    """Carries out that sheets of the batch went out, part by part, and says after each how many are done.

    All or nothing: whoever stops asking before the end has saved nothing. What is not among them stays open.
    """
    with change(desk, gettext_noop("Gone out: %(title)s"), title=batch.title) as book:
        book.about(batch)
        for part in parts:
            go(book, desk, part, state=state, day=day)
            yield len(part)
