"""How colours look to people who see them differently, and how far apart they then are."""

from __future__ import annotations

from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt
from typing import Final

from bot.pictures.palette import Colour, lab, linear

Lab = tuple[float, float, float]
Matrix = tuple[tuple[float, float, float], ...]

DEUTERANOPIA: Final[Matrix] = ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881))
PROTANOPIA: Final[Matrix] = ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998))
"""For linear sRGB, severity 1.0. Source: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of
Color Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15(6), 2009, table 1."""


def as_seen(colour: Colour, vision: Matrix) -> Colour:
    """The colour that someone with ordinary sight would see."""
    parts = [linear(part) for part in colour]
    red, green, blue = (_encoded(sum(share * part for share, part in zip(row, parts, strict=True))) for row in vision)
    return red, green, blue


def difference(one: Colour, other: Colour) -> float:
    """CIEDE2000 between two sRGB colours; 1 is about the least that can be seen side by side."""
    return ciede2000(lab(one), lab(other))


def ciede2000(one: Lab, other: Lab) -> float:
    """Source: Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula", Color Research and Application 30(1), 2005."""
    pale = (hypot(*one[1:]) + hypot(*other[1:])) / 2
    stretch = 1.5 - 0.5 * sqrt(pale**7 / (pale**7 + 25**7))
    (light, chroma, hue), (light_too, chroma_too, hue_too) = (_polar(each, stretch) for each in (one, other))
    turn = 0.0 if chroma * chroma_too == 0 else (hue_too - hue + 180) % 360 - 180
    by_hue = 2 * sqrt(chroma * chroma_too) * sin(radians(turn / 2))
    mean_light, mean_chroma = (light + light_too) / 2, (chroma + chroma_too) / 2
    mean_hue = hue + hue_too if chroma * chroma_too == 0 else (hue + turn / 2) % 360
    waves = ((-0.17, 1, -30), (0.24, 2, 0), (0.32, 3, 6), (-0.20, 4, -63))
    tone = 1 + sum(size * cos(radians(times * mean_hue + shift)) for size, times, shift in waves)
    weigh_light = 1 + 0.015 * (mean_light - 50) ** 2 / sqrt(20 + (mean_light - 50) ** 2)
    weigh_chroma, weigh_hue = 1 + 0.045 * mean_chroma, 1 + 0.015 * mean_chroma * tone
    twist = -2 * sqrt(mean_chroma**7 / (mean_chroma**7 + 25**7)) * sin(radians(60 * exp(-(((mean_hue - 275) / 25) ** 2))))
    l, c, h = (light_too - light) / weigh_light, (chroma_too - chroma) / weigh_chroma, by_hue / weigh_hue  # noqa: E741
    return sqrt(l * l + c * c + h * h + twist * c * h)


def _polar(colour: Lab, stretch: float) -> tuple[float, float, float]:
    red = colour[1] * stretch
    return colour[0], hypot(red, colour[2]), degrees(atan2(colour[2], red)) % 360


def _encoded(share: float) -> int:
    share = min(1.0, max(0.0, share))
    return round(255 * (12.92 * share if share <= 0.0031308 else 1.055 * share ** (1 / 2.4) - 0.055))
