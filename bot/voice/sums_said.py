"""Hours added up: of a span, of a month, beside what was planned, wanted, usual and before."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from bot.rules.span_before import parted_by_year
from bot.voice.hours_said import as_noted
from bot.voice.manners import MONTHS, Manners, count_text, hours_text, month_text, title_text
from bot.voice.message import Message, Page
from bot.voice.replies import CategoryHours, HoursView, MonthView
from bot.voice.standing_said import bounds_words
from bot.voice.tasks_said import goal_words

MOST_ENTRIES = 12
"""Entries of a day that a message has room for."""
PARTS_A_LINE = 3
MOST_GOALS = 8


def hours_lines(hours: Sequence[CategoryHours]) -> list[str]:
    """One line a category, and one for all together where there are several."""
    lines = [_line(title_text(item.category), item) for item in hours]
    return [*lines, _line("Together", _together(hours))] if len(hours) > 1 else lines


def _line(name: str, item: CategoryHours) -> str:
    parts = [f"{name}: {hours_text(item.spent)}"]
    if item.before is not None:
        parts.append(_difference(item.spent, item.before))
    if item.planned:
        parts.append(f"planned {hours_text(item.planned)}")
    if item.usual:
        parts.append(f"usually {hours_text(item.usual)}")
    if item.at_least is not None or item.at_most is not None:
        parts.append(f"wanted {bounds_words(item.at_least, item.at_most)}")
    return ", ".join(parts)


def _together(hours: Sequence[CategoryHours]) -> CategoryHours:
    """All of them; what was planned stands beside each category alone."""
    before = [item.before for item in hours if item.before is not None]
    usual = [item.usual for item in hours if item.usual is not None]
    return CategoryHours(
        "together", sum(item.spent for item in hours), before=sum(before) if before else None, usual=sum(usual) if usual else None
    )


def _difference(spent: int, before: int) -> str:
    if spent == before:
        return "the same"
    if before == 0:
        return "none before"
    return f"{hours_text(abs(spent - before))} {'more' if spent > before else 'less'}"


def compared_line(before: tuple[date, date], manners: Manners) -> str:
    """What the hours above were compared with."""
    return f"Compared with {manners.stretch(*before)}."


def hours_view(reply: HoursView, manners: Manners) -> Message:
    """Hours of a span by category, beside those of the span before; of a long one by month or year, too."""
    page = Page()
    what = f"{title_text(reply.only)}, " if reply.only else "Hours, "
    page.heading(what + manners.stretch(reply.first, reply.last))
    some = any(item.spent or item.before for item in reply.hours)
    page.lines(hours_lines(reply.hours) if some else ["No hours logged."])
    if some and reply.before is not None:
        page.line(compared_line(reply.before, manners))
    if reply.entries:
        page.gap()
        page.lines([f"{title_text(name)}, {as_noted(stint, manners)}" for name, stint in reply.entries[:MOST_ENTRIES]])
    if reply.parts:
        page.gap()
        page.lines(_part_lines(reply))
    return page.message()


def _part_lines(reply: HoursView) -> list[str]:
    """Three months or years a line: "Jan: 120 h 30, Feb: 98 h, Mar: 110 h"."""
    by_year = parted_by_year(reply.first, reply.last)
    across = reply.first.year != reply.last.year
    words = []
    for begins, minutes in reply.parts:
        month = MONTHS[begins.month - 1]
        name = str(begins.year) if by_year else f"{month} {begins.year}" if across else month
        words.append(f"{name}: {hours_text(minutes)}")
    return [", ".join(words[at : at + PARTS_A_LINE]) for at in range(0, len(words), PARTS_A_LINE)]


def month_view(reply: MonthView, manners: Manners) -> Message:
    """A month's hours beside those before, pending goals and fullest days."""
    page = Page()
    page.heading(month_text(reply.month))
    page.lines(hours_lines(reply.hours) or ["No hours logged."])
    if reply.before is not None:
        page.line(compared_line(reply.before, manners))
    page.gap()
    page.line("Goals that wait" if reply.goals else "No goals wait for this month.")
    page.some([goal_words(goal) for goal in reply.goals], MOST_GOALS, "goals")
    if reply.busiest:
        page.gap()
        page.line("Fullest days: " + ", ".join(f"{manners.day(day)} ({count_text(n, 'commitment')})" for day, n in reply.busiest) + ".")
    return page.message()
