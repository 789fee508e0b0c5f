"""Fits blocks to the page: first by smaller type and tighter gaps, then by going on properly on a second page."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from outreach.page.blocks import set_lines
from outreach.page.book import Book
from outreach.page.fonts import printable, width
from outreach.page.laid import Block, Laid, repeated
from outreach.page.paper import Paper
from outreach.page.text import Look, break_lines
from outreach.page.told import ToldSheet, overheard, told

SHEET_LOOKS = (
    *(Look(size, air) for size in (14, 13.5, 13, 12.5, 12) for air in (1.25, 1.0, 0.8)),
    *(Look(size, 0.6, lead=1.25) for size in (12, 11.5, 11)),
)
"""For sheets read at arm's length: 14 points where it can be, 11 where it must."""
LETTER_LOOKS = (
    Look(12.5, 1.15),
    *(Look(12, air) for air in (1.1, 1.0, 0.85)),
    Look(11.5, 0.85),
    Look(11, 0.85),
    Look(11, 0.65, lead=1.27),
)
"""For letters."""

FIXED = Look(12)
"""For what stands at its own place whatever happens to the text."""
RUNNING = 11.0
ABOVE_FOOT = 10.0
COMPANY = 3
"""Of a table so many rows stand together on its last page, where there are more."""


def text_width(text: str) -> float:
    """Width in points of text at the size of what stands at the head and foot."""
    return width(printable(text)) * FIXED.size


class Fixed(NamedTuple):
    """A block at its own place on the first page; x and y are its upper left corner."""

    block: Block
    x: float
    y: float
    measure: float


@dataclass(frozen=True)
class Sheet:
    """One document: what stands at the head, at fixed places, in the flow and at the foot of the first page.

    The flow begins `flow_gap` type sizes under the head, and never above `flow_from`. The last `together` blocks of
    the flow never stand alone on a page: they take the piece above them along. `running` heads every further page,
    and `page_words` counts them. `spilled` is the look on several pages, where the smallest is not to be. `language`
    is said where it is not the book's. `bound` is where the sheet stands in a file of several that is counted as one:
    how many pages come before it, and how many there are in all.
    """

    title: str
    flow: tuple[Block, ...]
    head: tuple[Block, ...] = ()
    fixed: tuple[Fixed, ...] = ()
    foot: tuple[Block, ...] = ()
    flow_from: float = 0
    flow_gap: float = 1.6
    together: int = 0
    looks: tuple[Look, ...] = SHEET_LOOKS
    spilled: Look | None = None
    running: str = ""
    page_words: str = "page {page} of {pages}"
    watermark: str = ""
    language: str = ""
    bound: tuple[int, int] | None = None


class Placed(NamedTuple):
    laid: Laid
    x: float
    y: float


@dataclass(frozen=True)
class Arrangement:
    """Where everything goes: the look that was chosen and the placed blocks page by page."""

    look: Look
    pages: tuple[tuple[Placed, ...], ...]


class _Row(NamedTuple):
    gap: float
    laid: Laid


def arrange(sheet: Sheet, book: Book) -> Arrangement:
    """Lays the sheet out on the book's paper: one page in the largest look that fits, else several pages."""
    for look in sheet.looks:
        head, foot, top, bottom = _frame(sheet, book, look)
        rows = _rows(sheet.flow, book, book.sheet.text_width, look)
        if sum([gap + laid.height for gap, laid in rows]) <= bottom - top:
            return Arrangement(look, ((*head, *_column(rows, book.sheet.side, top), *foot),))
    look = sheet.spilled or Look(sheet.looks[-1].size, 1.0)  # with a second page there is room for normal gaps
    head, foot, top, bottom = _frame(sheet, book, look)
    first, *others = _spill(_groups(sheet, book, look), book, (top, bottom))
    return Arrangement(look, ((*head, *first, *foot), *(tuple(page) for page in others)))


def _frame(sheet: Sheet, book: Book, look: Look) -> tuple[list[Placed], list[Placed], float, float]:
    """Head with fixed blocks, foot, and from where to where the flow may go between them; in reading order."""
    paper = book.sheet
    own = edge_look(look)
    rows = _rows(sheet.head, book, paper.text_width, own)
    head = _column(rows, paper.side, paper.top)
    head_end = paper.top + sum([gap + laid.height for gap, laid in rows])
    head += [Placed(book.lay(block, measure, FIXED), x, y) for block, x, y, measure in sheet.fixed]
    rows = _rows(sheet.foot, book, paper.text_width, own)
    end = paper.height - paper.bottom
    foot_top = end - sum([gap + laid.height for gap, laid in rows])
    foot = _column(rows, paper.side, foot_top)
    gap = sheet.flow_gap * look.size * look.air
    return head, foot, max(head_end + gap, sheet.flow_from), foot_top - ABOVE_FOOT if foot else end


def edge_look(look: Look) -> Look:
    """The look of head and foot on a page of this look."""
    return Look(min(FIXED.size, look.size), min(FIXED.air, look.air), look.lead)


def measured(sheet: Sheet, paper: Paper) -> Arrangement:
    """How the sheet would come out on paper, without drawing it."""
    return arrange(sheet, Book(paper, language="en"))


def flow_words(sheet: Sheet, paper: Paper) -> int:
    """How many words the flow holds: what is read, without letterhead, fixed blocks and foot."""
    book = Book(paper, language="en")
    rows = _rows(sheet.flow, book, paper.text_width, sheet.looks[0])
    return sum(len(line.split()) for row in rows for line in book.words_of(row.laid))


