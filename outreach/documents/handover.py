"""The hand-over: everything that whoever takes over must know, bound into one file with contents and counted pages."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    INCH,
    Beside,
    Block,
    Book,
    Contents,
    Entry,
    Framed,
    Heading,
    Letterhead,
    Look,
    Named,
    Numbered,
    Pairs,
    Paper,
    Paragraph,
    Run,
    Section,
    Sheet,
    Stack,
    Table,
    WriteIn,
    bind,
    bold,
    cells,
    on_paper,
    paper,
)
from outreach.wording.board import LIST_SPILLED
from outreach.wording.counts import joined
from outreach.wording.dates import spelled
from outreach.wording.handover import CAREFUL, HOW_IT_WORKS, KINDS, RULES, Listing, open_words

SLUG = "hand-over"
TITLE = _("Hand-over")
ABOUT = "school"
SIDE = 0.75 * INCH
HOW, FIGURES = "How this book works", "Calendar and figures"
LOOKS = (Look(12, 1.0), Look(11.5, 0.9), LIST_SPILLED)


@dataclass(frozen=True)
class Part:
    """What belongs to one school, or to no single one: `about` are facts of it, then its lists."""

    title: str
    about: tuple[tuple[str, str], ...] = ()
    listings: tuple[Listing, ...] = ()


@dataclass(frozen=True)
class Facts:
    """Who hands over what on which day. `former` and `teacher` are two people once the hand-over was carried out;
    before that `former` is empty and who takes over is written in by hand.

    `figures` are the program's rules and counts, `schools` the calendar of each school, both as labels with words.
    """

    paper: str
    letterhead: Letterhead
    day: date
    program: str
    teacher: str = ""
    former: str = ""
    school: str = ""
    figures: tuple[tuple[str, str], ...] = ()
    schools: tuple[Part, ...] = ()
    parts: tuple[Part, ...] = ()

    @property
    def language(self) -> str:
        return "en"

    @property
    def title(self) -> str:
        return f"Hand-over of {self.school or self.program}"


def _paper(facts: Facts) -> Paper:
    return replace(paper(facts.paper), side=SIDE)


def _book(facts: Facts) -> Book:
    clean = on_paper(facts)
    return Book(_paper(facts), title=clean.title, author=clean.former or clean.teacher, language="en")


def _put(facts: Facts, book: Book) -> None:
    clean = on_paper(facts)
    bind(book, lambda entries: _front(clean, entries), [_figures(clean), *(_part(clean, one) for one in clean.parts)])


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    listed = {one.kind: one.rows for part in facts.parts for one in part.listings}
    no_office = any(not part.about for part in facts.parts if part.title in {one.title for one in facts.schools})
    return (
        *found(
            unless(facts.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            when(not any(listed.values()), "nothing-open", _("Nothing is open: the file says so."), "parts"),
            when(listed.get("thanks"), "thanks", _("Thanks are owed: best said before you leave."), "parts"),
            when(no_office, "no-office", _("A school’s office, principal and days are not written down."), "parts"),
        ),
        *missing_signs(facts),
    )


def _front(facts: Facts, entries: tuple[Entry, ...]) -> Sheet:
    taken = facts.teacher if facts.former else ""
    # How it works and the figures stand on the page that their sheet begins on.
    listed = tuple(one for one in entries if one.title not in (HOW, FIGURES))
    return Sheet(
        title=facts.title,
        head=(facts.letterhead,),
        flow=(
            Heading(facts.title, before=0, size=24),
            Pairs(
                (
                    ("From", facts.former or facts.teacher),
                    ("As it stands on", spelled(facts.day, "en")),
                    ("Open", _open(facts)),
                )
            ),
            Beside((WriteIn("To", taken),), WriteIn("Handed over on"), wide=210, before=0.6),
            Framed((Paragraph(CAREFUL, before=0),), before=1.0),
            Section(Paragraph((bold("Contents"),)), Contents(listed), before=1.0),
        ),
        looks=LOOKS,
        running=_running(facts),
    )


def _open(facts: Facts) -> str:
    counts: Counter[str] = Counter()
    for one in (listing for part in facts.parts for listing in part.listings):
        counts[one.kind] += len(one.rows)
    return open_words(counts) or "nothing"


def _running(facts: Facts, part: str = "") -> str:
    return ", ".join(one for one in (facts.title, part) if one)


def _figures(facts: Facts) -> Sheet:
    schools = (Section(Paragraph((bold(one.title),)), Pairs(one.about)) for one in facts.schools)
    return Sheet(
        title="How it works, calendar and figures",
        flow=(
            Named(HOW, Section(Heading(HOW, size=18), Numbered(HOW_IT_WORKS), before=0)),
            Named(FIGURES, Section(Heading(FIGURES, size=18), Pairs(facts.figures), before=1.4)),
            *schools,
        ),
        looks=LOOKS,
        spilled=LIST_SPILLED,
        running=_running(facts, "calendar and figures"),
    )


def _part(facts: Facts, part: Part) -> Sheet:
    """What is there, list by list; at the end, in one sentence, of what there is nothing."""
    none = [KINDS[one.kind].heading.lower() for one in part.listings if not one.rows]
    empty = f"Nothing is written down here of: {joined(none, 'en')}." if none else ""
    rules = RULES if any(one.kind == "approvals" for one in part.listings) else ""
    lists = tuple(_listing(one) for one in part.listings if one.rows)
    return Sheet(
        title=part.title,
        flow=(
            Heading(part.title, before=0, size=20),
            Pairs(part.about, before=0.5),
            *lists,
            Paragraph(empty, before=1.2),
            Paragraph(rules, before=0.6),
        ),
        looks=(LIST_SPILLED,),
        spilled=LIST_SPILLED,
        running=_running(facts, part.title),
    )


def _listing(listing: Listing) -> Block:
    kind = KINDS[listing.kind]
    count = f" ({len(listing.rows):,})" if len(listing.rows) > 1 else ""
    head = Stack(
        (
            Paragraph((bold(f"{kind.heading}{count}"),), step=1.5, before=0, heads=True),
            Paragraph(kind.about, before=0.1),
        )
    )
    table = Table(kind.columns, tuple(cells(*row) for row in listing.rows), before=0.4)
    return Named(kind.heading, Section(head, table, before=1.5))
