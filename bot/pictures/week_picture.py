"""The week by hour and day: what was planned in outline, what was spent filled, one above the other; then each category's hours."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from bot.pictures.canvas import EDGE, SMALLEST, WIDTH, Canvas, fitted, text_width
from bot.pictures.category_bars import CATEGORY_ROW, category_bars
from bot.pictures.lanes import Placed, hours_shown, lanes_of, placed_on
from bot.pictures.lettering import Weight
from bot.pictures.palette import PALETTES, Colour, fills_for, ink_on, mixed
from bot.pictures.views import WeekView
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice import picture_words as words
from bot.voice.manners import Manners
from storage.records import Look

LEFT: Final = 64.0
HEAD: Final = 90.0
BAND: Final = 19.0
LANE: Final = 16.0
BETWEEN: Final = 2.0
ROW_GAP: Final = 11.0
LINE: Final = 15.0
PADDING: Final = 5.0
SNUG: Final = 9.5
"""Points that the letters in a box have where larger ones would leave words out."""

TINT: Final = 0.14
"""How much of a category's colour is in the ground of what was planned for it."""


@dataclass(frozen=True, slots=True)
class Row:
    """A day: what is placed on it, and how tall it is. Bands grow with what lies side by side in them."""

    day: date
    planned: tuple[Placed, ...]
    spent: tuple[Placed, ...]
    lines: tuple[str, ...] = ()

    @property
    def height(self) -> float:
        """Points from the top of this row to the next one's."""
        return _band(self.planned) + BETWEEN + _band(self.spent) + LINE * len(self.lines) + ROW_GAP


