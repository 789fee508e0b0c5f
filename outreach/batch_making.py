"""Which letters are made in one go: what belongs into a batch of each kind, and in which order it is delivered."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from django.utils.formats import date_format
from django.utils.translation import gettext as _

from outreach.documents import gratitude_letter, introduction_letter, leave_behind, thanks_note, year_end_note
from outreach.gathering.one_letter import first_of_each
from outreach.gathering.school import school_meant
from outreach.prepared import Prepared
from outreach.registry import FOR_THANKS, entry
from partners.directory.models import Partner
from partners.gifts.models import Thanks
from partners.ground.months import add_months
from partners.ground.traces import REMOVED
from partners.letters.batch_actions import Wanted, fill_batch
from partners.letters.delivery_order import delivery_key
from partners.letters.models import Batch, BatchKind, LetterState
from partners.program.desk import Desk
from partners.promises.models import Promise
from partners.school.models import School
from partners.visits.models import Outing
from partners.year.introduced import to_introduce
from partners.year.open_things import desk_of
from partners.year.span import Span, spans


def make_thanks(desk: Desk, first: date, last: date | None = None, batch: Batch | None = None) -> Batch | None:
    """All thanks owed of the month that begins with `first`, or of the months up to the `last` day."""
    last = last or add_months(first, 1) - timedelta(days=1)
    title = _("Thanks of %(month)s") % {"month": date_format(first, "F Y")}
    if last >= add_months(first, 1):
        months = {"first": date_format(first, "F Y"), "last": date_format(last, "F Y")}
        title = _("Thanks of %(first)s to %(last)s") % months
    return fill_batch(
        desk=desk,
        kind=BatchKind.THANKS,
        title=title,
        wanted=thanks_of(desk, first, last),
        first=first,
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


def make_introductions(
    desk: Desk, school: School | None = None, teacher: str = "", former: str = "", batch: Batch | None = None
) -> Batch | None:
    """A letter to each partner of the school, or of them all, by which `teacher` is introduced.

    A `batch` that is there stays one of all schools, and what was typed on a letter of it stays, whoever renews it.
    """
    teacher, school = teacher or desk.signs.teacher, school or (None if batch else school_meant(desk))
    title = _("Letters to introduce %(name)s") % {"name": teacher}
    return fill_batch(
        desk=desk,
        kind=BatchKind.INTRODUCTION,
        title=f"{title}, {school}" if school else title,
        wanted=introductions_of(desk, school, teacher, former, anew=batch is None),
        school=school,
        batch=batch,
        letters__words__teacher=teacher,
    )


def up_to_date(desk: Desk, batch: Batch) -> Batch | None:
    """What came up since it was made is put in, and what is settled since leaves."""
    if batch.kind == BatchKind.THANKS and batch.first is not None:
        return make_thanks(desk, batch.first, batch.last, batch)
    if batch.kind == BatchKind.OUTING and batch.outing is not None:
        return make_outing(desk, batch.outing, batch)
    if batch.kind == BatchKind.INTRODUCTION:
        any_letter = desk.letters.filter(batch=batch).order_by("pk").first()
        told = any_letter.words if any_letter else {}
        return make_introductions(desk, batch.school, told.get("teacher", ""), told.get("former", ""), batch)
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


def introductions_of(desk: Desk, school: School | None, teacher: str, former: str, *, anew: bool) -> list[Wanted]:
    """Whoever has had no letter of this teacher yet. The words say whose it is and of which school, wherever it is
    opened and whoever prints it; in place of whom may stand otherwise in a draft, unless it is said `anew`.
    """
    gone = desk.letters.filter(document=introduction_letter.SLUG, words__teacher=teacher)
    written = set(gone.exclude(state=LetterState.DRAFT).values_list("partner_id", flat=True))
    rows = to_introduce(desk_of(desk, school)).exclude(name=REMOVED)
    told: dict[str, Any] = {"teacher": teacher, "school": school.pk if school else None}
    before: dict[str, Any] = {"former": former}
    words, always = ({}, told | before) if anew else (before, told)
    sheets = [wanted(desk, introduction_letter.SLUG, row, place_of(row)) for row in rows if row.pk not in written]
    about = {"school": school} if school else {}
    return [replace(one, words=words, always=always, about={**one.about, **about}) for one in sheets]


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
