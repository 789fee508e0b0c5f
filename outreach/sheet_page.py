"""A sheet as HTML: its parts as elements of the same meaning, in the same order, under the page's own heading."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from outreach.page import Picture, ToldSheet
from outreach.page.pen import BLANK
from outreach.page.qr import QUIET
from outreach.page.told import Told

NOTHING = SafeString("")
# Phone numbers, which a narrow column would break at their hyphen.
_PHONE = re.compile(r"((?:\(\d{3}\)\s)?\b\d{3}-\d{4}\b)")
_LISTS = {"Disc": "ul", "Decimal": "ol"}
_FACES = {
    "regular": "{}",
    "bold": "<strong>{}</strong>",
    "italic": "<em>{}</em>",
    "bold italic": "<strong><em>{}</em></strong>",
}


@dataclass(frozen=True)
class Shown:
    """One sheet, ready for the template."""

    title: str
    language: str
    draft: str
    body: SafeString


def shown(sheet: ToldSheet) -> Shown:
    return Shown(sheet.title, sheet.language, sheet.draft, _all(sheet.root, sheet.title))


def _all(told: Told, caption: str) -> SafeString:
    """Everything in a part. Tables are called by the heading above them."""
    made = []
    for inside in told.inside:
        if isinstance(inside, Told) and inside.role in ("H1", "H2"):
            caption = _plain(inside)
        made.append(_part(inside, caption) if isinstance(inside, Told) else _said(inside))
    return format_html_join(" " if told.role != "Sect" else "\n", "{}", ((one,) for one in made))


def _part(told: Told, caption: str) -> SafeString:
    match told.role:
        case "H1":
            return format_html("<h2>{}</h2>", _plain(told))
        case "H2":
            return format_html("<h3>{}</h3>", _plain(told))
        case "P":
            return format_html("<p>{}</p>", _all(told, caption))
        case "L":
            return _list(told, caption)
        case "Table":
            return _table(told, caption)
        case "Figure":
            return _figure(told)
        case _:
            return _all(told, caption)


def _list(told: Told, caption: str) -> SafeString:
    """Dots and numbers as such a list, boxes to tick as a list of their own, labels with what they say as pairs."""
    items = [_parts(item) for item in _parts(told)]
    kind = _LISTS.get(told.part.marks)
    if kind or any(label.part.alt for label, *_rest in items):
        mark = NOTHING if kind else format_html('<span class="to-tick">{}</span> ', items[0][0].part.alt)
        rows = format_html_join("\n", "<li>{}{}</li>", ((mark, _all(said, caption)) for _label, said in items))
        return format_html("<{0}{1}>{2}</{0}>", kind or "ul", "" if kind else SafeString(' class="ticks"'), rows)
    pairs = ((_plain(label), _all(said, caption)) for label, said in items)
    return format_html("<dl>{}</dl>", format_html_join("\n", "<div><dt>{}</dt><dd>{}</dd></div>", pairs))


def _table(told: Told, caption: str) -> SafeString:
    cells = (format_html_join("", "{}", ((_cell(cell),) for cell in _parts(row))) for row in _parts(told))
    rows = format_html_join("\n", "<tr>{}</tr>", ((row,) for row in cells))
    return format_html(
        '<div class="wide" role="group" aria-label="{0}" tabindex="0"><table class="grid">'
        '<caption class="unseen">{0}</caption><tbody>{1}</tbody></table></div>',
        caption,
        rows,
    )


def _cell(told: Told) -> SafeString:
    heads = told.role == "TH" and told.inside
    scope = format_html(' scope="{}"', "col" if told.part.scope == "Column" else "row") if heads else NOTHING
    wide = format_html(' colspan="{}"', told.part.columns) if told.part.columns > 1 else NOTHING
    return format_html("<{0}{1}{2}>{3}</{0}>", "th" if heads else "td", scope, wide, _all(told, ""))


def _figure(told: Told) -> SafeString:
    held = told.inside[0] if told.inside else None
    if isinstance(held, Picture):
        file = BytesIO()
        held.image().save(file, "PNG")
        return format_html(
            '<img src="data:image/png;base64,{}" alt="{}">', b64encode(file.getvalue()).decode(), told.part.alt
        )
    if isinstance(held, tuple):
        return _code(held, told.part.alt)
    return format_html('<p role="img" aria-label="{0}">{0}</p>', told.part.alt)


def _code(cells: Iterable[tuple[float, float, float, float]], alt: str) -> SafeString:
    """A code to scan, in a field that leaves its quiet zone free."""
    cells = list(cells)
    quiet = QUIET * min(cell[3] for cell in cells)
    left, top = (min(cell[side] for cell in cells) - quiet for side in (0, 1))
    right, low = (max(cell[side] + cell[side + 2] for cell in cells) - start for side, start in ((0, left), (1, top)))
    path = " ".join(f"M{x - left:.2f} {y - top:.2f}h{wide:.2f}v{high:.2f}h-{wide:.2f}z" for x, y, wide, high in cells)
    wide, high = f"{right + quiet:.0f}", f"{low + quiet:.0f}"
    return format_html(
        '<svg class="code" role="img" aria-label="{0}" viewBox="0 0 {1} {2}" width="160" height="160">'
        '<path fill="#fff" d="M0 0h{1}v{2}H0z"/><path fill="#000" d="{3}"/></svg>',
        *(alt, wide, high, path),
    )


def _said(inside: object) -> SafeString:
    """Lines of text with their faces, one under the other; a line to write on."""
    if inside == BLANK:
        return SafeString('<span class="to-write"></span>')
    if not isinstance(inside, tuple):
        return NOTHING
    lines = (
        format_html_join("", "{}", ((format_html(_FACES[face], _whole(text)),) for text, face in line))
        for line in inside
    )
    return format_html_join(SafeString("<br>"), "{}", ((line,) for line in lines))


def _whole(text: str) -> SafeString:
    """The text with its phone numbers, every second part, each in one piece."""
    parts = enumerate(_PHONE.split(text))
    made = (format_html('<span class="whole">{}</span>' if place % 2 else "{}", part) for place, part in parts)
    return format_html_join("", "{}", ((one,) for one in made))


def _parts(told: Told) -> list[Told]:
    return [inside for inside in told.inside if isinstance(inside, Told)]


def _plain(told: Told) -> str:
    lines = [line for inside in told.inside if isinstance(inside, tuple) for line in inside]
    return " ".join("".join(span.text for span in line) for line in lines)
