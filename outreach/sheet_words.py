"""A sheet as plain text, for a mail: its parts in their order, with what tells them apart when it is read aloud."""

from __future__ import annotations

from collections.abc import Iterator

from outreach.page import ToldSheet
from outreach.page.pen import BLANK
from outreach.page.told import Told

TO_WRITE = "______"


def sheet_words(sheet: ToldSheet) -> str:
    """Paragraphs parted by empty lines; points of a list, and rows of a table, on lines of their own."""
    said = list(filter(None, _blocks(sheet.root)))
    # A picture of a name, and the name in print below it, are one thing to say.
    return "\n\n".join(one for one, after in zip(said, [*said[1:], ""], strict=True) if one != after)


def _blocks(told: Told) -> Iterator[str]:
    loose: list[str] = []
    for inside in told.inside:
        if isinstance(inside, Told):
            yield " ".join(loose)
            loose = []
            yield from _block(inside)
        else:
            loose.append(_text(inside))
    yield " ".join(filter(None, loose))


def _block(told: Told) -> Iterator[str]:
    match told.role:
        case "H1" | "H2" | "P":
            yield _text(told)
        case "L":
            yield "\n".join(_point(item, told.part.marks) for item in _parts(told))
        case "Table":
            yield "\n".join(" | ".join(_text(cell) for cell in _parts(row)) for row in _parts(told))
        case "Figure":
            yield told.part.alt
        case _:
            yield from _blocks(told)


def _point(item: Told, marks: str) -> str:
    label, *said = _parts(item)
    words = " ".join(filter(None, map(_text, said)))
    name = _text(label)
    if marks == "Disc" or label.part.alt:
        return f"- {words}"
    return f"{name} {words}" if marks == "Decimal" or name.endswith(":") else f"{name}: {words}" if name else words


def _text(inside: object) -> str:
    """Lines are kept where the sheet breaks them itself, as in an address."""
    if isinstance(inside, Told):
        return inside.part.alt or "\n".join(filter(None, map(_text, inside.inside)))
    if inside == BLANK:
        return TO_WRITE
    if not isinstance(inside, tuple):
        return ""
    return "\n".join("".join(text for text, _face in line) for line in inside)


def _parts(told: Told) -> list[Told]:
    return [inside for inside in told.inside if isinstance(inside, Told)]
