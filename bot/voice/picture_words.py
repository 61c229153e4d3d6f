"""What pictures and the printed week say."""

from __future__ import annotations

from datetime import date, time
from typing import Final

from bot.voice.manners import DAYS, LONG_DAYS, MONTHS, Manners, hours_text, title_text
from bot.voice.times_of_day import brief_time
from storage.records import ClockStyle, DateOrder

PLANNED_AND_SPENT: Final = "Planned above, in outline. Spent below, filled."
NOTHING: Final = "Nothing was planned and nothing noted."
HOURS_BY_WEEK: Final = "Hours by week"
NO_HOURS: Final = "No hours were noted in these weeks."
NOT_MADE: Final = "The file could not be made. Ask for it once more."
TOO_LARGE: Final = "It is too large for a chat: whoever runs me can write it to a folder with the command export."
HOURS_A_DAY: Final = 24
TO_WRITE_ON: Final = "Goals and notes"


def week_title(first: date, last: date, manners: Manners) -> str:
    """ "2–8 March"."""
    return manners.days(first, last)


def short_day(day: date) -> str:
    """ "Mon 2"."""
    return f"{DAYS[day.weekday()]} {day.day}"


def day_and_month(day: date, manners: Manners) -> str:
    """ "2 Mar", or "Mar 2"."""
    month = MONTHS[day.month - 1]
    return f"{day.day} {month}" if manners.date_order is DateOrder.DAY_MONTH else f"{month} {day.day}"


def weekday(day: date) -> str:
    """ "Monday"."""
    return LONG_DAYS[day.weekday()]


def bar_figure(minutes: int, *, room: bool) -> str:
    """Minutes below a bar: "12 h 30" where there is room for it, else as short as they go: "12:30"."""
    return hours_text(minutes) if room else f"{minutes // 60}:{minutes % 60:02d}"


def loose_words(hours: list[tuple[str, int]]) -> list[str]:
    """ "Without times:", "learning 1 h 30,", "family 45 min": the parts between which a line may end."""
    if not hours:
        return []
    said = [f"{name} {hours_text(minutes)}" for name, minutes in hours]
    return ["Without times:", *(f"{each}," for each in said[:-1]), said[-1]]


def hour_mark(hour: int, manners: Manners) -> str:
    """An hour on the scale of the week: "15", or "3 pm"; "3" for three hours past the day's end."""
    of_day = hour if hour <= HOURS_A_DAY else hour - HOURS_A_DAY
    return str(of_day) if manners.clock_style is ClockStyle.TWENTY_FOUR else brief_time(time(of_day % HOURS_A_DAY), manners.clock_style)


def _began(minute: int, manners: Manners) -> str:
    """ "9:30", or "9:30 am"."""
    if manners.clock_style is ClockStyle.TWENTY_FOUR:
        return f"{minute // 60}:{minute % 60:02d}"
    return brief_time(time(*divmod(minute, 60)), manners.clock_style)


def unsaid_words(planned: list[tuple[int, str]], manners: Manners) -> list[str]:
    """ "Also planned:", "9:30 dentist,", "17:30 neighbours": minutes after midnight and titles, parted where a line may end."""
    if not planned:
        return []
    said = [f"{_began(minute, manners)} {title}" for minute, title in planned]
    return ["Also planned:", *(f"{each}," for each in said[:-1]), said[-1]]


def category_line(planned: int, spent: int) -> str:
    """ "12 h 30 spent, 14 h planned"."""
    parts = [f"{hours_text(spent)} spent"]
    if planned:
        parts.append(f"{hours_text(planned)} planned")
    return ", ".join(parts)


def target_line(at_least: int | None, at_most: int | None) -> str:
    """ "at least 10 h wanted", "at most 5 h wanted", "10 h to 12 h wanted", or nothing."""
    if at_least is not None and at_most is not None:
        return f"{hours_text(at_least)} to {hours_text(at_most)} wanted"
    if at_least is not None:
        return f"at least {hours_text(at_least)} wanted"
    return "" if at_most is None else f"at most {hours_text(at_most)} wanted"


def category_title(name: str) -> str:
    """A category's name as a title."""
    return title_text(name)


def more_line(count: int) -> str:
    """ "and 3 more"."""
    return f"and {count} more"
