"""Words into lines. Text is data here: nothing in it is ever read as markup."""

from functools import lru_cache
from typing import NamedTuple

from outreach.page.fonts import Face, printable, width


class Span(NamedTuple):
    """A piece of text in one face."""

    text: str
    face: Face = "regular"


Words = str | tuple[Span, ...]
"""What a block of text takes: plain text, or spans where some of it is bold or italic."""

Line = tuple[Span, ...]
"""One line as it will be drawn, left to right."""


class Look(NamedTuple):
    """How a page is set: size of the running text in points, how airy the gaps are (1 is normal), and how far apart
    the lines of running text stand, in sizes."""

    size: float
    air: float = 1.0
    lead: float = 1.36

    def leading(self, size: float) -> float:
        """Distance of baselines for a size: closer for headings than for running text."""
        return size * (self.lead if size <= 15 else min(self.lead, 1.2))

    def first_baseline(self, size: float) -> float:
        """From the upper edge of a line of text down to where its letters stand."""
        return (self.leading(size) - size) / 2 + size * 0.8


def bold(text: str) -> Span:
    return Span(text, "bold")


def spans(words: Words, face: Face = "regular") -> tuple[Span, ...]:
    """Printable spans of the words; plain text takes the face given."""
    if isinstance(words, str):
        text = printable(words)
        return (Span(text, face),) if text else ()
    kept = [Span(_inner(span.text), span.face) for span in words]
    if kept:
        kept[0] = Span(kept[0].text.lstrip(" "), kept[0].face)
        kept[-1] = Span(kept[-1].text.rstrip(" "), kept[-1].face)
    return tuple(span for span in kept if span.text)


def _inner(text: str) -> str:
    """Printable text that keeps one blank at each end, for it stands between other spans."""
    core = printable(text)
    before = " " if text[:1].isspace() else ""
    after = " " if core and text[-1:].isspace() else ""
    return f"{before}{core}{after}"


def line_width(line: Line, size: float) -> float:
    return sum([width(span.text, span.face) for span in line]) * size


@lru_cache(maxsize=4_096)
def break_lines(words: Words, measure: float, size: float, face: Face = "regular") -> tuple[Line, ...]:
    """Lines no wider than `measure` points. Breaks at blanks; a word wider than the line is cut where it must be.

    The last line of a paragraph never holds one short word alone when the line above can spare its last word.
    """
    pieces = spans(words, face)
    if not pieces:
        return ()
    room = measure / size
    if len(pieces) == 1:
        text, only = pieces[0]
        return tuple((Span(line, only),) for line in _break_plain(text, only, room))
    return _break_spans(pieces, room)


def _break_plain(text: str, face: Face, room: float) -> list[str]:
    if width(text, face) <= room:
        return [text.replace("\u00a0", " ")]
    blank = width(" ", face)
    lines: list[list[str]] = [[]]
    used = 0.0
    for word in _cut_long(text.split(" "), face, room):
        wide = width(word, face)
        if lines[-1] and used + blank + wide > room:
            carried = _carried(lines[-1], word, face, room - wide)
            lines.append(carried)
            used = sum(width(one, face) + blank for one in carried) - (blank if carried else 0.0)
        used += wide + (blank if lines[-1] else 0.0)
        lines[-1].append(word)
    if len(lines) > 1 and len(lines[-1]) == 1 and len(lines[-1][0]) < 8:
        lines[-1][:0] = _carried(lines[-2], lines[-1][0], face, room - used, always=True)
    return [" ".join(line).replace("\u00a0", " ") for line in lines]


def _carried(line: list[str], word: str, face: Face, room: float, *, always: bool = False) -> list[str]:
    """Takes the words off a line's end that belong to the word beginning the next one: a number and its noun, a
    month and its day. With `always` one word comes along in any case, so that a short last word is not left alone."""
    carried: list[str] = []
    blank = width(" ", face)
    while len(line) > 3 and len(carried) < 3:
        last, following = line[-1], (carried or [word])[0]
        room -= width(last, face) + blank
        if room < 0 or not (_belong(last, following) or (always and not carried)):
            break
        carried.insert(0, line.pop())
    return carried


def _belong(word: str, following: str) -> bool:
    """Whether a line should not end between the two: "104 | students", "May | 14,", "Room | 7"."""
    bare = following.rstrip(".,;:")
    names_number = bare.isdecimal() and len(bare) <= 2 and word[:1].isupper() and word[-1:].isalpha()
    return word.lstrip("(").replace(",", "").isdecimal() or names_number


def _cut_long(words: list[str], face: Face, room: float) -> list[str]:
    """Words, those wider than the room cut into pieces that fit (at least one sign each)."""
    if all(width(word, face) <= room for word in words):
        return words
    pieces = []
    for word in words:
        piece, used = "", 0.0
        for sign in word:
            wide = width(sign, face)
            if piece and used + wide > room:
                pieces.append(piece)
                piece, used = "", 0.0
            piece += sign
            used += wide
        pieces.append(piece)
    return pieces


def _break_spans(pieces: tuple[Span, ...], room: float) -> tuple[Line, ...]:
    """Lines of mixed faces. A word may run over the border of two spans; it stays together."""
    lines: list[list[Span]] = [[]]
    used = 0.0
    for word in _words_of(pieces, room):
        wide = _wide(word)
        blank = width(" ", word[0].face)
        if lines[-1] and used + blank + wide > room:
            lines.append([])
            used = 0.0
        if lines[-1]:
            lines[-1].append(Span(" ", word[0].face))
            used += blank
        lines[-1].extend(word)
        used += wide
    return tuple(_joined(line) for line in lines if line)


def _words_of(pieces: tuple[Span, ...], room: float) -> list[list[Span]]:
    words: list[list[Span]] = []
    open_word = False
    for text, face in pieces:
        parts = text.split(" ")
        for number, part in enumerate(parts):
            cut = _cut_long([part], face, room) if part else []
            if cut and open_word and number == 0 and _wide([*words[-1], Span(cut[0], face)]) <= room:
                words[-1].append(Span(cut.pop(0), face))
            words.extend([Span(one, face)] for one in cut)
            open_word = bool(part) and bool(words)
    return words


def _wide(word: list[Span]) -> float:
    return line_width(tuple(word), 1)


def _joined(line: list[Span]) -> Line:
    """Neighbours of one face as one span."""
    joined: list[Span] = []
    for span in line:
        if joined and joined[-1].face == span.face:
            joined[-1] = Span(joined[-1].text + span.text, span.face)
        else:
            joined.append(span)
    return tuple(Span(span.text.replace("\u00a0", " "), span.face) for span in joined)
