"""Colours that people with every kind of colour vision can tell apart, on light and on dark ground."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import dist
from typing import Final

from PIL import ImageColor

from storage.records import Look

Colour = tuple[int, int, int]
"""Red, green and blue of sRGB, 0 to 255."""


@dataclass(frozen=True, slots=True)
class Palette:
    """``ground`` is what is drawn on, ``ink`` and ``soft`` are for text, ``rule`` for lines, ``fills`` for categories."""

    ground: Colour
    ink: Colour
    soft: Colour
    rule: Colour
    fills: tuple[Colour, ...]


INKS: Final[tuple[Colour, Colour]] = ((20, 22, 26), (255, 255, 255))
"""What text on a fill is set in: whichever of the two stands out more."""

PALETTES: Final = {
    Look.LIGHT: Palette(
        ground=(250, 250, 247),
        ink=(20, 22, 26),
        soft=(88, 92, 99),
        rule=(214, 214, 209),
        fills=(
            (224, 102, 10), (25, 99, 171), (118, 153, 111), (100, 43, 86), (57, 87, 0), (162, 118, 255), (78, 146, 156), (103, 100, 94),
        ),
    ),
    Look.DARK: Palette(
        ground=(24, 26, 30),
        ink=(240, 240, 236),
        soft=(168, 172, 180),
        rule=(58, 62, 70),
        fills=(
            (255, 213, 55), (39, 166, 255), (76, 198, 142), (166, 80, 99), (134, 145, 0), (69, 101, 190), (104, 233, 246), (143, 142, 158),
        ),
    ),
}  # fmt: skip
"""The fills were found by a search that spread eight colours in CIEDE2000 for ordinary sight, deuteranopia and protanopia."""


def fills_for(categories: Iterable[tuple[str, str]], palette: Palette) -> Mapping[str, Colour]:
    """A fill for each category, given as its name and its CSS colour: of those not taken yet, the one nearest to its colour in both looks.

    Given all of a person's categories, oldest first, each keeps its fill from picture to picture, and its place among the fills
    in either look. Beyond eight categories fills are used again, and their labels tell them apart.
    """
    places: dict[str, int] = {}
    left: list[int] = []
    for name, colour in categories:
        left = left or list(range(len(palette.fills)))
        red, green, blue = ImageColor.getrgb(colour)[:3]
        wanted = _hue((red, green, blue))
        places[name] = min(left, key=lambda place: sum(dist(_hue(look.fills[place]), wanted) for look in PALETTES.values()))
        left.remove(places[name])
    return {name: palette.fills[place] for name, place in places.items()}


def ink_on(fill: Colour) -> Colour:
    """What text on ``fill`` is set in."""
    return max(INKS, key=lambda ink: contrast(ink, fill))


def mixed(ground: Colour, colour: Colour, share: float) -> Colour:
    """``ground`` with a share, 0 to 1, of ``colour`` in it."""
    red, green, blue = (round(one + (other - one) * share) for one, other in zip(ground, colour, strict=True))
    return red, green, blue


def contrast(one: Colour, other: Colour) -> float:
    """The contrast ratio of two colours, from 1 to 21. Source: WCAG 2.2, "contrast ratio"."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: Colour) -> float:
    """Relative luminance, from 0 to 1. Source: WCAG 2.2, "relative luminance"."""
    red, green, blue = (linear(part) for part in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def linear(part: int) -> float:
    """An sRGB part, 0 to 255, as a share of light, 0 to 1. Source: IEC 61966-2-1."""
    share = part / 255
    return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)


def lab(colour: Colour) -> tuple[float, float, float]:
    """Lightness from 0 to 100, and how red and how yellow, in CIELAB for the white of sRGB (D65). Source: CIE 15, IEC 61966-2-1."""
    red, green, blue = (linear(part) for part in colour)
    x = _root((0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047)
    y = _root(0.2126729 * red + 0.7151522 * green + 0.0721750 * blue)
    z = _root((0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _hue(colour: Colour) -> tuple[float, float, float]:
    """Where a colour lies for who looks for its like: what kind of colour it is counts more than how light it is."""
    lightness, red, yellow = lab(colour)
    return lightness / 4, red, yellow


def _root(share: float) -> float:
    return float(share ** (1 / 3)) if share > 216 / 24389 else (24389 / 27 * share + 16) / 116
