"""The letter by which whoever takes over introduces themself to a partner: what stands stays, and nothing is asked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    FLOW_BELOW_FOLD,
    LETTER_LOOKS,
    Address,
    Book,
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
from outreach.wording.dates import spelled
from outreach.wording.introduction import INTRODUCTION, Introduction, paragraphs, salutation
from partners.gifts.letter_phrases import asks_inside, value_in_text

SLUG = "introduction-letter"
TITLE = _("Letter of who takes over")
ABOUT = "partner"


@dataclass(frozen=True)
class Facts:
    """Everything the letter says. `text` is the body as the teacher edited it; while it is empty the body is worded
    from `about`. `left_in_peace`: they want never to be asked, and nothing of either side is open.
    """

    paper: str
    letterhead: Letterhead
    day: date
    about: Introduction
    role: str = ""
    address: Address = Address()  # noqa: RUF009 - frozen
    text: tuple[str, ...] = ()
    enclosures: tuple[str, ...] = ()
    left_in_peace: bool = False
    signature: Picture | None = None

    @property
    def language(self) -> str:
        return self.about.language

    @property
    def body(self) -> tuple[str, ...]:
        """The paragraphs that will be printed."""
        return self.text or paragraphs(self.about)


def _title(facts: Facts) -> str:
    who, words = facts.about.partner or facts.about.contact, INTRODUCTION[facts.language]
    return words.title.format(partner=who) if who else words.title_alone


def _book(facts: Facts) -> Book:
    author = ", ".join(part for part in (facts.about.teacher, facts.letterhead.school) if part)
    return Book(paper(facts.paper), title=_title(facts), author=author, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many, stream = _RUN.draw, _RUN.draw_many, _RUN.write_many, _RUN.stream

ASK = _("A letter to introduce yourself asks for nothing:")
VALUE = _("The letter names a value; describe what came.")


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the letter lacks or must not say, in the order in which it reads."""
    clean = on_paper(facts)
    about, text = clean.about, "\n\n".join(clean.body)
    fits = fits_window(clean.address, paper(facts.paper))
    long = len(measured(_sheet(clean), paper(facts.paper)).pages) > 1
    stands = about.form or about.theirs or about.ours
    ask, value = asks_inside(text), value_in_text(text)
    asked = format_lazy("{words} “{said}”", words=ASK, said=ask[0] if ask else "")
    valued = format_lazy("{words} “{said}”", words=VALUE, said=value[0] if value else "")
    return (
        *found(
            unless(clean.address.complete, "no-address", _("The address is not complete; hand it over."), "address"),
            unless(fits, "address-too-long", _("The address is too long for the envelope’s window."), "address"),
            unless(about.contact, "no-contact", _("No person to greet by name."), "about.contact"),
            unless(about.teacher, "no-teacher", _("Your name is missing."), "about.teacher"),
            unless(about.former, "no-former", _("Nobody is named who taught there before."), "former"),
            unless(stands, "nothing-stands", _("Nothing came from them, and nothing is promised."), "about"),
            unless(about.phone or about.email, "no-contact-lines", _("No school phone or e-mail."), "about.phone"),
            when(clean.left_in_peace, "never-ask", _("They want never to be asked: leave them in peace."), ""),
            when(ask, "ask", asked, "text", stops=True),
            when(value, "value", valued, "text", stops=True),
            when(long, "second-page", _("It goes on to a second page."), "text"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, day = INTRODUCTION[facts.language], spelled(facts.day, facts.language)
    who = facts.about.partner or facts.about.contact
    enclosed = ", ".join(thing for thing in facts.enclosures if thing)
    fixed = in_window(facts.address, paper(facts.paper))
    closing = (
        SignOff(facts.about.say("closing"), facts.about.teacher, facts.role, facts.signature),
        Paragraph(words.enclosed.format(things=enclosed) if enclosed else ""),
    )
    return Sheet(
        title=_title(facts),
        head=(facts.letterhead, Paragraph(day, side="right", before=0.9)),
        fixed=fixed,
        flow=(Paragraph(salutation(facts.about)), *(Paragraph(one, before=0.75) for one in facts.body), *closing),
        flow_from=FLOW_BELOW_FOLD if fixed else 0,
        together=len(closing),
        looks=LETTER_LOOKS,
        running=words.running.format(partner=who, day=day) if who else day,
        page_words=words.page,
    )
