"""Hours by category over weeks: a strip of bars for each category, all on one scale."""

from __future__ import annotations

import math
from datetime import timedelta
from typing import Final

from bot.pictures.canvas import EDGE, SMALLEST, WIDTH, Canvas, fitted
from bot.pictures.lettering import Weight
from bot.pictures.palette import PALETTES, Colour, fills_for
from bot.pictures.views import CategoryWeeks, HoursView
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice import picture_words as words
from bot.voice.manners import Manners
from storage.records import Look

HEAD: Final = 72.0
TALLEST: Final = 64.0
NAME_ROW: Final = 24.0
FIGURE_ROW: Final = 16.0
STRIP_GAP: Final = 16.0
FOOT: Final = 24.0
WIDEST: Final = 56.0
FIGURE_ROOM: Final = 30.0
DAY_ROOM: Final = 42.0
"""Points that a bar's figure and a week's first day need in width."""


def hours_picture(view: HoursView, manners: Manners, look: Look) -> bytes:
    """The picture as PNG, 1170 pixels wide. ``view`` has at least one week."""
    palette = PALETTES[look]
    fills = fills_for(view.colours, palette)
    highest = max((_highest(each) for each in view.categories), default=0)
    strips = view.categories if highest else ()
    bars = [TALLEST * _highest(each) / highest for each in strips]
    canvas = Canvas(HEAD + sum(bars) + len(strips) * (NAME_ROW + FIGURE_ROW + STRIP_GAP) + FOOT, palette)
    _head(canvas, view, manners)
    y = HEAD
    for each, height in zip(strips, bars, strict=True):
        _strip(canvas, each, fills[each.name], y + NAME_ROW + height, TALLEST / highest)
        y += NAME_ROW + height + FIGURE_ROW + STRIP_GAP
    if strips:
        _weeks(canvas, view, manners, y)
    return canvas.png()


def _head(canvas: Canvas, view: HoursView, manners: Manners) -> None:
    last = view.weeks[-1] + timedelta(days=DAYS_A_WEEK - 1)
    canvas.text(EDGE, 34, words.HOURS_BY_WEEK, 21, Weight.BOLD)
    canvas.text(EDGE, 54, manners.days(view.weeks[0], last), 12, colour=canvas.palette.soft)
    if not any(_highest(each) for each in view.categories):
        canvas.text(EDGE, HEAD + 8, words.NO_HOURS, 13)


def _strip(canvas: Canvas, category: CategoryWeeks, colour: Colour, foot: float, a_minute: float) -> None:
    """The category's name and target, its bars on the line at ``foot``, each ``a_minute`` points high a minute, and their figures below."""
    palette, top = canvas.palette, foot - _highest(category) * a_minute - NAME_ROW
    canvas.fill(EDGE, top, EDGE + 11, top + 11, colour)
    canvas.text(EDGE + 17, top + 10, fitted(words.category_title(category.name), 180, 13, Weight.MEDIUM), 13, Weight.MEDIUM)
    canvas.text_to(WIDTH - EDGE, top + 10, words.target_line(category.at_least, category.at_most), SMALLEST, colour=palette.soft)
    slot = _slot(len(category.minutes))
    for number, minutes in enumerate(category.minutes):
        middle = EDGE + (number + 0.5) * slot
        if minutes:
            half = min(0.36 * slot, WIDEST / 2)
            canvas.fill(middle - half, foot - minutes * a_minute, middle + half, foot, colour)
        if _has_figure(category, number):
            figure = words.bar_figure(minutes, room=slot >= WIDEST)
            canvas.text_around(min(middle, WIDTH - EDGE - FIGURE_ROOM / 2), foot + 13, figure, SMALLEST)
    for target in (category.at_least, category.at_most):
        if target:
            canvas.line(EDGE, foot - target * a_minute, WIDTH - EDGE, foot - target * a_minute, palette.ink, thick=1)
    canvas.line(EDGE, foot, WIDTH - EDGE, foot, palette.rule)


def _has_figure(category: CategoryWeeks, number: int) -> bool:
    """Every week where there is room; else only the latest."""
    return _slot(len(category.minutes)) >= FIGURE_ROOM or number == len(category.minutes) - 1


def _highest(category: CategoryWeeks) -> int:
    return max(*category.minutes, category.at_least or 0, category.at_most or 0)


def _weeks(canvas: Canvas, view: HoursView, manners: Manners, y: float) -> None:
    """Below the bars, the first day of as many weeks as there is room for, the latest always."""
    slot = _slot(len(view.weeks))
    every = math.ceil(DAY_ROOM / slot)
    for number, week in enumerate(view.weeks):
        if (len(view.weeks) - 1 - number) % every == 0:
            at = min(EDGE + (number + 0.5) * slot, WIDTH - EDGE - DAY_ROOM / 2)
            canvas.text_around(at, y + 4, words.day_and_month(week, manners), SMALLEST, colour=canvas.palette.soft)


def _slot(count: int) -> float:
    return (WIDTH - 2 * EDGE) / count
