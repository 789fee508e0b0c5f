"""Many sheets in one go: their facts in the order of delivery, what they still lack, one file of them all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from django.urls import reverse
from django.utils.translation import gettext_lazy

from outreach.gap import Gap
from outreach.gathering.own_words import own_words
from outreach.gathering.said_before import read_by
from outreach.prepared import Prepared
from outreach.registry import entry
from partners.ground.traces import REMOVED
from partners.letters.going import Going
from partners.letters.models import Batch, Letter, LetterState
from partners.program.desk import Desk

AT_ONCE = 50


@dataclass(frozen=True)
class OneSheet:
    """A sheet of a batch with what it still lacks."""

    letter: Letter
    prepared: Prepared
    gaps: tuple[Gap, ...] = ()

    @property
    def url(self) -> str:
        """The page of its words."""
        return reverse("outreach:document-prepare", args=[self.letter.document, self.prepared.pk])

    @property
    def stop(self) -> Gap | None:
        """Why it must not go out like this."""
        return next((gap for gap in self.gaps if gap.stops), None)


class BatchSheets:
    """The open sheets of a batch, with what they are about fetched together. They carry the day of the batch, whenever
    they are printed, looked at or kept.
    """

    def __init__(self, desk: Desk, batch: Batch) -> None:
        self.desk = replace(desk, day=batch.day, kept={})
        self.batch = batch
        self.own = own_words(desk)

    @property
    def letters(self) -> list[Letter]:
        rows = self.desk.letters.filter(batch=self.batch, state=LetterState.DRAFT)
        return list(rows.select_related("partner", "thanks").order_by("place", "pk"))

    @cached_property
    def first(self) -> Prepared | None:
        """One of those that are left; all go out under its name."""
        return next((prepared for _letter, prepared in self.prepared(self.letters[:1])), None)

    def prepared(self, letters: Iterable[Letter], *, looked_at: bool = False) -> Iterator[tuple[Letter, Prepared]]:
        """Those that are `looked_at` come with what their receivers have read before."""
        for part in parts(list(letters)):
            rows = self._rows(part)
            to = {letter.partner_id for letter in part if letter.partner_id}
            gone = read_by(self.desk, "partner", to) if looked_at else None
            for letter in part:
                one = entry(letter.document)
                row = rows[letter.document][getattr(letter, f"{one.column}_id")]
                words = {**letter.words, "signed": True} if self.batch.signed else dict(letter.words)
                yield letter, Prepared(self.desk, one, row.pk, row, words, self.own, gone)

    def _rows(self, letters: Sequence[Letter]) -> dict[str, dict[int, Any]]:
        """What the letters are about, by document and number."""
        found: dict[str, dict[int, Any]] = {}
        for document in {letter.document for letter in letters}:
            one = entry(document)
            pks = [getattr(letter, f"{one.column}_id") for letter in letters if letter.document == document]
            rows: Any = one.rows(self.desk).filter(pk__in=pks)
            found[document] = {row.pk: row for row in one.together(self.desk, rows)}
        return found

    def facts(self) -> Iterator[Any]:
        for letter, prepared in self.prepared(self.letters):
            if not forgotten(letter):
                yield prepared.facts

    def looked_at(self, letters: Iterable[Letter]) -> Iterator[OneSheet]:
        """Each with what it lacks."""
        for letter, prepared in self.prepared(letters, looked_at=True):
            yield OneSheet(letter, prepared, (FORGOTTEN,) if forgotten(letter) else prepared.gaps())

    def going(self, letters: Iterable[Letter]) -> Iterator[list[Going]]:
        """Parts of a batch that goes out, each sheet as single ones go: its words, its bytes, the thanks it says.

        Raises `NotLikeThis` at the first that must not.
        """
        part: list[Going] = []
        for one in self.looked_at(letters):
            if one.stop is not None:
                raise NotLikeThis(one)
            prepared = one.prepared
            part.append(
                Going(
                    letter=one.letter,
                    pdf=prepared.module.draw(prepared.facts),
                    thanks=prepared.thanks,
                    words=prepared.words_gone,
                )
            )
            if len(part) == AT_ONCE:
                yield part
                part = []
        if part:
            yield part

    def file(self) -> Iterator[bytes]:
        """One PDF of all of them, sent on while it is drawn. All sheets of a batch are drawn in one way."""
        letters = self.letters
        chunks: Iterator[bytes] = entry(letters[0].document).module.stream(self.facts())
        return chunks


FORGOTTEN = Gap("forgotten", gettext_lazy("They wanted to be forgotten: take the sheet out."), "partner", stops=True)


def forgotten(letter: Letter) -> bool:
    return letter.partner is not None and letter.partner.name == REMOVED


class NotLikeThis(Exception):
    """A sheet holds what it must not."""

    def __init__(self, sheet: OneSheet) -> None:
        super().__init__(str(sheet.letter))
        self.sheet = sheet


def parts(rows: Sequence[Any]) -> Iterator[Sequence[Any]]:
    for start in range(0, len(rows), AT_ONCE):
        yield rows[start : start + AT_ONCE]
