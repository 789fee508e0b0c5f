"""What a school and a partner agreed to trade: one page in two columns, to be signed, a copy for each side."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from hashlib import sha256
from itertools import zip_longest

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Beside,
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
    bold,
    draw_sheet,
    measured,
    on_paper,
    paper,
    text_width,
)
from outreach.wording.counts import Item, counted, whole, with_kind
from outreach.wording.dates import spelled, with_weekday
from outreach.wording.own_words import HOUSE, OwnWords, Voice
from outreach.wording.trade import MEMO, NAME
from partners.gifts.letter_phrases import value_in_text

SLUG = "trade-memo"
TITLE = _("Memo of the trade")
ABOUT = "trade"

LOOKS = (*(look for look in SHEET_LOOKS if look.size <= 12.5), Look(11, 0.5, lead=1.2), Look(11, 0.4, lead=1.14))
NOTHING = Paragraph("")


@dataclass(frozen=True)
class Part:
    """One thing that one side does by a day, and who brings it."""

    item: Item
    due: date
    carrier: str = ""


@dataclass(frozen=True)
class Facts:
    """Everything the memo says; what is empty vanishes. No value is among them.

    `kind` is the partner's kind by its code, `reach` the teacher's own phone or mail. `plain` are the undecorated
    items, `plain_by_us` when the school supplies them. `version` counts the memos that went out before with other
    terms; `replaces` is the day of the last of them.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    agreed_on: date
    school: str
    teacher: str
    partner: str
    make: Part
    contact: str = ""
    reach: str = ""
    kind: str = "business"
    plain: Part | None = None
    plain_by_us: bool = False
    spare_percent: int = 0
    gives: tuple[Part, ...] = ()
    materials: str = ""
    display_from: date | None = None
    display_until: date | None = None
    names_on_work: str = ""
    afterwards: str = ""
    if_late: str = ""
    more: str = ""
    approved_by: str = ""
    approved_on: date | None = None
    needs_approval: bool = True
    version: int = 1
    replaces: date | None = None
    wording: OwnWords = HOUSE

    @property
    def approved_itself(self) -> bool:
        """A yes to trades of the school from before it was agreed is none to what is agreed here."""
        return bool(self.approved_by and self.approved_on and self.approved_on >= self.agreed_on)

    @cached_property
    def say(self) -> Voice:
        """The words of the memo, with what fills their blanks."""
        values = {"partner": self.partner, "person": self.contact, "teacher": self.teacher, "school": self.school}
        return Voice(NAME, self.language, MEMO[self.language], self.wording, values)


def terms(facts: Facts) -> str:
    """What was agreed, as a short fingerprint: two memos with the same one say the same in whatever language."""
    parts = [facts.make, facts.plain, *facts.gives]
    agreed = [
        *([part.item.what, part.item.quantity, part.item.at_most, part.due, part.carrier] for part in parts if part),
        [facts.make.item.kind, facts.plain_by_us, facts.spare_percent if facts.plain else 0, facts.materials],
        [facts.display_from, facts.display_until, facts.names_on_work, facts.afterwards, facts.if_late, facts.more],
    ]
    return sha256(json.dumps(agreed, default=str).encode()).hexdigest()[:16]


def _book(facts: Facts) -> Book:
    return Book(
        paper(facts.paper),
        title=f"{facts.say('title')}: {facts.partner}",
        author=", ".join(part for part in (facts.teacher, facts.school) if part),
        subject=counted(facts.make.item, facts.language),
        language=facts.language,
    )


