"""What pictures and printed pages are lettered in: Bitstream Vera, which reportlab brings along; it has the letters of Western Europe."""

from __future__ import annotations

from enum import StrEnum
from importlib.resources import files


class Weight(StrEnum):
    """How heavy the letters are."""

    REGULAR = "Regular"
    MEDIUM = "Medium"
    BOLD = "Bold"


FILES = {Weight.REGULAR: "Vera.ttf", Weight.MEDIUM: "VeraBd.ttf", Weight.BOLD: "VeraBd.ttf"}


def font_file(weight: Weight) -> str:
    """Where the TrueType file of that weight is."""
    return str(files("reportlab").joinpath("fonts", FILES[weight]))
