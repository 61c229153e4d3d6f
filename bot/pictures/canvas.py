"""A picture under construction, measured in points of a phone that is 390 of them wide; each point is three pixels."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from typing import Final

from PIL import Image, ImageDraw, ImageFont

from bot.pictures.lettering import Weight, font_file, lettered
from bot.pictures.palette import Colour, Palette

WIDTH: Final = 390.0
SCALE: Final = 3
EDGE: Final = 14.0
ROUNDED_BY: Final = 3.0
SMALLEST: Final = 11.0
"""Points that letters have at least, so that they can be read on a phone."""


class Canvas:
    """``y`` grows downwards, and text stands on it."""

    def __init__(self, height: float, palette: Palette) -> None:
        self.palette = palette
        self._image = Image.new("RGB", (round(WIDTH * SCALE), round(height * SCALE)), palette.ground)
        self._draw = ImageDraw.Draw(self._image)

    def text(self, x: float, y: float, text: str, size: float = 12, weight: Weight = Weight.REGULAR, colour: Colour | None = None) -> None:
        """Text from ``x`` on, in ink unless another colour is given."""
        self._draw.text((x * SCALE, y * SCALE), lettered(text), colour or self.palette.ink, _font(size, weight), "ls")

    def text_to(
        self, x: float, y: float, text: str, size: float = 12, weight: Weight = Weight.REGULAR, colour: Colour | None = None
    ) -> None:
        """Text that ends at ``x``."""
        self._draw.text((x * SCALE, y * SCALE), lettered(text), colour or self.palette.ink, _font(size, weight), "rs")

    def text_around(self, x: float, y: float, text: str, size: float, colour: Colour | None = None) -> None:
        """Text whose middle is at ``x``."""
        self._draw.text((x * SCALE, y * SCALE), lettered(text), colour or self.palette.ink, _font(size, Weight.REGULAR), "ms")

    def fill(self, x: float, y: float, to_x: float, to_y: float, colour: Colour) -> None:
        """A filled box."""
        self._draw.rounded_rectangle(self._box(x, y, to_x, to_y), self._corner(x, y, to_x, to_y), colour)

    def outline(self, x: float, y: float, to_x: float, to_y: float, colour: Colour, *, thick: float) -> None:
        """The outline of a box, inside its edges."""
        box, corner = self._box(x, y, to_x, to_y), self._corner(x, y, to_x, to_y)
        self._draw.rounded_rectangle(box, corner, outline=colour, width=round(thick * SCALE))

    def line(self, x: float, y: float, to_x: float, to_y: float, colour: Colour, *, thick: float = 0.7) -> None:
        """A straight line."""
        self._draw.line((x * SCALE, y * SCALE, to_x * SCALE, to_y * SCALE), colour, round(thick * SCALE))

    def png(self) -> bytes:
        """The file."""
        made = BytesIO()
        self._image.save(made, "PNG")
        return made.getvalue()

    @staticmethod
    def _box(x: float, y: float, to_x: float, to_y: float) -> tuple[int, int, int, int]:
        return round(x * SCALE), round(y * SCALE), max(round(x * SCALE), round(to_x * SCALE) - 1), round(to_y * SCALE) - 1

    @staticmethod
    def _corner(x: float, y: float, to_x: float, to_y: float) -> float:
        return min(ROUNDED_BY, (to_x - x) / 2, (to_y - y) / 2) * SCALE


def text_width(text: str, size: float = 12, weight: Weight = Weight.REGULAR) -> float:
    """How wide the text is, in points."""
    return _font(size, weight).getlength(lettered(text)) / SCALE


def fitted(text: str, width: float, size: float = 12, weight: Weight = Weight.REGULAR) -> str:
    """The text, cut so that it and three dots fit ``width`` points."""
    text = lettered(text)
    if text_width(text, size, weight) <= width:
        return text
    while text and text_width(text + "…", size, weight) > width:
        text = text[:-1]
    return text.rstrip(" ,") + "…"


@cache
def _font(size: float, weight: Weight) -> ImageFont.FreeTypeFont:
    # The other layout depends on a library that some machines have; the letters that there are do not need it.
    return ImageFont.truetype(font_file(weight), size * SCALE, layout_engine=ImageFont.Layout.BASIC)
