"""The letter home: what a household may have to spare, in English and on the back in Spanish, each with its own slip.

That nothing has to be sent and no one will know stands in it whatever else does. Behind a slip stands only the slip of
the other language, cut at the same line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from django.conf.locale import LANG_INFO
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap
from outreach.page import (
    SHEET_LOOKS,
    Beside,
    Block,
    Book,
    Bullets,
    CutStrip,
    Framed,
    Heading,
    Look,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    Span,
    Stack,
    arrange,
    bold,
    draw_sheet,
    edge_look,
    on_paper,
    paper,
    text_width,
)
from outreach.wording import family_gaps
from outreach.wording.dates import spelled
from outreach.wording.family import WORDS, LetterWords, SlipWords, other_slip
from outreach.wording.family_facts import Facts, Thing
from outreach.wording.family_slip import slip

__all__ = [
    "ABOUT",
    "SLUG",
    "TITLE",
    "Facts",
    "Thing",
    "draw",
    "draw_many",
    "gaps",
    "read_texts",
    "sheets",
    "write_many",
]

SLUG = "family-letter"
TITLE = _("Letter home to families")
ABOUT = "school"
MOST_THINGS = 10
NOT_LISTED = {
    "somali": "so",
    "soomaali": "so",
    "hmong": "hmn",
    "haitian creole": "ht",
    "tagalog": "tl",
    "amharic": "am",
    "nepali": "ne",
}
"""Languages of families that are missing among Django's names (ISO 639; from memory)."""
READ = ("own", "own_es")


