"""A printed page under construction: text, lines and boxes at places measured in points from the top left."""

from __future__ import annotations

from enum import Enum
from io import BytesIO

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from bot.pictures.lettering import Weight, font_file, lettered


class PaperSize(Enum):
    """Width and height in points."""

    A4 = A4
    LETTER = LETTER


class Paper:
    """One page. ``y`` grows downwards, and text stands on it. The same marks give the same bytes at any time."""

    def __init__(self, size: PaperSize, title: str) -> None:
        self.width, self.height = size.value
        self._made = BytesIO()
        self._canvas = Canvas(self._made, pagesize=size.value, invariant=1)
        self._canvas.setTitle(title)
        self._canvas.setAuthor("Weekwright")
        for weight in Weight:
            if _name(weight) not in pdfmetrics.getRegisteredFontNames():
                pdfmetrics.registerFont(TTFont(_name(weight), font_file(weight)))

    def text(self, x: float, y: float, text: str, size: float = 9, weight: Weight = Weight.REGULAR, *, grey: float = 0) -> None:
        """Text from ``x`` on. ``grey`` is 0 for black, up to 1 for white."""
        self._set(size, weight, grey)
        self._canvas.drawString(x, self.height - y, lettered(text))

    def text_to(self, x: float, y: float, text: str, size: float = 9, weight: Weight = Weight.REGULAR) -> None:
        """Text that ends at ``x``."""
        self._set(size, weight, grey=0)
        self._canvas.drawRightString(x, self.height - y, lettered(text))

    def line(self, x: float, y: float, to_x: float, *, grey: float = 0, thick: float = 0.5) -> None:
        """A level line."""
        self._canvas.setLineWidth(thick)
        self._canvas.setStrokeGray(grey)
        self._canvas.line(x, self.height - y, to_x, self.height - y)

    def shade(self, x: float, y: float, width: float, height: float, *, grey: float) -> None:
        """A filled box below and right of its corner."""
        self._canvas.setFillGray(grey)
        self._canvas.rect(x, self.height - y - height, width, height, stroke=0, fill=1)

    def content(self) -> bytes:
        """The file."""
        self._canvas.showPage()
        self._canvas.save()
        return self._made.getvalue()

    def _set(self, size: float, weight: Weight, grey: float) -> None:
        self._canvas.setFont(_name(weight), size)
        self._canvas.setFillGray(grey)


def text_width(text: str, size: float, weight: Weight = Weight.REGULAR) -> float:
    """How wide the text is, in points. A font must have been registered by a page."""
    return pdfmetrics.stringWidth(lettered(text), _name(weight), size)


def fitted(text: str, width: float, size: float, weight: Weight = Weight.REGULAR) -> str:
    """The text, cut so that it and three dots fit ``width`` points."""
    text = lettered(text)
    if text_width(text, size, weight) <= width:
        return text
    while text and text_width(text + "…", size, weight) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def wrapped(text: str, width: float, size: float) -> list[str]:
    """The text in lines that fit ``width`` points, broken between words."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, size) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _name(weight: Weight) -> str:
    return f"weekwright-{weight}"
