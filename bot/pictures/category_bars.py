"""Below the week: each category's hours, planned in outline and spent filled, on one scale."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bot.pictures.canvas import EDGE, SMALLEST, WIDTH, Canvas, fitted, text_width
from bot.pictures.lettering import Weight
from bot.pictures.palette import Colour
from bot.pictures.views import CategoryShown
from bot.voice import picture_words as words

CATEGORY_ROW: Final = 42.0
BAR: Final = 8.0


def category_bars(canvas: Canvas, categories: tuple[CategoryShown, ...], fills: Mapping[str, Colour], top: float) -> None:
    """Draws a row for each category from ``top`` on, or says that there was nothing."""
    if not categories:
        canvas.text(EDGE, top + 20, words.NOTHING, 13)
        return
    longest = max((max(each.planned, each.spent, each.at_least or 0) for each in categories), default=0)
    for number, each in enumerate(categories):
        _row(canvas, each, fills[each.name], top + number * CATEGORY_ROW, longest)


def _row(canvas: Canvas, category: CategoryShown, colour: Colour, y: float, longest: int) -> None:
    """The name and the hours in words, and below them the spent bar in the planned one's outline."""
    palette = canvas.palette
    name = fitted(words.category_title(category.name), 110, 13, Weight.MEDIUM)
    canvas.fill(EDGE, y + 5, EDGE + 11, y + 16, colour)
    canvas.text(EDGE + 17, y + 15, name, 13, Weight.MEDIUM)
    said = ", ".join(
        part
        for part in (words.category_line(category.planned, category.spent), words.target_line(category.at_least, category.at_most))
        if part
    )
    left = EDGE + 17 + text_width(name, 13, Weight.MEDIUM) + 10
    canvas.text_to(WIDTH - EDGE, y + 15, fitted(said, WIDTH - EDGE - left, SMALLEST), SMALLEST, colour=palette.soft)
    room = WIDTH - 2 * EDGE
    bar = y + 22
    canvas.fill(EDGE, bar + BAR / 2 - 0.5, WIDTH - EDGE, bar + BAR / 2 + 0.5, palette.rule)
    if category.spent:
        canvas.fill(EDGE, bar, EDGE + room * category.spent / longest, bar + BAR, colour)
    if category.planned:
        canvas.outline(EDGE, bar - 2, EDGE + room * category.planned / longest, bar + BAR + 2, palette.ink, thick=1)
