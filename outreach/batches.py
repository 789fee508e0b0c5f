"""Many sheets in one go: which belong into a batch, their facts in the order of delivery, and what they still lack."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from django.urls import reverse
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from outreach.documents import gratitude_letter, leave_behind, thanks_note, year_end_note
from outreach.gap import Gap
from outreach.gathering.one_letter import first_of_each
from outreach.gathering.own_words import own_words
from outreach.gathering.said_before import read_by
from outreach.prepared import Prepared
from outreach.registry import FOR_THANKS, entry
from partners.directory.models import Partner
from partners.gifts.models import Thanks
from partners.ground.months import add_months
from partners.ground.traces import REMOVED
from partners.letters.batch_actions import Wanted, fill_batch
from partners.letters.delivery_order import delivery_key
from partners.letters.going import Going
from partners.letters.models import Batch, BatchKind, Letter, LetterState
from partners.program.desk import Desk
from partners.promises.models import Promise
from partners.visits.models import Outing
from partners.year.span import Span, spans

AT_ONCE = 50


def make_thanks(desk: Desk, month: date, batch: Batch | None = None) -> Batch | None:
    """All thanks owed of the month that begins with `month`."""
    last = add_months(month, 1) - timedelta(days=1)
    title = _("Thanks of %(month)s") % {"month": date_format(month, "F Y")}
    return fill_batch(
        desk=desk,
        kind=BatchKind.THANKS,
        title=title,
        wanted=thanks_of(desk, month, last),
        first=month,
        last=last,
        batch=batch,
    )


def make_year_end(desk: Desk, span: Span, batch: Batch | None = None) -> Batch | None:
    """A note to everyone who gave in the year."""
    return fill_batch(
        desk=desk,
        kind=BatchKind.YEAR_END,
        title=_("Year-end notes %(year)s") % {"year": span.name},
        wanted=year_end_of(desk, span),
        first=span.first,
        last=span.last,
        batch=batch,
    )


def make_outing(desk: Desk, outing: Outing, batch: Batch | None = None) -> Batch | None:
    """A leave-behind sheet for each place that was not visited yet."""
    title = _("Sheets: %(outing)s") % {"outing": outing}
    return fill_batch(
        desk=desk,
        kind=BatchKind.OUTING,
        title=title,
        wanted=outing_of(desk, outing),
        outing=outing,
        batch=batch,
    )


def up_to_date(desk: Desk, batch: Batch) -> Batch | None:
    """What came up since it was made is put in, and what is settled since leaves."""
    if batch.kind == BatchKind.THANKS and batch.first is not None:
        return make_thanks(desk, batch.first, batch)
    if batch.kind == BatchKind.OUTING and batch.outing is not None:
        return make_outing(desk, batch.outing, batch)
    span = next((one for one in spans(desk) if one.first == batch.first), None)
    return make_year_end(desk, span, batch) if span is not None else batch


def thanks_of(desk: Desk, first: date, last: date) -> list[Wanted]:
    """Thanks for what came are also thanks for its promise and what came with it: nobody is written to twice."""
    owed = desk.thanks.owed().filter(base__gte=first, base__lte=last).exclude(partner__name=REMOVED)
    came = Promise.objects.filter(deliveries__gift_line__gift__thanks__in=owed.order_by().values("pk"))
    rows = owed.exclude(promise__in=came.order_by().values("pk"))
    related = (*FOR_THANKS, "gift__partner", "gift__school")
    found = list(rows.select_related(*related).order_by("pk"))
    firsts = first_of_each(desk, [one.gift for one in found if one.gift is not None])
    return [thanks_wanted(desk, one) for one in found if one.gift is None or one.gift.pk in firsts]


def thanks_wanted(desk: Desk, owed: Thanks) -> Wanted:
    module, row = (gratitude_letter, owed.gift) if owed.gift is not None else (thanks_note, owed)
    return wanted(desk, module.SLUG, row, place_of(owed.partner))


def year_end_of(desk: Desk, span: Span) -> list[Wanted]:
    """Partners who gave, each once; what families gave names nobody. Who was forgotten or written to is left alone."""
    gone = desk.letters.filter(document=year_end_note.SLUG, words__year=span.year).exclude(state=LetterState.DRAFT)
    gave = desk.gifts.from_partners().filter(**span.within("day")).order_by().values("partner")
    granted = desk.grants.awarded().filter(**span.within("answered_on")).order_by().values("partner")
    rows = desk.partners.filter(pk__in=gave.union(granted)).exclude(name=REMOVED)
    written = set(gone.values_list("partner_id", flat=True))
    return [
        wanted(desk, year_end_note.SLUG, row, place_of(row), {"year": span.year})
        for row in rows.order_by("pk")
        if row.pk not in written
    ]


def outing_of(desk: Desk, outing: Outing) -> list[Wanted]:
    gone = desk.letters.filter(batch__outing=outing).exclude(state=LetterState.DRAFT).order_by().values("partner")
    stops = outing.stops.filter(visit=None).exclude(partner__in=gone).select_related("partner")
    asked = {"school": outing.school_id} if outing.school_id else {}
    return [
        wanted(
            desk,
            leave_behind.SLUG,
            stop.partner,
            (stop.position, stop.pk),
            asked | ({"need": stop.need_id} if stop.need_id else {}),
        )
        for stop in stops.order_by("position", "pk")
    ]


def wanted(desk: Desk, slug: str, row: Any, order: tuple[Any, ...], words: dict[str, Any] | None = None) -> Wanted:
    prepared = Prepared(desk, entry(slug), row.pk, row)
    return Wanted(
        document=slug,
        title=prepared.title,
        key=prepared.entry.column,
        about=prepared.about,
        language=desk.program.language,
        order=order,
        words=words or {},
    )


def place_of(partner: Partner) -> tuple[Any, ...]:
    where = {"city": partner.city, "postal_code": partner.postal_code, "street": partner.street}
    return (*delivery_key(**where, name=partner.name), partner.pk)


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