def draw_sheet(sheet: Sheet, book: Book, arranged: Arrangement | None = None) -> int:
    """Draws the sheet as the next pages of the book; returns how many. Overheard, it is told instead of drawn.

    `arranged` is how it comes out, where that was worked out before.
    """
    listened = overheard()
    if listened is not None:
        blocks = (*sheet.head, *(fixed.block for fixed in sheet.fixed), *sheet.flow, *sheet.foot)
        root = told(blocks, sheet.looks[0], book.listener())
        listened.append(ToldSheet(sheet.title, sheet.language or book.language, sheet.watermark, root))
        return 1
    arrangement = arranged or arrange(sheet, book)
    total = len(arrangement.pages)
    before, of_all = sheet.bound or (0, total)
    for number, placed in enumerate(arrangement.pages, 1):
        if number == 1:
            book.begin(sheet.title, sheet.language)
        elif sheet.running:
            _repeat_heading(book, sheet.running)
        for laid, x, y in placed:
            book.place(laid, x, y)
            if laid.named:
                book.bookmark(laid.named)
        if of_all > 1:
            _count(book, sheet.page_words.format(page=before + number, pages=of_all))
        if sheet.watermark:
            book.watermark(sheet.watermark)
        book.end_page()
    book.end()
    return total


def _rows(blocks: Sequence[Block], book: Book, measure: float, look: Look) -> list[_Row]:
    """What has something to print, with the gap above it; empty blocks vanish and the space closes."""
    rows: list[_Row] = []
    for block in blocks:
        laid = book.lay(block, measure, look)
        if laid.height:
            gap = block.before * look.size * look.air if rows else 0.0
            rows.append(_Row(gap, laid))
    return rows


def _column(rows: Sequence[_Row], x: float, y: float) -> list[Placed]:
    placed = []
    for gap, laid in rows:
        placed.append(Placed(laid, x, y + gap))
        y += gap + laid.height
    return placed


def _groups(sheet: Sheet, book: Book, look: Look) -> list[list[_Row]]:
    """What must stay together: every block, or every piece of one that may be cut, and the closing as one."""
    rows = _rows(sheet.flow, book, book.sheet.text_width, look)
    closing = len(_rows(sheet.flow[len(sheet.flow) - sheet.together :], book, book.sheet.text_width, look))
    groups: list[list[_Row]] = []
    for gap, laid in rows[: len(rows) - closing]:
        parts = laid.pieces()
        groups.append([_Row(gap, parts[0])])
        groups.extend([_Row(0, part)] for part in parts[1:])
    last = rows[len(rows) - closing :]
    if last and groups:
        groups[-1].extend(last)
    elif last:
        groups.append(last)
    return groups


def _spill(groups: Sequence[list[_Row]], book: Book, first: tuple[float, float]) -> list[list[Placed]]:
    """Groups over pages; `first` is where the flow begins and ends on the first one."""
    paper = book.sheet
    frames = (first, (_running_height(paper.top), paper.height - paper.bottom))
    return [
        _column([row for group in _begun(page, further=n > 0) for row in group], paper.side, frames[min(n, 1)][0])
        for n, page in enumerate(_company(_paged(groups, frames), frames[1]))
    ]


def _paged(groups: Sequence[list[_Row]], frames: tuple[tuple[float, float], ...]) -> list[list[list[_Row]]]:
    """As many groups on each page as fit."""
    pages: list[list[list[_Row]]] = [[]]
    for group in groups:
        top, bottom = frames[min(len(pages) - 1, 1)]
        if pages[-1] and top + _height(_begun([*pages[-1], group], further=len(pages) > 1)) > bottom + 0.01:
            pages.append([])
        pages[-1].append(group)
    return pages


def _company(pages: list[list[list[_Row]]], frame: tuple[float, float]) -> list[list[list[_Row]]]:
    """A table's last rows do not go on to the last page one or two alone: the page before gives some of its own."""
    if len(pages) < 2 or pages[-1][0][0].laid.again is None:
        return pages
    table, last, given = pages[-1][0][0].laid.again, pages[-1], pages[-2]
    top, bottom = frame

    def of_it(group: list[_Row]) -> bool:
        return group[0].laid.again is table

    while sum(map(of_it, last)) < COMPANY < sum(map(of_it, given)):
        if top + _height(_begun([given[-1], *last], further=True)) > bottom:
            break
        last.insert(0, given.pop())
    return pages


def _begun(page: Sequence[list[_Row]], *, further: bool) -> list[list[_Row]]:
    """A page's groups; a further page begins with the heading of the table that goes on, and without a gap."""
    if not further:
        return list(page)
    again = page[0][0].laid.again
    begins = [*([_Row(0.0, again)] if again else []), page[0][0]._replace(gap=0.0), *page[0][1:]]
    return [begins, *page[1:]]


def _height(groups: Sequence[list[_Row]]) -> float:
    return sum([gap + laid.height for group in groups for gap, laid in group])


def _running_height(top: float) -> float:
    return top + 4 * RUNNING


def _repeat_heading(book: Book, running: str) -> None:
    """The heading of a further page with a hairline under it."""
    paper = book.sheet
    line = break_lines(running, paper.text_width, RUNNING, "bold")[:1]
    book.place(repeated(set_lines(line, RUNNING, FIXED)), paper.side, paper.top)
    rule = Laid(1, lambda pen, x, y: pen.rule(x, y, x + paper.text_width, y))
    book.place(rule, paper.side, paper.top + 1.7 * RUNNING)


def _count(book: Book, counted: str) -> None:
    """The count of pages at the foot."""
    paper = book.sheet
    lines = break_lines(counted, paper.text_width, RUNNING)
    counts = repeated(set_lines(lines, RUNNING, FIXED, "right", paper.text_width))
    book.place(counts, paper.side, paper.height - paper.bottom + 6)