def _book(facts: Facts) -> Book:
    return Book(paper(facts.paper), title=facts.say("en")("title"), author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    for sheet in sheets(facts):
        draw_sheet(sheet, book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def sheets(facts: Facts) -> list[Sheet]:
    """English, Spanish, and what a translator supplied: all in the largest look in which each is one page."""
    if facts.other_text and not facts.other_printable:
        facts = replace(facts, other_text="")
    clean, book = _clean(facts), Book(paper(facts.paper), language="en")
    made: list[Sheet] = []
    for look in SHEET_LOOKS:
        made = _in_look(clean, book, look)
        if all(len(arrange(sheet, book).pages) == 1 for sheet in made):
            break
    return made


def read_texts(facts: Facts) -> dict[str, str]:
    """What a family reads in each language, as text: paragraphs with their fixed sentences, without labels."""
    texts = {}
    for language, own in (("en", facts.own), ("es", facts.own_es)):
        words = WORDS[language]
        say = facts.say(language)
        asked = say("if_you_have").rstrip(":.") + "." if facts.things else say("if_nothing")
        parts = (words.promise, asked, words.only_clean, own, say("thanks"), words.slip.only_if, words.slip.rules)
        texts[language] = "\n\n".join(part for part in parts if part)
    return texts


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the letter lacks or must not say, in the order in which it reads."""
    clean = _clean(facts)
    pages = [arrange(sheet, Book(paper(facts.paper), language="en")) for sheet in sheets(facts)]
    return family_gaps.gaps(facts, clean, read_texts(clean)["en"], pages)


def _clean(facts: Facts) -> Facts:
    """Printable, with the line breaks of long texts kept; the blocks leave out what cannot be printed in those."""
    whole = {name: getattr(facts, name) for name in ("own", "own_es", "other_text", "other_slip")}
    return replace(on_paper(facts), **whole)


def _in_look(facts: Facts, book: Book, look: Look) -> list[Sheet]:
    """All pages in one look, their slips equally high."""
    measure, edge = book.sheet.text_width, edge_look(look)
    words: list[tuple[str, SlipWords]] = [
        (language, replace(WORDS[language].slip, heading=facts.say(language)("slip.heading")))
        for language in ("en", "es")
    ]
    back = [_day(facts.return_by, language) for language, _own in words]
    if facts.other_text:
        translated = other_slip(facts.other_slip)
        words.append(("en", translated or WORDS["en"].slip))
        back.append(_in_figures(facts.return_by) if translated else back[0])
    side, school = book.sheet.side, facts.letterhead.school
    strips = [slip(own, day, side, school) for (_language, own), day in zip(words, back, strict=True)]
    least = max(strip.lay(measure, edge).height for strip in strips)
    flows = [_flow(facts, language, measure) for language in ("en", "es")] + [_other_flow(facts)]
    made = [
        _sheet(facts, language, flow, replace(strip, least=least), look)
        for (language, _own), flow, strip in zip(words, flows, strips, strict=False)
    ]
    return [*made[:2], *(replace(sheet, language=_code(facts.other_language)) for sheet in made[2:])]


def _code(named: str) -> str:
    """The code of a language by its English or its own name; "und" (not known) for one that nobody listed."""
    names = ("name", "name_local")
    known = {str(about.get(name, "")).casefold(): code for name in names for code, about in LANG_INFO.items()}
    return {**known, **NOT_LISTED}.get(named.strip().casefold(), "und")


def _sheet(facts: Facts, language: str, flow: tuple[Block, ...], strip: CutStrip, look: Look) -> Sheet:
    words, title = WORDS[language], facts.say(language)("title")
    return Sheet(
        title=title,
        language=language,
        head=(facts.letterhead, _from_whom(facts, language)),
        flow=flow,
        foot=(strip,),
        looks=(look,),
        flow_gap=1.2,
        running=title,
        page_words=words.page,
        watermark="" if facts.approved_by else words.draft,
    )


def _flow(facts: Facts, language: str, measure: float) -> tuple[Block, ...]:
    words, say = WORDS[language], facts.say(language)
    own, drop_off = (facts.own_es, facts.drop_off_es) if language == "es" else (facts.own, facts.drop_off)
    return (
        Heading(say("title"), size=20, before=0),
        Paragraph(say("greeting"), before=0.4),
        Paragraph((bold(words.promise),), before=0.4),
        Paragraph(say("if_you_have" if facts.things else "if_nothing")),
        _columns([thing.said(language) for thing in facts.things], measure),
        Pairs(((words.where, drop_off), (words.when, _days(facts, words, language)))),
        _cannot_use(facts, words, language),
        *(Paragraph(part) for part in _parts(own)),
        Paragraph(say("thanks"), before=0.5),
    )


def _other_flow(facts: Facts) -> tuple[Block, ...]:
    by = f"{facts.other_language}: {facts.other_translator}" if facts.other_translator else facts.other_language
    return (*(Paragraph(part) for part in _parts(facts.other_text)), Paragraph(by, step=-2))


def _parts(text: str) -> list[str]:
    return [" ".join(part.split()) for part in text.replace("\r", "").split("\n\n") if part.strip()]


def _columns(items: Sequence[str], measure: float) -> Block:
    """A list in two columns where it is long."""
    if len(items) < 5:
        return Bullets(tuple(items), before=0.3)
    half = -(-len(items) // 2)
    wide = measure / 2 - 8
    return Beside((Bullets(tuple(items[:half])),), Bullets(tuple(items[half:])), wide=wide, gutter=16, before=0.3)


def _cannot_use(facts: Facts, words: LetterWords, language: str) -> Block:
    named = "; ".join(thing.said(language) for thing in facts.cannot_use)
    lines: tuple[Block, ...] = (
        Paragraph((bold(facts.say(language)("cannot_use")), Span(f": {named}." if named else "")), before=0),
        Paragraph(words.only_clean, before=0.25),
    )
    return Framed(lines, before=0.8)


def _days(facts: Facts, words: LetterWords, language: str) -> str:
    first, last = _day(facts.first, language), _day(facts.last, language)
    pattern = words.from_until if first and last else words.from_on if first else words.until_on if last else ""
    return pattern.format(first=first, last=last)


def _day(day: date | None, language: str) -> str:
    return spelled(day, language) if day else ""


def _in_figures(day: date | None) -> str:
    """The day without a word of any language, in the order of the United States: 12/8/2026."""
    return f"{day.month}/{day.day}/{day.year}" if day else ""


def _from_whom(facts: Facts, language: str) -> Block:
    who = (bold(facts.teacher), Span(f", {facts.role}" if facts.role and language == "en" else ""))
    reach = " · ".join(part for part in (facts.phone, facts.email) if part)
    day = spelled(facts.day, language)
    row = Beside(left=(Paragraph(who),), right=Paragraph(day, side="right"), wide=text_width(day) + 2, gutter=14)
    return Stack((row, Paragraph(reach, before=0)), before=0.5)
