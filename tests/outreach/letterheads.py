"""Letterhead pictures as schools have them, drawn in memory: every shape that has to fit."""

from __future__ import annotations

from importlib.resources import files
from io import BytesIO

from PIL import Image, ImageDraw, ImageFont


def drawn(size: tuple[int, int], ground: str = "white", mode: str = "RGB") -> tuple[Image.Image, ImageDraw.ImageDraw]:
    picture = Image.new(mode, size, ground)
    return picture, ImageDraw.Draw(picture)


def png(picture: Image.Image) -> bytes:
    file = BytesIO()
    picture.save(file, "PNG")
    return file.getvalue()


def face(size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(BytesIO((files("fontpkg_lato") / "files" / "Lato-Bold.ttf").read_bytes()), size)


def wheel(size: int = 500, ink: str = "#1d3f72") -> Image.Image:
    """A mill wheel over water, with a wide empty margin."""
    picture, pen = drawn((size, size))
    edge = size // 5
    pen.ellipse((edge, edge, size - edge, size - edge), outline=ink, width=size // 25)
    for spoke in range(0, 360, 45):
        pen.pieslice((edge, edge, size - edge, size - edge), spoke, spoke + 6, fill=ink)
    pen.line((edge, size - edge, size - edge, size - edge), fill=ink, width=size // 30)
    return picture


def banner() -> Image.Image:
    """Name and address in one picture, six times as wide as high."""
    picture, pen = drawn((1800, 300))
    picture.paste(wheel(300), (0, 0))
    pen.text((320, 60), "Millrace Elementary", font=face(90), fill="#1d3f72")
    pen.text((320, 180), "12 Mill Street · Alder Falls, OR 97000 · 555-0110", font=face(48), fill="black")
    return picture


def see_through() -> Image.Image:
    """A sign on nothing at all, as it comes from a web page."""
    picture, pen = drawn((600, 400), "#00000000", "RGBA")
    pen.polygon([(300, 40), (560, 360), (40, 360)], fill="#7a1f1fff")
    return picture


def hand(ink: str = "#14213d", paper: str = "#fbfaf7") -> Image.Image:
    """A name written by hand on white paper."""
    picture, pen = drawn((900, 300), paper)
    strokes = [
        (120, 190),
        (170, 90),
        (200, 220),
        (260, 130),
        (330, 210),
        (400, 120),
        (470, 200),
        (620, 150),
        (760, 170),
    ]
    pen.line(strokes, fill=ink, width=9, joint="curve")
    return picture


SHAPES = {
    "wheel": wheel(),
    "see-through": see_through(),
    "ribbon": drawn((2000, 60), "#224466")[0],
    "tower": drawn((80, 1600), "#335533")[0],
    "tiny": wheel(24),
    "banner": banner(),
}
