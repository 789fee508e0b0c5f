"""Where the marks of a chart stand, without Django: plain numbers in the units of the picture.

Nothing depends on a colour: each row of marks has its name beside it, each mark its number, each part of a bar its own
pattern.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

WIDE = 360
"""Every chart is so many units wide; on a phone a unit is about a pixel."""
STEP = 30
ROW, NAME, NUMBER = 72, 26, 13
"""Height of one row of marks, of its name above it, and of the number on a mark."""
BAR, GAP, LEAST = 18, 2, 3
SHARE = 22


@dataclass(frozen=True, slots=True)
class Mark:
    """An upright bar from `top`, with its number over it; nothing stands where there was nothing."""

    left: float
    top: float
    wide: float
    high: float
    middle: float
    above: float
    number: int


@dataclass(frozen=True, slots=True)
class StripRow:
    name: str
    name_at: float
    floor: float
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """Rows of marks under each other over the same months, all by the same measure."""

    high: float
    rows: tuple[StripRow, ...]
    months: tuple[tuple[float, str], ...]
    months_at: float


def strip(rows: Sequence[tuple[str, Sequence[int]]], months: Sequence[str]) -> Strip:
    """One mark for each month; the tallest of all is as high as its row allows."""
    most = max((number for _name, numbers in rows for number in numbers), default=0) or 1
    room = ROW - NAME - NUMBER - 4
    drawn = []
    for place, (name, numbers) in enumerate(rows):
        floor = (place + 1) * ROW
        marks = tuple(_mark(at, number, most, room, floor) for at, number in enumerate(numbers) if number)
        drawn.append(StripRow(name, floor - ROW + NAME - 4, floor, marks))
    high = len(rows) * ROW
    named = tuple((at * STEP + STEP / 2, month) for at, month in enumerate(months))
    return Strip(high + 20, tuple(drawn), named, high + 15)


def _mark(at: int, number: int, most: int, room: float, floor: float) -> Mark:
    high = max(LEAST, round(room * number / most, 1))
    left = at * STEP + (STEP - BAR) / 2
    return Mark(left, floor - high, BAR, high, at * STEP + STEP / 2, floor - high - 3, number)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a lying bar; `kind` names its pattern."""

    kind: str
    left: float
    wide: float
    number: int


def lying(parts: Sequence[tuple[str, int]], wide: float = WIDE) -> tuple[Part, ...]:
    """Parts of one bar side by side, each as wide as its number, with a gap between; none for a number of nought."""
    shown = [(kind, number) for kind, number in parts if number > 0]
    whole = sum(number for _kind, number in shown)
    room = wide - GAP * (len(shown) - 1)
    drawn, left = [], 0.0
    for kind, number in shown:
        own = room * number / whole
        drawn.append(Part(kind, round(left, 1), round(own, 1), number))
        left += own + GAP
    return tuple(drawn)


def share(part: int, whole: int, wide: float = WIDE) -> float:
    """How wide a bar is that shows a part of a whole; more than the whole is drawn as the whole."""
    return round(wide * min(part, whole) / whole, 1) if whole > 0 else 0.0