def _put(facts: Facts, book: Book) -> None:
    clean, words = on_paper(facts), MEMO[facts.language]
    for copy in (words.our_copy, words.copies.get(facts.kind) or facts.partner):
        draw_sheet(_sheet(clean, copy), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the memo lacks or should not say, in the order in which it reads."""
    clean = on_paper(facts)
    parts = [part for part in (clean.make, clean.plain, *clean.gives) if part]
    carried = all(part.carrier for part in parts)
    texts = (clean.materials, clean.afterwards, clean.if_late, clean.more, clean.names_on_work)
    value = value_in_text(" ".join((*texts, *(part.item.what for part in parts))))
    pages = len(measured(_sheet(clean, clean.partner), paper(facts.paper)).pages)
    unapproved = clean.needs_approval and not clean.approved_by
    past = [part.due for part in parts if part.due < clean.day]
    early = [part.due for part in (clean.plain,) if part and part.due >= clean.make.due]
    return (
        *found(
            unless(clean.school, "no-school", _("Which school is it for?"), "school"),
            unless(clean.contact, "no-contact", _("Nobody is named who signs for them."), "contact"),
            unless(clean.gives, "no-gives", _("What do they give, and by when?"), "gives"),
            unless(carried, "no-carrier", _("Who brings what is not said everywhere."), "make"),
            when(early, "plain-late", _("The plain items come when ours are due already."), "plain"),
            when(past, "past-day", _("It names a day that has gone by: agree on another first."), "make"),
            unless(clean.names_on_work, "no-names", _("What is written on the work? Else: school and grade."), ""),
            unless(clean.afterwards, "no-afterwards", _("What happens to the work afterwards?"), "afterwards"),
            unless(clean.if_late, "no-late", _("What if something is late?"), "if_late"),
            when(unapproved, "no-approval", _("The principal’s approval is not recorded yet."), "approved_by"),
            when(value, "value", _("An amount of money stands in the text; a memo states no value."), ""),
            when(pages > 1, "second-page", _("It runs over one page. Shorten the texts."), ""),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, copy: str) -> Sheet:
    words, language = MEMO[facts.language], facts.language
    title = facts.say("title")
    about = f"{copy}: {title}, {facts.partner}"
    approved = _approved(facts)
    sides = (words.signs_for.format(name=facts.school), words.signs_for.format(name=facts.partner))
    signers = sides if facts.approved_itself else (*sides, words.principal)
    return Sheet(
        title=about,
        head=(facts.letterhead, _beside(spelled(facts.day, language), copy)),
        flow=(
            Stack((Heading(title, before=0), Paragraph(_version(facts), before=0.1), Paragraph(_between(facts)))),
            _columns(facts),
            _pairs(facts),
            Paragraph(words.lesson, before=0.8),
            Paragraph(words.taxes, before=0.4),
            Paragraph(approved, before=0.4),
            Signatures(signers, words.date),
        ),
        flow_gap=1.0,
        together=1,
        looks=LOOKS,
        running=about,
        page_words=words.page,
    )


def _beside(day: str, copy: str) -> Block:
    row = Paragraph((bold(copy),))
    return Beside(left=(row,), right=Paragraph(day, side="right"), wide=text_width(day) + 2, gutter=14, before=0.6)


def _version(facts: Facts) -> str:
    words = MEMO[facts.language]
    if facts.version < 2:
        return ""
    day = spelled(facts.replaces, facts.language) if facts.replaces else ""
    replaced = words.replaces.format(day=day) if day else ""
    return f"{words.version.format(number=facts.version)}. {replaced}".strip()


def _between(facts: Facts) -> str:
    words = MEMO[facts.language]
    has_contact = facts.contact and facts.contact != facts.partner
    return (words.between if has_contact else words.between_alone).format(
        day=spelled(facts.agreed_on, facts.language),
        school=facts.school or facts.letterhead.school,
        teacher=", ".join(part for part in (facts.teacher, facts.reach.replace(" ", "\u00a0")) if part),
        partner=facts.partner,
        contact=facts.contact,
    )


def _columns(facts: Facts) -> Block:
    """Line by line what each side does; the plain items stand with whoever supplies them."""
    words = MEMO[facts.language]
    spares = words.spares.format(percent=facts.spare_percent) if facts.spare_percent else ""
    plain = [_part(facts.plain, facts.language, spares)] if facts.plain else []
    ours = [_part(facts.make, facts.language), *(plain if facts.plain_by_us else ())]
    theirs = [*(() if facts.plain_by_us else plain), *(_part(part, facts.language) for part in facts.gives)]
    gives = words.gives.get(facts.kind) or facts.partner
    rows = tuple(zip_longest(ours, theirs, fillvalue=NOTHING))
    return Table((Column(facts.say("makes")), Column(gives)), rows, before=0.8)


def _part(part: Part, language: str, besides: str = "") -> Block:
    words = MEMO[language]
    amount = ", ".join(text for text in (with_kind(part.item, language), besides) if text)
    carried = words.carried.format(carrier=part.carrier) if part.carrier else ""
    return Stack(
        (
            Paragraph((bold(amount),), before=0),
            Paragraph(words.by.format(day=with_weekday(part.due, language)), before=0),
            Paragraph(carried, before=0),
        ),
        before=0,
    )


def _pairs(facts: Facts) -> Block:
    words, say, language = MEMO[facts.language], facts.say, facts.language
    first = words.show_from.format(day=spelled(facts.display_from, language)) if facts.display_from else ""
    last = words.show_until.format(day=spelled(facts.display_until, language)) if facts.display_until else ""
    named = f"{whole(facts.names_on_work)} {words.no_last_names}" if facts.names_on_work else words.names_usual
    return Pairs(
        (
            (say("materials"), whole(facts.materials)),
            (say("show"), whole(", ".join(part for part in (first, last) if part))),
            (words.names, named),
            (words.photographs, words.with_release),
            (say("afterwards"), whole(facts.afterwards)),
            (say("late"), whole(facts.if_late)),
            (say("more"), whole(facts.more)),
        ),
        before=0.8,
        gap=0.25,
    )


def _approved(facts: Facts) -> str:
    """That a yes is held; without one for this very trade the principal signs, too."""
    words = MEMO[facts.language]
    if not facts.approved_by or not facts.approved_on:
        return ""
    said = words.approved if facts.approved_itself else words.approved_before
    return said.format(by=facts.approved_by, day=spelled(facts.approved_on, facts.language))
