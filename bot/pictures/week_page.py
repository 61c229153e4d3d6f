"""The coming week on one printed page: what is fixed by day, and free lines to write on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from bot.pictures.lettering import Weight
from bot.pictures.paper import Paper, PaperSize, fitted
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice import picture_words as words
from bot.voice.manners import Manners
from storage.records import ClockStyle, Occurrence

MARGIN: Final = 42.0
HEAD: Final = 84.0
NOTES: Final = 130.0
"""Points at the foot of the page for goals and notes."""

FEWEST_LINES: Final = 3
ABOVE: Final = 0.4
GAP: Final = 0.7
"""Lines between two days, of which some are above the first line of a day."""

SMALLEST_LINE: Final = 12.0
DAY_WIDTH: Final = 84.0
FIXED_WIDTH: Final = 214.0
TIMES_WIDTH: Final = {ClockStyle.TWENTY_FOUR: 66.0, ClockStyle.TWELVE: 101.0}
GREY: Final = 0.4
FAINT: Final = 0.75


def week_page(
    first: date, occurrences: Sequence[Occurrence], manners: Manners, goals: Sequence[str] = (), size: PaperSize = PaperSize.A4
) -> bytes:
    """The page as PDF: the seven days from ``first`` on with their occurrences, and the titles of the week's open goals."""
    days = [first + timedelta(days=number) for number in range(DAYS_A_WEEK)]
    fixed = [sorted((each for each in occurrences if each.day == day), key=lambda each: (each.starts, each.ends)) for day in days]
    title = words.week_title(days[0], days[-1], manners)
    paper = Paper(size, title)
    paper.text(MARGIN, 62, title, 22, Weight.BOLD)
    room = paper.height - HEAD - NOTES
    lines = _lines([len(each) for each in fixed], room)
    line = room / (sum(lines) + GAP * DAYS_A_WEEK)
    y = HEAD
    for day, occurrences_of_day, count in zip(days, fixed, lines, strict=True):
        _day(paper, day, manners, _said(occurrences_of_day, count, manners), count, line, y)
        y += (count + GAP) * line
    _notes(paper, goals, y)
    return paper.content()


def _lines(counts: Sequence[int], room: float) -> list[int]:
    """How many lines each day has: three, or as many as it has commitments, unless the page cannot hold them all."""
    most = max(FEWEST_LINES, *counts)
    while most > FEWEST_LINES and sum(_clamped(count, most) + GAP for count in counts) * SMALLEST_LINE > room:
        most -= 1
    return [_clamped(count, most) for count in counts]


def _clamped(count: int, most: int) -> int:
    return max(FEWEST_LINES, min(count, most))


def _said(occurrences: Sequence[Occurrence], lines: int, manners: Manners) -> list[tuple[str, str]]:
    """When and what, a pair a line; where there are too many the last says how many more there are."""
    said = [("" if each.commitment.all_day else manners.span(each.starts, each.ends), each.commitment.title) for each in occurrences]
    if len(said) <= lines:
        return said
    return [*said[: lines - 1], ("", words.more_line(len(said) - lines + 1))]


def _day(paper: Paper, day: date, manners: Manners, said: list[tuple[str, str]], lines: int, line: float, y: float) -> None:
    """The day's name at the left, what is fixed beside it, lines to write on at the right."""
    right = paper.width - MARGIN
    size = min(10.5, line * 0.75)
    name_foot = y + (ABOVE + 0.7) * line
    paper.line(MARGIN, y, right, thick=0.8)
    paper.text(MARGIN, name_foot, words.weekday(day), 12, Weight.BOLD)
    paper.text(MARGIN, name_foot + 14, words.day_and_month(day, manners), 10, grey=GREY)
    write_from = MARGIN + DAY_WIDTH + FIXED_WIDTH
    for number in range(lines):
        foot = y + (ABOVE + number + 1) * line
        paper.line(write_from, foot, right, grey=FAINT)
        if number < len(said):
            times, title = said[number]
            left = MARGIN + DAY_WIDTH + (TIMES_WIDTH[manners.clock_style] if times else 0)
            paper.text(MARGIN + DAY_WIDTH, foot - 0.3 * line, times, size, grey=GREY)
            paper.text(left, foot - 0.3 * line, fitted(title, write_from - left - 8, size), size)


def _notes(paper: Paper, goals: Sequence[str], y: float) -> None:
    """The week's goals, and more lines; a goal stands on its line."""
    right, line = paper.width - MARGIN, 20.0
    paper.line(MARGIN, y, right, thick=0.8)
    paper.text(MARGIN, y + 16, words.TO_WRITE_ON, 12, Weight.BOLD)
    count = int((NOTES - 50) / line)
    middle = MARGIN + (right - MARGIN) / 2
    for number in range(2 * count):
        left, end = (MARGIN, middle - 8) if number < count else (middle + 8, right)
        foot = y + 22 + (number % count + 1) * line
        paper.line(left, foot, end, grey=FAINT)
        if number < len(goals):
            more = number == 2 * count - 1 and len(goals) > 2 * count
            said = words.more_line(len(goals) - number) if more else goals[number]
            paper.text(left, foot - 5, fitted(said, end - left, 10), 10)
