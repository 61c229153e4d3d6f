"""What pictures and printed pages are lettered in: Roboto, which has the letters of Latin, Greek and Cyrillic.

It comes with the program, under the Apache License 2.0 (letters/LICENSE.txt): the font inside Pillow has English letters only,
the one inside reportlab those of Western Europe, and matplotlib's would bring along ten times what the program weighs.
"""

from __future__ import annotations

from enum import StrEnum
from functools import cache, lru_cache
from importlib.resources import files
from unicodedata import normalize


class Weight(StrEnum):
    """How heavy the letters are."""

    REGULAR = "Regular"
    MEDIUM = "Medium"
    BOLD = "Bold"


UNKNOWN = "…"
"""Stands for a text of which no letter is there."""


def font_file(weight: Weight) -> str:
    """Where the TrueType file of that weight is."""
    return str(files("bot.pictures").joinpath("letters", f"Roboto-{weight}.ttf"))


@lru_cache(maxsize=4096)
def lettered(text: str) -> str:
    """The text in one line, without what the letters lack, such as pictures of faces: better left out than drawn as boxes."""
    known = "".join(letter for letter in " ".join(normalize("NFC", text).split()) if ord(letter) in _letters())
    left = " ".join(known.split())
    return left if left or not text.strip() else UNKNOWN


@cache
def _letters() -> frozenset[int]:
    """The code points of the letters that there are; the same in every weight."""
    from reportlab.pdfbase.ttfonts import TTFontFile

    return frozenset(TTFontFile(font_file(Weight.REGULAR)).charToGlyph)
