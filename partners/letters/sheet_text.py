"""The words on a frozen sheet, read back from its bytes.

Only for sheets that were drawn here: their streams are deflated, and each font says which signs its codes stand for
(PDF 32000-1:2008, 9.10.3 "ToUnicode CMaps").
"""

from __future__ import annotations

import re
import zlib

_OBJECT = re.compile(rb"(?:^|\s)(\d+) 0 obj\b(.*?)(?=\sendobj)", re.DOTALL)
_STREAM = re.compile(rb"stream\r?\n(.*?)\r?\n?endstream", re.DOTALL)
_FONT = re.compile(rb"/([\w.+-]+) (\d+) 0 R")
_UNICODE = re.compile(rb"/ToUnicode (\d+) 0 R")
_SECTION = re.compile(rb"begin(bfchar|bfrange)(.*?)endbf", re.DOTALL)
_HEX = re.compile(rb"<([0-9A-Fa-f]*)>")
_RANGE = re.compile(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*(<[0-9A-Fa-f]*>|\[.*?\])", re.DOTALL)
_DRAWN = re.compile(
    rb"/([\w.+-]+)\s+[-\d.]+\s+Tf\b|(\((?:[^\\()]|\\.)*\)|<[0-9A-Fa-f\s]*>)\s*Tj\b|(\bT(?:[dDm]\b|\*)|\bET\b)",
    re.DOTALL,
)
_ESCAPE = re.compile(rb"\\([0-7]{1,3}|.)", re.DOTALL)
_NAMED = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}

Codes = dict[int, str]


def sheet_text(pdf: bytes) -> str | None:
    """Everything that is written on the sheet; None where it cannot be read, and somebody has to look."""
    objects = {int(hit[1]): hit[2] for hit in _OBJECT.finditer(pdf)}
    fonts = {}
    for body in objects.values():
        for name, number in _FONT.findall(body):
            cmap = _UNICODE.search(objects.get(int(number), b""))
            if cmap:
                fonts[name] = _codes(_opened(objects.get(int(cmap[1]), b"")))
    words = [_written(_opened(body), fonts) for body in objects.values() if b"stream" in body]
    text = "\n".join(filter(None, words))
    return text or None


def _opened(body: bytes) -> bytes:
    found = _STREAM.search(body)
    if found is None:
        return b""
    if b"/FlateDecode" not in body[: found.start()]:
        return found[1]
    try:
        return zlib.decompressobj().decompress(found[1])
    except zlib.error:
        return b""


def _codes(cmap: bytes) -> Codes:
    codes: Codes = {}
    for kind, inside in _SECTION.findall(cmap):
        if kind == b"bfchar":
            pairs = _HEX.findall(inside)
            codes |= {int(code, 16): _signs(to) for code, to in zip(pairs[::2], pairs[1::2], strict=False)}
            continue
        for first, last, to in _RANGE.findall(inside):
            start, end = int(first, 16), int(last, 16)
            if to.startswith(b"["):
                codes |= dict(zip(range(start, end + 1), map(_signs, _HEX.findall(to)), strict=False))
            else:
                base = int(to[1:-1] or b"0", 16)
                codes |= {code: chr(base + code - start) for code in range(start, end + 1)}
    return codes


def _signs(to: bytes) -> str:
    return bytes.fromhex(to.decode("ascii")).decode("utf-16-be", errors="ignore")


def _written(content: bytes, fonts: dict[bytes, Codes]) -> str:
    """The text of one content stream; a new place on the page ends a word."""
    said: list[str] = []
    codes: Codes = {}
    for font, string, moved in _DRAWN.findall(content):
        if font:
            codes = fonts.get(font, {})
        elif moved:
            said.append(" ")
        else:
            said.append("".join(codes.get(code, chr(code)) for code in _bytes(string)))
    return "".join(said).strip()


def _bytes(string: bytes) -> bytes:
    if string.startswith(b"<"):
        return bytes.fromhex(string[1:-1].decode("ascii"))

    def meant(hit: re.Match[bytes]) -> bytes:
        sign = hit[1]
        return bytes([int(sign, 8) & 255]) if sign[:1].isdigit() else _NAMED.get(sign, sign)

    return _ESCAPE.sub(meant, string[1:-1])
