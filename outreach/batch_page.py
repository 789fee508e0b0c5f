"""What the page of a batch shows, and pages that are sent while work goes on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from django.http import StreamingHttpResponse
from django.template.loader import render_to_string
from django.urls import reverse

from outreach.batch_forms import GoneForm
from outreach.batches import BatchSheets
from outreach.gap import Gap
from outreach.mending import way
from outreach.preparing import number_of
from partners.letters.models import Batch, Letter, LetterState
from partners.program.access import DeskRequest
from partners.program.desk import Desk

SHORT = 40
"""So many sheets are looked through while the page is made; more on a page of their own."""
LONG = 12
"""More sheets than these have a way past them: with keys each is two stops."""
GONE_SHOWN = 200


@dataclass(frozen=True)
class Line:
    """A sheet on the page: for whom, where that is, its words, what it lacks, whether it is ticked as still here."""

    letter: Letter
    url: str
    gaps: tuple[Gap, ...]
    here: bool

    @property
    def where(self) -> str:
        partner = self.letter.partner
        return ", ".join(part for part in (partner.street, partner.city) if part) if partner else ""


def batch_page(desk: Desk, batch: Batch, form: GoneForm | None = None) -> dict[str, Any]:
    """`form` is one that was refused, with what was ticked in it."""
    form = form or GoneForm(desk=desk, batch=batch)
    sheets = BatchSheets(desk, batch)
    letters = sheets.letters
    short = len(letters) <= SHORT
    looked = list(sheets.looked_at(letters)) if short else []
    gaps = {one.letter.pk: one.gaps for one in looked}
    lines = [Line(one, words_url(one), gaps.get(one.pk, ()), one.pk in form.ticked) for one in letters]
    gone = desk.letters.filter(batch=batch).exclude(state=LetterState.DRAFT)
    return {
        "batch": batch,
        "form": form,
        "under": sheets.first.under if sheets.first else "",
        "signature": getattr(sheets.first.facts, "signature", None) if sheets.first else None,
        "lines": lines,
        "short": short,
        "long": len(lines) > LONG,
        "lacking": sum(bool(line.gaps) for line in lines),
        "missing": grouped(looked),
        "gone_count": gone.count(),
        "gone": gone.select_related("partner").defer("sheet").order_by("place", "pk")[:GONE_SHOWN],
    }


@dataclass(frozen=True)
class Missing:
    """One thing that several sheets lack, with the sheets and where it is mended."""

    words: str
    stops: bool
    sheets: list[tuple[Any, str]]


def grouped(sheets: Iterable[Any]) -> list[Missing]:
    """What sheets (each with `gaps`) lack, said once for all that lack it; first what must not go out like this."""
    found: dict[tuple[str, bool], Missing] = {}
    for sheet in sheets:
        for gap in sheet.gaps:
            key = str(gap.words), gap.stops
            mended = way(sheet.prepared, gap)
            sheets_of = found.setdefault(key, Missing(*key, [])).sheets
            # One name may stand on a sheet twice, as the giver and in the address.
            if not sheets_of or sheets_of[-1][0] is not sheet:
                sheets_of.append((sheet, mended.url if mended else sheet.url))
    return sorted(found.values(), key=lambda one: not one.stops)


def words_url(letter: Letter) -> str:
    return reverse("outreach:document-prepare", args=[letter.document, number_of(letter)])


def streamed(
    request: DeskRequest, template: str, context: dict[str, Any], lines: Iterator[str]
) -> StreamingHttpResponse:
    """A page of which the part at `here` is sent line by line while it comes about."""
    here = uuid4().hex
    before, behind = render_to_string(template, {**context, "here": here}, request=request).split(here)

    def page() -> Iterator[str]:
        yield before
        yield from lines
        yield behind

    answer = StreamingHttpResponse(page())
    # Else a proxy in front may hold the lines back until all are there.
    answer.headers["X-Accel-Buffering"] = "no"
    return answer
