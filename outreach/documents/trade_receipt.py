"""The receipt for what changed hands in a trade, all of it or a part: two halves of one page, one for each side."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless
from outreach.page import (
    Beside,
    Block,
    Book,
    CutStrip,
    Framed,
    Heading,
    Letterhead,
    Look,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    Signatures,
    bold,
    draw_sheet,
    on_paper,
    paper,
    text_width,
)
from outreach.wording.counts import Item, counted, number, with_kind
from outreach.wording.dates import spelled
from outreach.wording.trade_receipt import RECEIPT

SLUG = "trade-receipt"
TITLE = _("Receipt to sign")
ABOUT = "delivery"

LOOKS = (Look(14, 1.0), Look(13, 0.9), Look(12, 0.8), Look(11.5, 0.6, lead=1.25), Look(11, 0.5, lead=1.2))


@dataclass(frozen=True)
class Facts:
    """Everything the receipt says, never a value. `item` came on `day`; `agreed` is the whole that was promised.

    `so_far` counts what came up to and with this, None where nothing was counted; `giver` brings it to `taker`.
    `that_was_all`: nothing more of it is waited for. `went_back`: plain items that went along unused; `only_back`:
    `item` is those, and nothing else changed hands.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    item: Item
    giver: str
    taker: str
    trade: str = ""
    agreed: Item | None = None
    so_far: int | None = None
    carrier: str = ""
    that_was_all: bool = False
    went_back: Item | None = None
    only_back: bool = False

    @property
    def to_come(self) -> int | None:
        """How many of the smaller number agreed are still to come."""
        if self.that_was_all or self.so_far is None or self.agreed is None or self.agreed.quantity is None:
            return None
        return max(0, int(self.agreed.quantity) - self.so_far)


def _book(facts: Facts) -> Book:
    title = f"{RECEIPT[facts.language].title}: {facts.trade or facts.item.what}"
    return Book(paper(facts.paper), title=title, author=facts.letterhead.school, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    title = f"{RECEIPT[facts.language].title}: {facts.trade or facts.item.what}"
    draw_sheet(_sheet(on_paper(facts), title), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the receipt lacks."""
    return (
        *found(
            unless(facts.item.quantity, "no-quantity", _("How many came?"), "item"),
            unless(facts.carrier or facts.only_back, "no-carrier", _("Who brought it?"), "carrier"),
        ),
        *missing_signs(facts),
    )


def _sheet(facts: Facts, title: str) -> Sheet:
    words = RECEIPT[facts.language]
    half = _half(facts)
    below: tuple[Block, ...] = (Paragraph(words.one_each, side="right", before=0), facts.letterhead, *half)
    cut = CutStrip(below, side=paper(facts.paper).side, before=1.8)
    return Sheet(
        title=title,
        head=(facts.letterhead,),
        flow=(*half, cut),
        flow_gap=0.6,
        looks=LOOKS,
        running=title,
        page_words=words.page,
    )


def _half(facts: Facts) -> tuple[Block, ...]:
    words, language = RECEIPT[facts.language], facts.language
    received = words.received.format(day=spelled(facts.day, language))
    day = Paragraph(received, side="right")
    item = with_kind(facts.item, language)
    signers = (words.handed.format(name=facts.giver), words.took.format(name=facts.taker))
    return (
        Beside(left=(Heading(words.title, before=0),), right=day, wide=text_width(received) * 1.2, before=0.8),
        Framed((Paragraph((bold(words.unused.format(what=item) if facts.only_back else item),), step=3),), before=0.5),
        Pairs(
            (
                (words.from_, facts.giver),
                (words.to, facts.taker),
                (words.carried, facts.carrier),
                (words.what_for, facts.trade),
                (words.went_back, counted(facts.went_back, language) if facts.went_back else ""),
                *_numbers(facts),
            ),
            before=0.6,
            gap=0.15,
        ),
        Signatures(signers, words.date, before=0.6),
    )


def _numbers(facts: Facts) -> tuple[tuple[str, str], ...]:
    """Of how many this is a part, and how many are still to come."""
    words = RECEIPT[facts.language]
    if facts.agreed is None or facts.agreed.quantity is None:
        return ()
    so_far = number(facts.so_far) if facts.so_far is not None else ""
    to_come = number(facts.to_come) if facts.to_come else ""
    return (words.agreed, counted(facts.agreed, facts.language)), (words.so_far, so_far), (words.to_come, to_come)
