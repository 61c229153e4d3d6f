"""What may be chosen from: enums, in the words that are kept."""

from __future__ import annotations

from enum import IntEnum, StrEnum


class Weekday(IntEnum):
    """A day of the week, numbered as ``date.weekday()`` numbers it."""

    MONDAY = 0
    TUESDAY = 1
    WEDNESDAY = 2
    THURSDAY = 3
    FRIDAY = 4
    SATURDAY = 5
    SUNDAY = 6


class DateOrder(StrEnum):
    """How the person writes 2/3: the 2nd of March, or the 3rd of February."""

    DAY_MONTH = "day-month"
    MONTH_DAY = "month-day"


class ClockStyle(StrEnum):
    """How the person writes two hours after noon: 14:00, or 2:00 pm."""

    TWENTY_FOUR = "24-hour"
    TWELVE = "12-hour"


class Look(StrEnum):
    """Whether the chat that pictures are shown in is light or dark."""

    LIGHT = "light"
    DARK = "dark"


class DecimalMark(StrEnum):
    """How the person writes fourteen and a half: 14.5, or 14,5."""

    POINT = "point"
    COMMA = "comma"


class PayPeriod(StrEnum):
    """How often a job is paid."""

    WEEKLY = "weekly"
    EVERY_TWO_WEEKS = "every two weeks"
    TWICE_A_MONTH = "twice a month"
    FOUR_WEEKLY = "four-weekly"
    MONTHLY = "monthly"


class RoundingStep(IntEnum):
    """What times or hours are rounded to, in minutes. Source: 29 CFR 785.48(b) allows these three."""

    FIVE_MINUTES = 5
    TENTH_HOUR = 6
    QUARTER_HOUR = 15


class Rounded(StrEnum):
    """What is rounded: the start and the end of each stint, or the day's hours together."""

    PUNCHES = "each punch"
    DAYS = "each day"


class Horizon(StrEnum):
    """What a goal is wanted for."""

    WEEK = "week"
    MONTH = "month"


class GoalState(StrEnum):
    OPEN = "open"
    MET = "met"
    CARRIED = "carried"
    DROPPED = "dropped"


class TaskState(StrEnum):
    OPEN = "open"
    CLOSED = "closed"
    DROPPED = "dropped"


class RoundKind(StrEnum):
    """What falls due by itself."""

    MORNING = "morning"
    EVENING = "evening"
    RECAP = "recap"
    MONTH = "month"
    FORECAST = "forecast"
    PLACE = "place"
    SUBSCRIBE = "subscribe"
    CALENDARS = "calendars"
    READING = "reading"
    PAYDAY = "payday"


class RoundState(StrEnum):
    WAITING = "waiting"
    DONE = "done"
    MISSED = "missed"
    KEPT_QUIET = "kept quiet"


class ParcelKind(StrEnum):
    """How an owed message is to be carried."""

    MESSAGE = "message"
    EDIT = "edit"
    FILE = "file"


class ParcelState(StrEnum):
    OWED = "owed"
    SENT = "sent"
    ASIDE = "aside"


class Author(StrEnum):
    """Who made a journal entry: the person, or a round by itself."""

    PERSON = "person"
    ROUND = "round"


class Step(StrEnum):
    """Where the first conversation stands; DONE once it is over or skipped."""

    NEW = "new"
    PLACE = "place"
    WAKING = "waking"
    CATEGORIES = "categories"
    JOBS = "jobs"
    TIMES = "times"
    DONE = "done"
