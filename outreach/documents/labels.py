"""Labels on a sheet of any measures: addresses of partners, names of helpers; and a sheet to check how they lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, missing_signs
from outreach.page import Address, Book, Fixed, LabelGrid, Run, Sheet, WindowAddress, draw_sheet, on_paper
from outreach.page.marks import Outline
from outreach.wording.labels import WORDS

SLUG = "labels"
TITLE = _("Labels")
ABOUT = "partner"

MOST_NAMED = 12
LARGEST = 11.0
LARGEST_NAME = 22.0


@dataclass(frozen=True)
class Facts:
    """What is printed on which grid; the first label stands at place `start`, counted from 1 line by line.

    `names` are labels with a name and no address, set larger. `left_out` are those whom no post would reach.
    With `check` frames are drawn where the labels should lie, and nothing else.
    """

    language: str
    grid: LabelGrid
    addresses: tuple[Address, ...] = ()
    start: int = 1
    names: bool = False
    check: bool = False
    left_out: tuple[str, ...] = ()

    @property
    def sheets(self) -> int:
        return max(1, self.grid.sheets(1 if self.check else len(self.addresses), 1 if self.check else self.start))


def _book(facts: Facts) -> Book:
    return Book(facts.grid.page, title=WORDS[facts.language].title, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    clean = on_paper(facts)
    for page in range(facts.sheets):
        draw_sheet(_sheet(clean, page), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many, stream = _RUN.draw, _RUN.draw_many, _RUN.write_many, _RUN.stream


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """Whom the labels leave out, and what does not fit on one."""
    found = []
    if not facts.addresses:
        found.append(Gap("nobody", _("There is nobody to print a label for."), "addresses"))
    if facts.left_out:
        words = _("No street or no city, so no label: {names}")
        found.append(Gap("no-street", format_lazy(words, names=_shortened(facts.left_out)), "left_out"))
    if not facts.names:
        bare = tuple(_name(one) for one in facts.addresses if not one.complete)
        if bare:
            words = _("State or ZIP code is missing: {names}")
            found.append(Gap("incomplete", format_lazy(words, names=_shortened(bare)), "addresses"))
    long = tuple(_too_long(facts))
    if long:
        words = _("Too long for the label, so a line is left out: {names}")
        found.append(Gap("too-long", format_lazy(words, names=_shortened(long)), "addresses"))
    return (*found, *missing_signs(facts.addresses))


def _too_long(facts: Facts) -> Iterator[str]:
    clear = facts.grid.inside(0)
    for address in facts.addresses:
        if not _set(facts, address, clear.height).fits(clear.width):
            yield _name(address)


def _name(address: Address) -> str:
    return address.business or address.person


def _shortened(names: tuple[str, ...]) -> str:
    return ", ".join(names[:MOST_NAMED]) + (", …" if len(names) > MOST_NAMED else "")


def _set(facts: Facts, address: Address, height: float) -> WindowAddress:
    return WindowAddress(address, height, largest=LARGEST_NAME if facts.names else LARGEST, middle=True)


def _sheet(facts: Facts, page: int) -> Sheet:
    words = WORDS[facts.language]
    title = words.title if facts.sheets == 1 else words.page.format(page=page + 1, pages=facts.sheets)
    fixed = _frames(facts) if facts.check else _labels(facts, page)
    return Sheet(title=words.check if facts.check else title, flow=(), fixed=tuple(fixed))


def _labels(facts: Facts, page: int) -> Iterator[Fixed]:
    first = page * facts.grid.count - (facts.start - 1)
    for place in range(facts.grid.count):
        number = first + place
        if 0 <= number < len(facts.addresses):
            box = facts.grid.inside(place)
            yield Fixed(_set(facts, facts.addresses[number], box.height), box.left, box.top, box.width)


def _frames(facts: Facts) -> Iterator[Fixed]:
    words = WORDS[facts.language]
    for place in range(facts.grid.count):
        box = facts.grid.box(place)
        told = words.first if place + 1 == facts.start else words.used if place + 1 < facts.start else ""
        said = words.how if place == 0 else told
        yield Fixed(Outline(str(place + 1), said, box.height, facts.grid.pad), box.left, box.top, box.width)
