"""The tag that is stuck on what came: what it is, whose it is now, where it belongs; the giver only by consent."""

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Bullets,
    Framed,
    Heading,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import Item, counted
from outreach.wording.dates import spelled

SLUG = "gift-tag"
TITLE = _("Tag to stick on it")
ABOUT = "gift"

LARGE_THINGS = 3


class TagWords(NamedTuple):
    title: str
    belongs: str
    given_to: str
    came_on: str
    by: str
    purpose: str
    place: str
    goes_back: str
    not_yet: str
    page: str


WORDS = {
    "en": TagWords(
        title="For the art room",
        belongs="Belongs to",
        given_to="Used at",
        came_on="Came on",
        by="Given by",
        purpose="For",
        place="Place",
        goes_back="On loan: goes back by",
        not_yet="NOT FOR CHILDREN YET: still to be looked at",
        page="page {page} of {pages}",
    ),
    "es": TagWords(
        title="Para la sala de arte",
        belongs="Pertenece a",
        given_to="Se usa en",
        came_on="Llegó el",
        by="Donado por",
        purpose="Para",
        place="Lugar",
        goes_back="Prestado: se devuelve el",
        not_yet="TODAVÍA NO ES PARA NIÑOS: falta revisarlo",
        page="página {page} de {pages}",
    ),
}


@dataclass(frozen=True)
class Facts:
    """Everything the tag says; what is empty vanishes. `giver` is given only where the giver may be named in school.

    What was lent does not belong to the school, so with `goes_back` the tag says nothing of that.
    """

    language: str
    paper: str
    day: date
    things: tuple[Item, ...] = ()
    belongs_to: str = ""
    school: str = ""
    place: str = ""
    giver: str = ""
    purpose: str = ""
    is_lent: bool = False
    goes_back: date | None = None
    unchecked: bool = False


def _book(facts: Facts) -> Book:
    title = WORDS[facts.language].title
    return Book(paper(facts.paper), title=title, author=facts.school, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the tag lacks."""
    owner = facts.belongs_to or facts.is_lent
    return (
        *found(
            unless(facts.things, "no-things", _("What is it?"), "things"),
            unless(owner, "no-owner", _("The district’s legal name is missing."), "belongs_to"),
            unless(facts.place, "no-place", _("Where does it belong: room and shelf?"), "place"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, language = WORDS[facts.language], facts.language
    rows = (
        (words.goes_back, spelled(facts.goes_back, language) if facts.goes_back else ""),
        (words.belongs, "" if facts.is_lent else facts.belongs_to),
        (words.given_to, facts.school),
        (words.place, facts.place),
        (words.purpose, facts.purpose),
        (words.by, facts.giver),
        (words.came_on, spelled(facts.day, language)),
    )
    warning = Paragraph((bold(words.not_yet),) if facts.unchecked else "")
    return Sheet(
        title=words.title,
        flow=(Framed((*_things(facts), warning, Pairs(rows))),),
        looks=SHEET_LOOKS,
        running=words.title,
        page_words=words.page,
    )


def _things(facts: Facts) -> tuple[Block, ...]:
    """Few things large enough to read across the room, many as a list."""
    named = [counted(item, facts.language) for item in facts.things]
    if len(named) > LARGE_THINGS:
        return (Heading(WORDS[facts.language].title, before=0), Bullets(tuple(named)))
    return tuple(Heading(name, before=0.3 if place else 0) for place, name in enumerate(named))
