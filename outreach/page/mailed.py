"""What stands on a letter because it is folded and put into a #10 window envelope."""

from __future__ import annotations

from outreach.page.address import Address, FoldMark, WindowAddress
from outreach.page.paper import FIRST_FOLD, WINDOW_LEFT, Paper, window_clear
from outreach.page.sheet import Fixed

BELOW_FOLD = 12.0
FLOW_BELOW_FOLD = FIRST_FOLD + BELOW_FOLD
"""Where the words of a folded letter begin, in points from the top."""


def in_window(address: Address, sheet: Paper, window_left: float = WINDOW_LEFT) -> tuple[Fixed, ...]:
    """The address where the window shows it, and the mark where the sheet is folded; nothing without an address."""
    if not address.lines():
        return ()
    clear = window_clear(sheet, window_left)
    return (
        Fixed(WindowAddress(address, clear.height), clear.left, clear.top, clear.width),
        Fixed(FoldMark(sheet.width), 0, FIRST_FOLD, sheet.width),
    )


def fits_window(address: Address, sheet: Paper, window_left: float = WINDOW_LEFT) -> bool:
    """Whether every line of the address shows, wherever the sheet slides."""
    clear = window_clear(sheet, window_left)
    return WindowAddress(address, clear.height).fits(clear.width)
