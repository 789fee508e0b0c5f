"""Pictures and papers that are handed in: nothing of what was sent is kept, only what is made anew from it. Pure.

A picture becomes a JPEG of its pixels alone: turned upright, on white, no larger than a screen or a sheet shows, and
without what a phone writes into it besides (place, time, device). A PDF is written anew by `partners.ground.papers`.
"""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass
from io import BytesIO
from typing import Literal

from PIL import Image, ImageOps, UnidentifiedImageError

from partners.ground.papers import written_anew
from partners.ground.plain import PlainError, gettext_noop

MOST_MEGABYTES = 20
MOST_BYTES = MOST_MEGABYTES * 1024 * 1024
MOST_PIXELS = 40_000_000
LONGEST_SIDE = 2_000
QUALITY = 85
LOOKED_AT = 1_024
# The lightest grey that a copier still shows as something; common practice.
PALEST = 225
# A sign is hardly ever so many times as wide as high, a line of words always is; common practice.
WIDE = 3
# Brands of the container that phones keep pictures in (ISO/IEC 23008-12, annex B; AV1 Image File Format).
HEIF = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1", b"avif", b"avis"}
PROGRAMS = (b"MZ", b"\x7fELF", b"#!", b"\xca\xfe\xba\xbe", b"\xcf\xfa\xed\xfe", b"\xfe\xed\xfa")
FORMATS = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG"}

KINDS = gettext_noop("Only pictures (JPEG, PNG or WebP) and PDFs can be kept.")
EMPTY = gettext_noop("There is nothing in this file. Choose it again.")
TOO_LARGE = gettext_noop(
    "This file has %(size)s MB; at most %(most)s MB can be kept. Send the picture smaller, or photograph it again."
)
TOO_MANY_PIXELS = gettext_noop(
    "This picture has more than %(most)s million dots, more than can be kept. Send it in a smaller size."
)
BROKEN = gettext_noop("This picture cannot be read: its end is missing or it is damaged. Send or photograph it again.")
MOVING = gettext_noop("Moving pictures cannot be kept. Send a still one as JPEG or PNG.")
HEIC = gettext_noop(
    "Pictures in a phone's own format (HEIC) cannot be read here. "
    "Set the camera to “most compatible”, or save the picture as JPEG and send that."
)
DRAWN = gettext_noop("Web pages and SVG drawings cannot be kept. Print it as a PDF and send that.")
PROGRAM = gettext_noop("This is a program, whatever its name says, and is not kept. Send the picture or PDF itself.")
OFFICE = gettext_noop("This is a document or an archive of files. Save it as a PDF and send that.")


class NotKept(PlainError):
    """The file is not kept; the sentence says why and what to do instead."""


@dataclass(frozen=True)
class Made:
    """What is kept: `kind` is "picture" (a JPEG) or "pdf"."""

    kind: Literal["picture", "pdf"]
    content: bytes


def made_anew(data: bytes) -> Made:
    """A clean copy of a picture or a PDF, recognised by what it is and never by its name. Raises NotKept."""
    if not data:
        raise NotKept("empty", EMPTY)
    refuse_size(len(data))
    if b"%PDF-" in data[:LOOKED_AT]:
        return Made("pdf", written_anew(data))
    return Made("picture", jpeg_of(data, format_of(data[:LOOKED_AT])))


def refuse_size(size: int) -> None:
    """Raises NotKept for more bytes than are kept; asked before they are read."""
    if size > MOST_BYTES:
        raise NotKept("too_large", TOO_LARGE, size=-(-size // (1024 * 1024)), most=MOST_MEGABYTES)


def format_of(start: bytes) -> str:
    """The picture format that the first bytes show. Raises NotKept for everything else, by its kind."""
    for magic, name in FORMATS.items():
        if start.startswith(magic):
            return name
    if start[:4] == b"RIFF" and start[8:12] == b"WEBP":
        return "WEBP"
    if start.startswith((b"GIF87a", b"GIF89a")):
        raise NotKept("moving", MOVING)
    if start[4:8] == b"ftyp" and start[8:12] in HEIF:
        raise NotKept("heic", HEIC)
    if start.startswith(PROGRAMS):
        raise NotKept("program", PROGRAM)
    if start.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"Rar!", b"7z\xbc\xaf", b"\x1f\x8b", b"{\\rtf")):
        raise NotKept("office", OFFICE)
    if start.removeprefix(b"\xef\xbb\xbf").lstrip().startswith(b"<"):
        raise NotKept("drawn", DRAWN)
    raise NotKept("kind", KINDS)


def jpeg_of(data: bytes, kind: str) -> bytes:
    """The picture as a JPEG of its pixels alone. Raises NotKept."""
    try:
        with Image.open(BytesIO(data), formats=(kind,)) as opened:
            refuse_pixels(*opened.size)
            # A JPEG may carry more than one picture, as phones write them; the first is the picture itself.
            if kind != "JPEG" and getattr(opened, "is_animated", False):
                raise NotKept("moving", MOVING)
            opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            opened.load()
            return _saved(on_white(ImageOps.exif_transpose(_small(opened))))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise too_many_pixels() from None
    except (UnidentifiedImageError, OSError, SyntaxError, EOFError, IndexError, KeyError, struct.error, zlib.error):
        raise NotKept("broken", BROKEN) from None
    except NotKept:
        raise
    except ValueError:
        raise NotKept("broken", BROKEN) from None


def refuse_pixels(width: int, height: int) -> None:
    if width * height > MOST_PIXELS:
        raise too_many_pixels()


def too_many_pixels() -> NotKept:
    return NotKept("too_many_pixels", TOO_MANY_PIXELS, most=MOST_PIXELS // 1_000_000)


def _small(picture: Image.Image) -> Image.Image:
    if picture.mode.startswith(("I", "F")):
        # Sixteen bits a dot, as some scanners write: the upper eight are what is seen.
        picture = picture.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    elif picture.mode in ("P", "1"):
        picture = picture.convert("RGBA" if "transparency" in picture.info else "RGB")
    picture.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    return picture


def on_white(picture: Image.Image) -> Image.Image:
    """Colour or grey dots alone: a new picture, so that nothing clings to it; transparent parts are white."""
    if picture.mode in ("LA", "La", "PA", "RGBA", "RGBa") or "transparency" in picture.info:
        layered = picture.convert("RGBA")
        flat = Image.new("RGB", layered.size, "white")
        flat.paste(layered, mask=layered.getchannel("A"))
        return flat
    mode = "L" if picture.mode == "L" else "RGB"
    flat = Image.new(mode, picture.size)
    flat.paste(picture.convert(mode))
    return flat


def darkest(content: bytes) -> int:
    """The grey of the darkest dot, 0 black and 255 white, as a copier without colours sees a kept picture."""
    with Image.open(BytesIO(content), formats=("JPEG",)) as opened:
        low, _high = opened.convert("L").getextrema()
    return int(low)  # type: ignore[arg-type]


def is_wide(content: bytes) -> bool:
    """Whether what shows on a kept picture is much wider than high, as a letterhead with its words is."""
    with Image.open(BytesIO(content), formats=("JPEG",)) as opened:
        shown = opened.convert("L").point(lambda grey: 255 * (grey <= PALEST)).getbbox()
    return shown is not None and shown[2] - shown[0] >= WIDE * (shown[3] - shown[1])


def _saved(picture: Image.Image) -> bytes:
    file = BytesIO()
    picture.save(file, "JPEG", quality=QUALITY, optimize=True)
    return file.getvalue()
