"""The note at the year's end to whoever gave: what came, what it became, thanks once more. No ask, no value."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    FLOW_BELOW_FOLD,
    LETTER_LOOKS,
    Address,
    Block,
    Book,
    Bullets,
    Letterhead,
    Paragraph,
    Picture,
    Run,
    Sheet,
    SignOff,
    draw_sheet,
    fits_window,
    in_window,
    measured,
    on_paper,
    paper,
)
from outreach.wording import year_end
from outreach.wording.dates import spelled
from outreach.wording.year_end import Given
from outreach.wording.year_end_words import NOTE
from partners.gifts.letter_check import is_same_body
from partners.gifts.letter_phrases import asks_inside, calls_deductible, plain_text, value_in_text
from partners.gifts.letter_text import other_givers_in

EARLY = 92
"""Days before the end of the year from which on nobody would say that it draws to its end (common practice)."""
SLUG = "year-end-note"
TITLE = _("Year-end note")
ABOUT = "partner"


@dataclass(frozen=True)
class Facts:
    """Everything the note says. What is empty vanishes.

    `paragraphs` is the body as the teacher edited it; while it is empty the body is worded from `given`.
    `ends` is the last day of the year it tells of.
    """

    paper: str
    letterhead: Letterhead
    day: date
    given: Given
    teacher: str
    role: str = ""
    address: Address = Address()  # noqa: RUF009 - frozen
    paragraphs: tuple[str, ...] = ()
    enclosures: tuple[str, ...] = ()
    ends: date | None = None
    signature: Picture | None = None

    @property
    def language(self) -> str:
        return self.given.language

    @property
    def body(self) -> tuple[str, ...]:
        """The paragraphs that will be printed."""
        return self.paragraphs or year_end.paragraphs(self.given)


def _book(facts: Facts) -> Book:
    author = ", ".join(part for part in (facts.teacher, facts.letterhead.school) if part)
    return Book(paper(facts.paper), title=_title(facts), author=author, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many, stream = _RUN.draw, _RUN.draw_many, _RUN.write_many, _RUN.stream


def too_early(facts: Facts) -> bool:
    """Whether our own words, with the year drawing to its end, are far from true."""
    return not facts.paragraphs and facts.ends is not None and (facts.ends - facts.day).days > EARLY


def gaps(facts: Facts, other_givers: Sequence[str] = (), last_text: str = "") -> tuple[Gap, ...]:
    """What the note lacks or must not say; `other_givers` must not be named, `last_text` is last year's body."""
    clean = on_paper(facts)
    given, address = clean.given, clean.address
    pages = measured(_sheet(clean), paper(facts.paper)).pages
    anything = year_end.things(given) or given.lent
    return (
        *found(
            unless(address.complete, "no-address", _("The address is not complete; hand the note over."), "address"),
            unless(
                fits_window(address, paper(facts.paper)),
                "address-too-long",
                _("The address is too long for the envelope’s window."),
                "address",
            ),
            unless(given.contact, "no-contact", _("No person to greet by name."), "given.contact"),
            unless(anything, "nothing-given", _("Nothing of theirs came in that year."), "given.items"),
            when(
                given.untold and not given.became,
                "no-becomes",
                format_lazy(_("What did “{project}” become?"), project=(*given.untold, "")[0]),
                "given.became",
            ),
            unless(clean.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            when(too_early(facts), "early", _("It speaks of the end of the school year, which is months away."), "day"),
            when(len(pages) > 1, "second-page", _("It goes on to a second page."), "paragraphs"),
        ),
        *_problems(clean, other_givers, last_text),
        *missing_signs(facts),
    )


_STOPS = {
    "value": _("It names a value. A year-end note says what came, never what it was worth."),
    "ask": _("A thank-you never holds another ask."),
    "deductible": _("This is no receipt: it must not speak of what may be deducted."),
    "other-giver": _("The note names another giver."),
}


def _problems(facts: Facts, other_givers: Sequence[str], last_text: str) -> Iterator[Gap]:
    text = "\n\n".join((*facts.body, *year_end.listed(facts.given)))
    own = facts.given.partner or facts.given.contact
    searches = {
        "value": value_in_text(text),
        "ask": asks_inside(text),
        "deductible": calls_deductible(text),
        "other-giver": other_givers_in(plain_text(text), own, other_givers),
    }
    for code, snippets in searches.items():
        if snippets:
            words = format_lazy("{words} “{snippet}”", words=_STOPS[code], snippet=snippets[0])
            yield Gap(code, words, "paragraphs", stops=True)
    if is_same_body("\n\n".join(facts.body), last_text):
        yield Gap("last-words", _("These are the words of the last note again."), "paragraphs")


def _title(facts: Facts) -> str:
    who, words = facts.given.partner or facts.given.contact, NOTE[facts.language]
    return words.title.format(partner=who) if who else words.title_alone


def _sheet(facts: Facts) -> Sheet:
    words, day = NOTE[facts.language], spelled(facts.day, facts.language)
    who = facts.given.partner or facts.given.contact
    enclosed = ", ".join(thing for thing in facts.enclosures if thing)
    fixed = in_window(facts.address, paper(facts.paper))
    body: list[Block] = [Paragraph(text, before=0.75) for text in facts.body]
    body.insert(1, Bullets(year_end.listed(facts.given)))
    closing: tuple[Block, ...] = (
        SignOff(facts.given.say("closing"), facts.teacher, facts.role, facts.signature),
        Paragraph(words.enclosed.format(things=enclosed) if enclosed else ""),
    )
    return Sheet(
        title=_title(facts),
        head=(facts.letterhead, Paragraph(day, side="right", before=0.9)),
        fixed=fixed,
        flow=(Paragraph(year_end.greeting(facts.given)), *body, *closing),
        flow_from=FLOW_BELOW_FOLD if fixed else 0,
        flow_gap=3 if not fixed else 1.6,
        together=len(closing),
        looks=LETTER_LOOKS,
        running=words.running.format(partner=who, day=day) if who else day,
        page_words=words.page,
    )
