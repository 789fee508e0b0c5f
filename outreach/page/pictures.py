"""Pictures for a letterhead or a signature: opened once, checked, flattened on white, without their metadata."""

from dataclasses import dataclass
from io import BytesIO

from PIL import Image, ImageChops, ImageOps, ImageStat, UnidentifiedImageError

MOST_BYTES = 8_000_000
MOST_PIXELS = 25_000_000
PRINT_PIXELS = 1_200
"""Longest side kept: two inches at 600 dots an inch, more than a school printer shows."""
COARSEST = 0.72
"""Points a dot at most, which is 100 dots an inch: a tiny picture is printed small rather than in squares."""
ALMOST_WHITE = 16
"""So far from white a margin may be, as scanners and cameras make paper."""
SHADE = 24
"""So much darker than most of it a photographed sheet of paper is in its shaded parts; common practice."""


class PictureRefused(ValueError):
    """The data is no picture that can be printed; `why` is "too large" or "not a picture"."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


@dataclass(frozen=True)
class Picture:
    """An opened picture: `mode` is "L" (grey) or "RGB", `pixels` its rows from the top, one byte a channel."""

    width: int
    height: int
    mode: str
    pixels: bytes

    def image(self) -> Image.Image:
        return Image.frombytes(self.mode, (self.width, self.height), self.pixels)

    def fitted(self, most_width: float, most_height: float) -> tuple[float, float]:
        """Width and height in points that keep the proportions inside a space."""
        scale = min(most_width / self.width, most_height / self.height, COARSEST)
        return self.width * scale, self.height * scale


def open_picture(data: bytes, most: int = PRINT_PIXELS, *, trimmed: bool = False, inked: bool = False) -> Picture:
    """Reads PNG, JPEG or WebP bytes, kept `most` pixels long; PictureRefused when they are too large or no picture.

    `trimmed` takes white margins off, so that they take no room from what is to be seen. `inked` is written by hand:
    the paper beneath, which a camera sees grey or yellow, becomes as white as the letter.
    """
    if len(data) > MOST_BYTES:
        raise PictureRefused("too large")
    try:
        with Image.open(BytesIO(data), formats=("PNG", "JPEG", "WEBP")) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                raise PictureRefused("too large")
            upright = ImageOps.exif_transpose(opened)
            flat = _on_white(upright)
    except Image.DecompressionBombError:
        raise PictureRefused("too large") from None
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        if isinstance(error, PictureRefused):
            raise
        raise PictureRefused("not a picture") from None
    if inked:
        flat = Image.merge(flat.mode, [_paper_white(band) for band in flat.split()])
    if trimmed:
        flat = flat.crop(_drawn(flat))
    flat.thumbnail((most, most))
    return Picture(flat.width, flat.height, flat.mode, flat.tobytes())


def _on_white(picture: Image.Image) -> Image.Image:
    """Transparent parts become white; a picture without colour becomes grey."""
    layered = picture.convert("RGBA")
    flat = Image.new("RGB", layered.size, "white")
    flat.paste(layered, mask=layered.getchannel("A"))
    red, green, blue = flat.split()
    return red if red.tobytes() == green.tobytes() == blue.tobytes() else flat


def _paper_white(band: Image.Image) -> Image.Image:
    """Most of a sheet is bare paper; one that is dark is left as it is."""
    paper = ImageStat.Stat(band).median[0]
    white = paper - SHADE if paper > 127 else 255
    return band.point([min(255, value * 255 // white) for value in range(256)])


def _drawn(picture: Image.Image) -> tuple[int, int, int, int]:
    """The part that is not white, from corner to corner; the whole picture where nothing is drawn."""
    grey = ImageChops.invert(picture.convert("L")).point(lambda dark: 255 if dark > ALMOST_WHITE else 0)
    return grey.getbbox() or (0, 0, picture.width, picture.height)
