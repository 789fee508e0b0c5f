"""The page kit: paper, print font, blocks and how they fit a sheet. Pure: the same blocks give the same bytes.

A document builds a `Sheet` of blocks and hands it to `draw_sheet` with the `Book` it belongs to. A sign that the font
lacks is never drawn as a box: it is left out with the blank it doubled, and `lost_signs(facts)` says so beforehand.
"""

from outreach.page.address import Address, FoldMark, WindowAddress, last_line
from outreach.page.bars import Folded, Lying, Upright
from outreach.page.binder import Contents, Entry, Named, bind
from outreach.page.blocks import Bullets, Heading, Numbered, Pairs, Paragraph, Rule
from outreach.page.book import Book
from outreach.page.envelope import BARCODE, DELIVERY, ENVELOPE, READ_AREA, RETURN
from outreach.page.fonts import LostSigns, lost_signs, on_paper, printable, tidy, unprintable
from outreach.page.forms import Boxes, Choice, CutStrip, Signatures, Ticks, WriteIn
from outreach.page.groups import Beside, Framed, Section, Stack
from outreach.page.label_grid import LabelGrid
from outreach.page.laid import Block, Laid
from outreach.page.mailed import FLOW_BELOW_FOLD, fits_window, in_window
from outreach.page.paper import (
    A4,
    FIRST_FOLD,
    INCH,
    LETTER,
    WINDOW_LEFT,
    Paper,
    paper,
    sideways,
    window_clear,
    window_reach,
)
from outreach.page.pictures import Picture, PictureRefused, open_picture
from outreach.page.qr import Qr, contact_card
from outreach.page.run import Run
from outreach.page.sender import Letterhead, SignOff
from outreach.page.sheet import (
    LETTER_LOOKS,
    SHEET_LOOKS,
    Arrangement,
    Fixed,
    Sheet,
    arrange,
    draw_sheet,
    edge_look,
    flow_words,
    measured,
    text_width,
)
from outreach.page.shown import SHOWN_PIXELS, Shown
from outreach.page.table import Column, Table, cells
from outreach.page.text import Look, Span, Words, bold
from outreach.page.told import ToldSheet, overhear
from outreach.page.weeks import Grid, GridRow

__all__ = [
    "A4",
    "BARCODE",
    "DELIVERY",
    "ENVELOPE",
    "FIRST_FOLD",
    "FLOW_BELOW_FOLD",
    "INCH",
    "LETTER",
    "LETTER_LOOKS",
    "READ_AREA",
    "RETURN",
    "SHEET_LOOKS",
    "SHOWN_PIXELS",
    "WINDOW_LEFT",
    "Address",
    "Arrangement",
    "Beside",
    "Block",
    "Book",
    "Boxes",
    "Bullets",
    "Choice",
    "Column",
    "Contents",
    "CutStrip",
    "Entry",
    "Fixed",
    "FoldMark",
    "Folded",
    "Framed",
    "Grid",
    "GridRow",
    "Heading",
    "LabelGrid",
    "Laid",
    "Letterhead",
    "Look",
    "LostSigns",
    "Lying",
    "Named",
    "Numbered",
    "Pairs",
    "Paper",
    "Paragraph",
    "Picture",
    "PictureRefused",
    "Qr",
    "Rule",
    "Run",
    "Section",
    "Sheet",
    "Shown",
    "SignOff",
    "Signatures",
    "Span",
    "Stack",
    "Table",
    "Ticks",
    "ToldSheet",
    "Upright",
    "WindowAddress",
    "Words",
    "WriteIn",
    "arrange",
    "bind",
    "bold",
    "cells",
    "contact_card",
    "draw_sheet",
    "edge_look",
    "fits_window",
    "flow_words",
    "in_window",
    "last_line",
    "lost_signs",
    "measured",
    "on_paper",
    "open_picture",
    "overhear",
    "paper",
    "printable",
    "sideways",
    "text_width",
    "tidy",
    "unprintable",
    "window_clear",
    "window_reach",
]
