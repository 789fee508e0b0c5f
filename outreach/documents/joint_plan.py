"""A project on one page: who brings and teaches what, for which classes, by when, and what it needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Column,
    Heading,
    Letterhead,
    Look,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    Signatures,
    Stack,
    Table,
    WriteIn,
    bold,
    draw_sheet,
    measured,
    on_paper,
    paper,
)
from outreach.wording.counts import Item, counted, sentence
from outreach.wording.dates import spelled, with_weekday
from outreach.wording.project import PLAN, PlanWords, for_whom

SLUG = "joint-plan"
TITLE = _("Plan of the project")
ABOUT = "project"

LOOKS = (*SHEET_LOOKS, Look(11, 0.5, lead=1.2), Look(11, 0.4, lead=1.14))
NOTHING = Paragraph("")


@dataclass(frozen=True)
class Part:
    """What one of the two brings or teaches; `does` is "brings" or "teaches"."""

    does: str
    what: str
    due: date | None = None
    done: bool = False


@dataclass(frozen=True)
class Need:
    """One thing from the wish list that is not there yet."""

    item: Item
    by: date | None = None


@dataclass(frozen=True)
class Facts:
    """Everything the plan says; what is empty vanishes. Without a colleague it is one teacher's plan.

    `shared` says that a colleague is meant, named or not.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    title: str
    teacher: str
    about: str = ""
    shared: bool = False
    colleague: str = ""
    subject: str = ""
    ours: tuple[Part, ...] = ()
    theirs: tuple[Part, ...] = ()
    classes: str = ""
    children: int | None = None
    begins_on: date | None = None
    ends_on: date | None = None
    shown_on: date | None = None
    shows: tuple[tuple[str, date], ...] = ()
    needs: tuple[Need, ...] = ()
    approved_by: str = ""
    approved_on: date | None = None


def _book(facts: Facts) -> Book:
    title = f"{PLAN[facts.language].title}: {facts.title}"
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the plan lacks, in the order in which it reads."""
    clean = on_paper(facts)
    pages = len(measured(_sheet(clean), paper(facts.paper)).pages)
    return (
        *found(
            unless(clean.about, "no-about", _("What do the children make and learn?"), "about"),
            unless(clean.ours, "no-ours", _("What do you bring and teach?"), ""),
            when(clean.shared and not clean.theirs, "no-theirs", _("What does your colleague bring and teach?"), ""),
            unless(clean.classes, "no-classes", _("No class is chosen yet."), ""),
            unless(clean.begins_on or clean.ends_on, "no-days", _("No day is named yet."), "begins_on"),
            when(pages > 1, "second-page", _("It runs over one page. Shorten the texts."), ""),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts) -> Sheet:
    words, language = PLAN[facts.language], facts.language
    about = f"{words.title}: {facts.title}"
    return Sheet(
        title=about,
        head=(facts.letterhead, Paragraph(spelled(facts.day, language), side="right", before=0.6)),
        flow=(
            Stack(
                (
                    Heading(facts.title, before=0),
                    Paragraph((bold(_whose(facts, words)),), before=0.1),
                    Paragraph(sentence(facts.about), before=0.5),
                )
            ),
            _columns(facts, words),
            Pairs(tuple(_rows(facts, words)), before=0.9, gap=0.35),
            Paragraph(words.lesson, before=0.9),
            Signatures(_signers(facts, words), words.date),
        ),
        flow_gap=1.0,
        together=1,
        looks=LOOKS,
        running=about,
        page_words=words.page,
    )


def _whose(facts: Facts, words: PlanWords) -> str:
    if not facts.shared:
        return words.one.format(teacher=facts.teacher)
    named = words.two if facts.colleague else words.two_alone
    return named.format(teacher=facts.teacher, colleague=facts.colleague)


def _columns(facts: Facts, words: PlanWords) -> Block:
    """Line by line what each of the two does; alone, what one does."""
    ours = [_part(part, facts.language) for part in facts.ours] or _to_fill_in(words)
    mine = words.art.format(teacher=facts.teacher)
    if not facts.shared:
        return Table((Column(mine),), tuple((row,) for row in ours), before=0.9)
    theirs = [_part(part, facts.language) for part in facts.theirs] or _to_fill_in(words)
    other = ", ".join(filter(None, (facts.colleague, facts.subject))) or words.colleague
    rows = tuple(zip_longest(ours, theirs, fillvalue=NOTHING))
    return Table((Column(mine), Column(other)), rows, before=0.9)


def _to_fill_in(words: PlanWords) -> list[Block]:
    """Lines to write on when the two sit together."""
    return [Stack((WriteIn(words.brings), WriteIn(words.teaches), WriteIn(words.by_day)), before=0)]


def _part(part: Part, language: str) -> Block:
    words = PLAN[language]
    how = words.brings if part.does == "brings" else words.teaches
    due = words.by.format(day=with_weekday(part.due, language)) if part.due else ""
    state = words.done if part.done else due
    return Stack(
        (
            Paragraph((bold(part.what[:1].upper() + part.what[1:]),), before=0),
            Paragraph(", ".join(filter(None, (how, state))), before=0),
        ),
        before=0,
    )


def _rows(facts: Facts, words: PlanWords) -> Sequence[tuple[str, str]]:
    language = facts.language
    shown = [words.show.format(title=title, day=spelled(day, language)) for title, day in facts.shows]
    if not shown and facts.shown_on:
        shown = [words.begins.format(first=spelled(facts.shown_on, language))]
    return (
        (words.classes, for_whom(facts.classes, facts.children, language)),
        (words.when, days(facts.begins_on, facts.ends_on, language)),
        (words.seen, "; ".join(shown)),
        (words.needs, "; ".join(_need(need, language) for need in facts.needs)),
    )


def days(first: date | None, last: date | None, language: str) -> str:
    """
    >>> days(date(2027, 1, 12), date(2027, 3, 5), "en"), days(None, date(2027, 3, 5), "en"), days(None, None, "en")
    ('from January 12, 2027 to March 5, 2027', 'until March 5, 2027', '')
    """
    words = PLAN[language]
    if first and last:
        return words.from_to.format(first=spelled(first, language), last=spelled(last, language))
    if first:
        return words.begins.format(first=spelled(first, language))
    return words.ends.format(last=spelled(last, language)) if last else ""


def _need(need: Need, language: str) -> str:
    what = counted(need.item, language)
    return PLAN[language].needed.format(what=what, day=spelled(need.by, language)) if need.by else what


def _signers(facts: Facts, words: PlanWords) -> tuple[str, ...]:
    principal = words.principal
    if facts.approved_by and facts.approved_on:
        principal = words.approved.format(by=facts.approved_by, day=spelled(facts.approved_on, facts.language))
    both = (facts.teacher, facts.colleague) if facts.shared else (facts.teacher,)
    return (*(name for name in both if name), principal)