@dataclass(frozen=True, slots=True)
class Scale:
    """Where the hours of a day lie, from the hour ``first`` to the hour ``last``."""

    first: int
    last: int

    def at(self, minute: int) -> float:
        """The place of a minute after midnight."""
        return LEFT + (minute / 60 - self.first) / (self.last - self.first) * (WIDTH - EDGE - LEFT)

    def marked(self) -> range:
        """Every third hour, or every second of a short day."""
        step = 3 if self.last - self.first > 10 else 2
        return range(-(-self.first // step) * step, self.last + 1, step)

    def across(self, placed: Placed) -> tuple[float, float]:
        """Where the box of a piece starts and ends."""
        return self.at(placed.starts) + 0.4, self.at(placed.ends) - 0.4

    def label(self, placed: Placed) -> tuple[str, float]:
        """The label in the letters that fit the box, smaller ones if need be, or as many of its first words as do; else nothing."""
        left, right = self.across(placed)
        every = placed.piece.label.split()
        shorter = (" ".join(every[:count]) for count in range(len(every), 0, -1))
        tried = ((said, size) for said in shorter for size in (SMALLEST, SNUG))
        return next((each for each in tried if text_width(*each, Weight.MEDIUM) <= right - left - PADDING), ("", SMALLEST))


class WeekDrawing:
    """The canvas, the hours' scale, the categories' fills and the person's manners that every row is drawn with."""

    def __init__(self, canvas: Canvas, scale: Scale, fills: Mapping[str, Colour], manners: Manners) -> None:
        self._canvas = canvas
        self._scale = scale
        self._fills = fills
        self._manners = manners

    def hours(self, y: float) -> None:
        """The name of every hour that has a line, above the week."""
        for hour in self._scale.marked():
            self._mark(self._scale.at(60 * hour), y, words.hour_mark(hour, self._manners))

    def _lines(self, top: float, bottom: float) -> None:
        """Down a day's boxes, and not through the words below them."""
        for hour in self._scale.marked():
            self._canvas.line(self._scale.at(60 * hour), top, self._scale.at(60 * hour), bottom, self._canvas.palette.rule)

    def _mark(self, x: float, y: float, mark: str) -> None:
        """An hour above its line, a little beside it where it would not be whole at the picture's end."""
        whole = min(x, WIDTH - BETWEEN - text_width(mark, SMALLEST) / 2)
        self._canvas.text_around(whole, y, mark, SMALLEST, colour=self._canvas.palette.soft)

    def row(self, row: Row, y: float) -> None:
        """One day: its name, planned above, spent below, and in words what no box says."""
        canvas = self._canvas
        canvas.line(EDGE, y - ROW_GAP / 2, WIDTH - EDGE, y - ROW_GAP / 2, canvas.palette.rule)
        canvas.text(EDGE, y + 14, words.short_day(row.day), 14, Weight.MEDIUM)
        below = y + _band(row.planned) + BETWEEN
        self._lines(y - ROW_GAP / 2, below + _band(row.spent) + ROW_GAP / 2 - (PADDING if row.lines else 0))
        for each in row.planned:
            self._planned(each, y, _band(row.planned) / lanes_of(row.planned))
        for each in row.spent:
            self._spent(each, below, _band(row.spent) / lanes_of(row.spent))
        for number, line in enumerate(row.lines, 1):
            canvas.text(LEFT, below + _band(row.spent) + number * LINE - 2, line, SMALLEST, colour=canvas.palette.soft)

    def _planned(self, placed: Placed, y: float, lane: float) -> None:
        palette, colour = self._canvas.palette, self._colour(placed)
        box = self._box(placed, y, lane)
        self._canvas.fill(*box, mixed(palette.ground, colour, TINT))
        self._canvas.outline(*box, colour, thick=1.5)
        self._label(placed, box, palette.ink)

    def _spent(self, placed: Placed, y: float, lane: float) -> None:
        colour = self._colour(placed)
        box = self._box(placed, y, lane)
        self._canvas.fill(*box, colour)
        self._label(placed, box, ink_on(colour))

    def _box(self, placed: Placed, y: float, lane: float) -> tuple[float, float, float, float]:
        top, (left, right) = y + placed.lane * lane, self._scale.across(placed)
        return left, top, right, top + lane - 0.6

    def _label(self, placed: Placed, box: tuple[float, float, float, float], colour: Colour) -> None:
        x, y, _, to_y = box
        said, size = self._scale.label(placed)
        self._canvas.text(x + PADDING / 2, (y + to_y) / 2 + size / 3, said, size, Weight.MEDIUM, colour)

    def _colour(self, placed: Placed) -> Colour:
        return self._canvas.palette.ink if placed.piece.category is None else self._fills[placed.piece.category]


def week_picture(view: WeekView, manners: Manners, look: Look) -> bytes:
    """The picture as PNG, 1170 pixels wide."""
    bare = tuple(_row(view, view.first + timedelta(days=number)) for number in range(DAYS_A_WEEK))
    scale = _scale(view, bare)
    rows = tuple(replace(row, lines=_lines_below(row, view, scale, manners)) for row in bare)
    palette = PALETTES[look]
    fills = fills_for(((each.name, each.colour) for each in view.categories), palette)
    shown = tuple(each for each in view.categories if each.planned or each.spent or each.at_least is not None or each.at_most is not None)
    bottom = HEAD + sum(row.height for row in rows)
    canvas = Canvas(bottom + CATEGORY_ROW * max(1, len(shown)) + EDGE, palette)
    canvas.text(EDGE, 34, words.week_title(view.first, rows[-1].day, manners), 21, Weight.BOLD)
    canvas.text(EDGE, 54, words.PLANNED_AND_SPENT, 12, colour=palette.soft)
    _draw_week(WeekDrawing(canvas, scale, fills, manners), rows)
    category_bars(canvas, shown, fills, bottom)
    return canvas.png()


def _draw_week(drawing: WeekDrawing, rows: tuple[Row, ...]) -> None:
    y = HEAD
    drawing.hours(HEAD - ROW_GAP / 2 - 9)
    for row in rows:
        drawing.row(row, y)
        y += row.height


def _row(view: WeekView, day: date) -> Row:
    return Row(day, placed_on(day, view.planned, view.zone), placed_on(day, view.spent, view.zone))


def _lines_below(row: Row, view: WeekView, scale: Scale, manners: Manners) -> tuple[str, ...]:
    """What was planned in boxes too narrow for a word, and what has no times, in as many lines as they take."""
    unsaid = [(each.starts, each.piece.label) for each in row.planned if not scale.label(each)[0]]
    loose = [(each.category, each.minutes) for each in view.loose if each.day == row.day]
    return (*_in_lines(words.unsaid_words(unsaid, manners)), *_in_lines(words.loose_words(loose)))


def _in_lines(parts: list[str]) -> tuple[str, ...]:
    """The parts in lines that fit beside the days' names; a part that is too long by itself is cut."""
    room, lines = WIDTH - EDGE - LEFT, list[str]()
    for part in parts:
        if lines and text_width(f"{lines[-1]} {part}", SMALLEST) <= room:
            lines[-1] += f" {part}"
        else:
            lines.append(fitted(part, room, SMALLEST))
    return tuple(lines)


def _scale(view: WeekView, rows: tuple[Row, ...]) -> Scale:
    placed = [each for row in rows for each in (*row.planned, *row.spent)]
    return Scale(*hours_shown(placed, view.waking_start, view.waking_end))


def _band(placed: tuple[Placed, ...]) -> float:
    return max(BAND, LANE * lanes_of(placed))
