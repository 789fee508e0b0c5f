"""The year on one page for the principal, the board or the partners: counts first, what it became, what is needed.

Partners are named only where they said yes; in the principal's, which stays in school, also those who said "in school
only". The partners' own says nothing of money and asks for nothing.
"""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Bullets,
    Column,
    Heading,
    Look,
    Lying,
    Numbered,
    Pairs,
    Paragraph,
    Run,
    Section,
    Sheet,
    Stack,
    Table,
    Upright,
    arrange,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import joined, number, sentence
from outreach.wording.dates import spelled
from outreach.wording.own_words import Voice
from outreach.wording.year import NAME, YEAR, YearWords, of_number
from outreach.wording.year_counts import counted
from outreach.wording.year_facts import PARTNERS, Facts
from partners.gifts.letter_phrases import asks_inside

SLUG = "yearly-summary"
TITLE = _("Yearly summary")
ABOUT = "school"
MOST_NEEDS, MOST_BECAME, MOST_NAMED = 3, 4, 12
LOOKS = (*SHEET_LOOKS[6:], Look(11, 0.5, lead=1.22))


def _book(facts: Facts) -> Book:
    title = _title(facts)
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the summary lacks, or should be thought of before it goes out."""
    clean = on_paper(facts)
    pages = arrange(_sheet(clean), Book(paper(facts.paper), language=facts.language)).pages
    association = facts.research is not None and facts.research.kind == "association"
    wants = facts.readers != PARTNERS
    asks = () if wants else asks_inside(" ".join(_say(facts)(path) for path in ("title", f"readers.{PARTNERS}")))
    return (
        *found(
            unless(
                facts.day > facts.last, "year-goes-on", _("The year is not over: these are the counts so far."), "year"
            ),
            unless(clean.became, "nothing-became", _("No project tells yet what it became."), "became"),
            unless(clean.needs or not wants, "no-needs", _("What are next year's three needs?"), "needs"),
            when(clean.needs and not wants, "thanks-and-ask", _("A sheet that thanks does not ask."), "needs"),
            when(asks, "ask", _("A sheet that thanks does not ask."), "readers", stops=True),
            when(
                facts.worth_unknown,
                "no-figure",
                _("What an hour was worth in that year is not published yet: the hours stand alone."),
                "worth",
            ),
            unless(clean.names, "nobody-named", _("Nobody is named: no partner has said yes to it yet."), "readers"),
            when(
                association,
                "association",
                _("What research says is an association here: it proves no cause."),
                "research",
            ),
            when(len(pages) > 1, "second-page", _("It runs over one page."), "needs"),
        ),
        *missing_signs(facts),
    )


def _title(facts: Facts) -> str:
    return _say(facts)("title")


def _say(facts: Facts) -> Voice:
    language = facts.language
    values = {
        "year": facts.year,
        "day": spelled(facts.day, language),
        "first day": spelled(facts.first, language),
        "last day": spelled(facts.last, language),
        "teacher": facts.teacher,
        "school": facts.letterhead.school,
    }
    return Voice(NAME, language, YEAR[language], facts.wording, values)


def _sheet(facts: Facts) -> Sheet:
    words, say = YEAR[facts.language], _say(facts)
    who = ", ".join(part for part in (facts.teacher, facts.role) if part)
    return Sheet(
        title=_title(facts),
        head=(facts.letterhead,),
        flow=(
            Stack(
                (
                    Heading(_title(facts), before=0),
                    Paragraph((bold(say(f"readers.{facts.readers}")),), before=0.15),
                    Paragraph(say("as_of" if facts.day <= facts.last else "whole"), before=0.1),
                )
            ),
            Pairs(counted(facts, words)),
            _by_month(facts, words),
            _kept(facts, words),
            _listed(say("became"), Bullets(tuple(sentence(one) for one in facts.became), before=0.2)),
            _listed(say("needs"), Numbered(facts.needs, before=0.2)),
            Paragraph(_named(facts, words)),
            *_research(facts, words),
            Paragraph(who, before=1.0),
        ),
        looks=LOOKS,
        running=_title(facts),
        page_words=words.page,
    )


def _by_month(facts: Facts, words: YearWords) -> Block:
    """Asks, what came and thanks as bars over their numbers, all by one measure."""
    most = max((count for row in facts.months for count in row), default=0)
    if not most:
        return Stack(())
    at = facts.first.month - 1
    names = [words.months[(at + n) % 12] for n in range(12)]
    columns = (Column(words.by_month[0], 1.6), *(Column(name) for name in names))
    rows = tuple(
        (Paragraph(name, before=0), *(_month(count, most) for count in row))
        for name, row in zip(words.by_month[1:], facts.months, strict=True)
    )
    return Table(columns, rows)


def _month(count: int, most: int) -> Block:
    return Stack((Upright(count, most, high=20), Paragraph(number(count) if count else "", step=-3, before=0)))


def _kept(facts: Facts, words: YearWords) -> Block:
    rows = tuple(
        (
            Paragraph(name, before=0),
            Paragraph(words.of.format(part=number(kept), whole=number(promised)), before=0),
            Lying(kept, promised),
        )
        for name, kept, promised in zip((words.theirs, words.ours), facts.kept, facts.promised, strict=True)
        if promised
    )
    shares = (2.1, 1.1, 3)
    return Table(tuple(Column(name, share) for name, share in zip(words.kept, shares, strict=True)), rows)


def _listed(title: str, body: Bullets | Numbered) -> Block:
    return Section(Paragraph((bold(title),), before=0, heads=True), body, before=0.8)


def _named(facts: Facts, words: YearWords) -> str:
    if not facts.names:
        return ""
    say = _say(facts)
    if facts.others:
        return f"{say('named', names=', '.join(facts.names))} {of_number(words.others, facts.others)}"
    return sentence(say("named", names=joined(list(facts.names), facts.language)))


def _research(facts: Facts, words: YearWords) -> tuple[Block, ...]:
    told = facts.research
    if told is None or not told.sentence:
        return ()
    source = f"({told.source}, {told.year}; {words.kinds[told.kind]})."
    limits = words.limits.format(limits=told.limits)
    return (
        Stack(
            (
                Paragraph((bold(words.research),), before=0, heads=True),
                Paragraph(f"{told.sentence} {source} {limits}", before=0.1),
            )
        ),
    )
