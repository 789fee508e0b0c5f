"""The print font: Lato in four faces, embedded; which signs it can print, and how wide words are.

Files come from the `fontpkg-lato` package (SIL Open Font License), static TrueType with the full Latin range.
"""

import threading
import unicodedata
from dataclasses import fields, is_dataclass, replace
from functools import cache, lru_cache
from importlib.resources import as_file, files
from typing import Any, Literal, NamedTuple, TypeVar, cast

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

Face = Literal["regular", "bold", "italic", "bold italic"]

TALLEST, TALLEST_ACCENT = 0.75, 1.0
"""Ink above the baseline, in sizes: of plain letters (f, l) and of capitals with stacked accents, measured in Lato."""
DESCENT = 0.213
"""Ink below the baseline, in sizes (Lato's own `hhea` table)."""

_FILES: dict[Face, str] = {
    "regular": "Lato-Regular",
    "bold": "Lato-Bold",
    "italic": "Lato-Italic",
    "bold italic": "Lato-BoldItalic",
}
_REGISTERING = threading.Lock()
_JOINERS = {0x200D, 0xFE0E, 0xFE0F}
_SKIN_TONES = range(0x1F3FB, 0x1F400)
_FLAG_LETTERS = range(0x1F1E6, 0x1F200)

# Compressed streams go in as they are: ASCII armour would make every file a quarter larger.
rl_config.useA85 = 0

T = TypeVar("T")


@cache
def _load(face: Face) -> TTFont:
    with as_file(files("fontpkg_lato") / "files" / f"{_FILES[face]}.ttf") as path:
        font = TTFont(_FILES[face], str(path), asciiReadable=1)
    pdfmetrics.registerFont(font)
    return font


def font(face: Face) -> TTFont:
    """The registered font of a face; each file is read once per process, when first needed."""
    with _REGISTERING:
        return _load(face)


@cache
def signs() -> frozenset[int]:
    """Code points that all four faces can draw. Private and unassigned ones do not count: they carry no meaning."""
    shared = set(font("regular").face.charToGlyph)
    for face in _FILES:
        shared &= set(font(face).face.charToGlyph)
    return frozenset(code for code in shared if unicodedata.category(chr(code)) not in {"Cc", "Cf", "Cn", "Co", "Cs"})


def tidy(text: str) -> str:
    """The text in NFC on one line: line ends, tabs and wide blanks become one space, invisible marks go.

    A no-break space stays. Nothing that can be seen is taken away.
    """
    if text.isascii() and text.isprintable() and "  " not in text:
        return text.strip(" ")
    kept = []
    for sign in unicodedata.normalize("NFC", text):
        category = unicodedata.category(sign)
        if category in {"Cc", "Zs", "Zl", "Zp"} and sign != "\u00a0":
            kept.append(" ")
        elif category != "Cf" or sign == "\u200d":
            kept.append(sign)
    return " ".join(part for part in "".join(kept).split(" ") if part)


def unprintable(text: str) -> list[str]:
    """Signs of the text that the font lacks, each once, in order, as a reader sees them.

    A picture sign made of several code points (joined, with a skin tone, a flag) is one sign. Writing that the font
    has no letters for (Hebrew, Arabic, Chinese …) is told letter by letter in the same way.
    """
    found: list[str] = []
    after_missing = joined = False
    for sign in tidy(text):
        code = ord(sign)
        missing = code not in signs() and code not in _JOINERS
        belongs = after_missing and (
            joined
            or code in _JOINERS
            or code in _SKIN_TONES
            or (missing and unicodedata.category(sign) in {"Mn", "Mc", "Me"})
            or (code in _FLAG_LETTERS and len(found[-1]) == 1 and ord(found[-1]) in _FLAG_LETTERS)
        )
        if belongs:
            found[-1] += sign
        elif missing:
            found.append(sign)
        after_missing = belongs or missing
        joined = belongs and code == 0x200D
    return list(dict.fromkeys(found))


def printable(text: str) -> str:
    """The text as it will stand on paper: tidy, and without the signs the font lacks and the blanks they doubled."""
    if text.isascii() and text.isprintable():
        return tidy(text)
    known = signs()
    kept = "".join(sign for sign in tidy(text) if ord(sign) in known)
    return " ".join(part for part in kept.split(" ") if part)


class LostSigns(NamedTuple):
    """A value that cannot be printed whole: `field` is its dotted path in the facts."""

    field: str
    value: str
    signs: tuple[str, ...]


def lost_signs(facts: Any, path: str = "") -> tuple[LostSigns, ...]:
    """Every text inside a facts dataclass (also in tuples and nested dataclasses) with signs the font lacks."""
    if isinstance(facts, str):
        missing = unprintable(facts)
        return (LostSigns(path, facts, tuple(missing)),) if missing else ()
    if isinstance(facts, tuple):
        named = [(f"{path}.{number}", value) for number, value in enumerate(facts)]
    elif is_dataclass(facts) and not isinstance(facts, type):
        named = [(f"{path}.{field.name}".lstrip("."), getattr(facts, field.name)) for field in fields(facts)]
    else:
        return ()
    return tuple(lost for name, value in named for lost in lost_signs(value, name))


def on_paper(facts: T) -> T:
    """The same facts with every text as it will be printed, so that what vanishes also counts as empty."""
    texts: list[str] = []
    _collect(facts, texts)
    all_text = " ".join(texts)
    if all_text.isascii() and all_text.isprintable() and "  " not in all_text and all_text.strip(" ") == all_text:
        return facts
    if all(printable(text) == text for text in texts):
        return facts
    return cast(T, _cleaned(facts))


def _collect(value: Any, texts: list[str]) -> None:
    """Every text that is not empty, in any order."""
    if type(value) is str:
        texts.append(value)
    elif type(value) is tuple:
        for part in value:
            _collect(part, texts)
    elif is_dataclass(value) and not isinstance(value, type):
        for name in _field_names(type(value)):
            part = getattr(value, name)
            if part and type(part) is str:
                texts.append(part)
            elif part and type(part) is not int:
                _collect(part, texts)


def _cleaned(value: Any) -> Any:
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, tuple):
        return tuple([_cleaned(part) for part in value])
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{name: _cleaned(getattr(value, name)) for name in _field_names(type(value))})
    return value


@cache
def _field_names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))


@lru_cache(maxsize=16_384)
def width(text: str, face: Face = "regular") -> float:
    """Width of the text at size 1, in points."""
    metrics = font(face).face
    widths, default = metrics.charWidths, metrics.defaultWidth
    return cast(float, sum([widths.get(code, default) for code in map(ord, text)]) * 0.001)
