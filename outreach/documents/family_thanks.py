"""One notice of thanks for all families of a school: what came, as counts, and what it became. Never a name."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Bullets,
    Framed,
    Heading,
    Letterhead,
    Paragraph,
    Run,
    Sheet,
    arrange,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import number
from outreach.wording.dates import spelled
from outreach.wording.family import presses
from outreach.wording.family_thanks import NAME, THANKS
from outreach.wording.own_words import HOUSE, OwnWords, Voice
from partners.gifts.letter_phrases import value_in_text

SLUG = "family-thanks"
TITLE = _("Thanks to all families")
ABOUT = "school"
READ = ("became", "became_es")
# "Ms. Prado", "the Prado family", "la familia Prado", "from Ana": somebody is named.
_NAMED = re.compile(
    r"\b(?:Mrs?|Ms|Mx|Dr|Sra?|Srta)\.? [A-ZÁÉÍÓÚÑ]|\b[A-ZÁÉÍÓÚÑ]\w+ family\b|\b[Ff]amilia [A-ZÁÉÍÓÚÑ]|"
    r"\b(?:from|de parte de) [A-ZÁÉÍÓÚÑ]\w+"
)


@dataclass(frozen=True)
class Came:
    """One thing: how many pieces where they were counted, and how often some came."""

    item: str
    pieces: int
    times: int
    spanish: str = ""

    def said(self, language: str) -> str:
        item = self.spanish or self.item if language == "es" else self.item
        pattern = THANKS[language].came if self.pieces else THANKS[language].some
        return pattern.format(item=item, count=number(self.pieces))


@dataclass(frozen=True)
class Facts:
    """What came, as counts (`gifts` are the rows that were counted), and the sentences on what it became."""

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    teacher: str
    role: str = ""
    phone: str = ""
    email: str = ""
    first: date = date.min
    last: date = date.max
    gifts: frozenset[int] = frozenset()
    came: tuple[Came, ...] = ()
    became: str = ""
    became_es: str = ""
    wording: OwnWords = HOUSE

    def say(self, language: str) -> Voice:
        """The words of one side, with what fills their blanks."""
        values = {
            "teacher": self.teacher,
            "school": self.letterhead.school,
            "first day": spelled(self.first, language),
            "last day": spelled(self.last, language),
        }
        return Voice(NAME, language, THANKS[language], self.wording, values)


def _book(facts: Facts) -> Book:
    return Book(paper(facts.paper), title=facts.say("en")("title"), author=facts.teacher, language="en")


def _put(facts: Facts, book: Book) -> None:
    for language in ("en", "es"):
        draw_sheet(_sheet(on_paper(facts), language), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def read_texts(facts: Facts) -> dict[str, str]:
    return {
        "en": "\n\n".join((THANKS["en"].whoever, facts.became)),
        "es": "\n\n".join((THANKS["es"].whoever, facts.became_es)),
    }


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the notice lacks or must not say."""
    clean = on_paper(facts)
    own = (clean.wording.said(NAME, language) for language in THANKS)
    said = "\n".join((clean.became, clean.became_es, *own, *(one.item for one in clean.came)))
    named = _NAMED.search(said)
    lack = ", ".join(one.item for one in clean.came if not one.spanish)
    pages = [arrange(_sheet(clean, language), Book(paper(facts.paper), language="en")) for language in ("en", "es")]
    return (
        *found(
            unless(clean.came, "nothing-came", _("Nothing came that nobody thanked them for."), "from_on"),
            unless(clean.became, "no-becomes", _("What did it become?"), "became"),
            when(
                clean.became and not clean.became_es, "no-spanish-text", _("The Spanish side says less."), "became_es"
            ),
            when(lack, "no-spanish", format_lazy(_("No Spanish yet for: {things}."), things=lack), "things_es"),
            when(
                named,
                "named",
                format_lazy(
                    _("“{words}” names somebody. Families are thanked together."), words=named[0] if named else ""
                ),
                "became",
                stops=True,
            ),
            when(value_in_text(said), "amount", _("An amount of money stands in the text."), "became", stops=True),
            when(
                presses(said), "presses", _("Thanks press nobody: leave out targets and rewards."), "became", stops=True
            ),
            when(any(len(page.pages) > 1 for page in pages), "second-page", _("It runs over one side."), "became"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, language: str) -> Sheet:
    words, say = THANKS[language], facts.say(language)
    became = facts.became_es if language == "es" else facts.became
    who = f"{facts.teacher}, {facts.role}" if facts.role and language == "en" else facts.teacher
    return Sheet(
        title=say("title"),
        head=(facts.letterhead,),
        flow=(
            Heading(say("title"), before=0),
            *_came(facts, language),
            Framed((Paragraph((bold(say("became")),), before=0), Paragraph(became, before=0.2)) if became else ()),
            Paragraph(words.whoever),
            Paragraph(who, before=1.2),
            Paragraph(spelled(facts.day, language), before=0),
        ),
        looks=SHEET_LOOKS,
        running=say("title"),
        page_words=words.page,
        together=2,
        language=language,
    )


def _came(facts: Facts, language: str) -> tuple[Block, ...]:
    if not facts.came:
        return (Paragraph(facts.say(language)("nothing")),)
    time = "on_one_day" if facts.first == facts.last else "to_all"
    return (Paragraph(facts.say(language)(time)), Bullets(tuple(one.said(language) for one in facts.came)))
