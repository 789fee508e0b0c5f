"""The claim of a grant: every receipt it pays, with date, shop, number and amount, the total, and what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Block,
    Book,
    Bullets,
    Column,
    Heading,
    Letterhead,
    Look,
    Pairs,
    Paragraph,
    Run,
    Section,
    Sheet,
    Signatures,
    Table,
    bold,
    cells,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import dollars
from outreach.wording.dates import spelled
from outreach.wording.grant import GRANT, agreed_words, how_far, signed
from outreach.wording.grant_facts import Agreed, BudgetLine, Receipt

SLUG = "grant-claim"
TITLE = _("Claim sheet")
ABOUT = "grant"

LOOKS = (*(look for look in SHEET_LOOKS if look.size <= 12), Look(11, 0.5, lead=1.2))


@dataclass(frozen=True)
class Facts:
    """Everything the claim says, money in cents. Who paid out of pocket is the school's own affair and not told."""

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    partner: str
    title: str
    teacher: str
    awarded: int
    awarded_on: date | None = None
    buy_from: date | None = None
    spend_by: date | None = None
    claim_by: date | None = None
    receipts: tuple[Receipt, ...] = ()
    lines: tuple[BudgetLine, ...] = ()
    changes: tuple[Agreed, ...] = ()

    @property
    def total(self) -> int:
        return sum(receipt.cents for receipt in self.receipts)

    @property
    def planned_only(self) -> bool:
        """The lines were not brought down to a smaller award: nobody approved what stands in them."""
        return sum(line.has for line in self.lines) > self.awarded


def _book(facts: Facts) -> Book:
    title = f"{GRANT[facts.language].claim}: {facts.title}"
    return Book(paper(facts.paper), title=title, author=facts.teacher, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    title = f"{GRANT[facts.language].claim}: {facts.title}"
    draw_sheet(_sheet(on_paper(facts), title), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What a grantmaker would send the claim back for."""
    days = [receipt.day for receipt in facts.receipts]
    early = facts.buy_from is not None and any(day < facts.buy_from for day in days)
    late = facts.spend_by is not None and any(day > facts.spend_by for day in days)
    over = any(line.left < 0 for line in facts.lines)
    differ = bool(facts.lines) and sum(line.has for line in facts.lines) != facts.awarded
    return (
        *found(
            unless(facts.awarded, "not-awarded", _("It is not awarded yet."), "awarded"),
            unless(facts.receipts, "no-receipts", _("No receipt is charged to it yet."), "receipts"),
            unless(
                all(receipt.number for receipt in facts.receipts),
                "no-number",
                _("A receipt has no number."),
                "receipts",
            ),
            when(early, "too-early", _("Something was bought before the first day to buy."), "receipts"),
            when(late, "too-late", _("Something was bought after the last day to spend."), "receipts"),
            when(over, "over", _("A line has more on it than was approved; was a change agreed?"), "lines"),
            when(differ, "sums", _("The lines do not come to the award."), "lines"),
            when(facts.total > facts.awarded, "too-much", _("It is more than the award."), "receipts"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, title: str) -> Sheet:
    words = GRANT[facts.language]
    return Sheet(
        title=title,
        head=(facts.letterhead, Paragraph(spelled(facts.day, facts.language), side="right", before=0.9)),
        flow=(
            Heading(title, before=0),
            _about(facts),
            _receipts(facts),
            Paragraph((bold(how_far(facts.awarded, facts.total, facts.language)),), before=0.8),
            *_by_line(facts),
            *_changes(facts),
            Paragraph(words.enclosed.format(count=len(facts.receipts)) if facts.receipts else ""),
            Signatures(tuple(one.format(teacher=facts.teacher) for one in words.signers), words.date, before=1.6),
        ),
        flow_gap=1.0,
        together=1,
        looks=LOOKS,
        running=title,
        page_words=words.page,
    )


def _about(facts: Facts) -> Block:
    words, language = GRANT[facts.language], facts.language
    day = spelled(facts.awarded_on, language) if facts.awarded_on else ""
    amount = dollars(facts.awarded)
    return Pairs(
        (
            (words.to, facts.partner),
            (words.of, facts.letterhead.school),
            (words.awarded, words.amount_on.format(amount=amount, day=day) if day else amount),
            (words.buy, _buying(facts)),
            (words.claim_by, spelled(facts.claim_by, language) if facts.claim_by else ""),
        ),
        before=0.5,
        gap=0.15,
    )


def _buying(facts: Facts) -> str:
    words, language = GRANT[facts.language], facts.language
    first = spelled(facts.buy_from, language) if facts.buy_from else ""
    last = spelled(facts.spend_by, language) if facts.spend_by else ""
    if first and last:
        return words.both_days.format(first=first, last=last)
    if first:
        return words.buy_from.format(day=first)
    return words.buy_until.format(day=last) if last else ""


def _receipts(facts: Facts) -> Block:
    """A row for each charged line; each names its receipt, also on the next page."""
    words = GRANT[facts.language]
    rows: list[tuple[Block, ...]] = []
    for receipt in facts.receipts:
        number = words.number.format(number=receipt.number) if receipt.number else ""
        shop = ", ".join(part for part in (receipt.shop, number) if part)
        for line in receipt.lines:
            what = words.kinds.get(line.kind, "") or line.what
            rows.append((*cells(spelled(receipt.day, facts.language), shop, what), amount(line.cents)))
    if not rows:
        return Paragraph(words.no_receipts)
    rows.append((*cells((bold(words.total),), "", ""), amount(facts.total, strong=True)))
    columns = zip(words.receipts, (3.2, 3, 2.8, 1.5), strict=True)
    return Table(tuple(Column(name, share) for name, share in columns), tuple(rows), before=0.9)


def _by_line(facts: Facts) -> tuple[Block, ...]:
    """Approved with what moved by agreement, claimed, left; where the lines are above the award, what was claimed."""
    if not facts.lines:
        return ()
    words = GRANT[facts.language]
    names = ("paid",) if facts.planned_only else ("has", "paid", "left")
    titles = dict(zip(("what", "has", "paid", "left"), words.claim_lines, strict=True))
    rows = [_row(cells(line.what), [getattr(line, name) for name in names]) for line in facts.lines]
    sums = [sum(getattr(line, name) for line in facts.lines) for name in names]
    rows.append(_row(cells((bold(words.together),)), sums, strong=True))
    columns = (Column(titles["what"], 4), *(Column(titles[name], 1.5) for name in names))
    return (Section(Paragraph((bold(words.by_line),), step=1), Table(columns, tuple(rows), before=0.3)),)


def _row(name: tuple[Block, ...], cents: Sequence[int], *, strong: bool = False) -> tuple[Block, ...]:
    return (*name, *(amount(one, strong=strong) for one in cents))


def _changes(facts: Facts) -> tuple[Block, ...]:
    if not facts.changes:
        return ()
    told = tuple(agreed_words(change, facts.language) for change in facts.changes)
    return (Section(Paragraph((bold(GRANT[facts.language].changes),), step=1), Bullets(told, before=0.3)),)


def amount(cents: int, *, strong: bool = False) -> Block:
    """An amount at the right edge of its cell."""
    words = signed(cents)
    return Paragraph((bold(words),) if strong else words, side="right", before=0)
