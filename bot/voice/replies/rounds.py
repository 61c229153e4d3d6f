"""The three messages that come unasked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from bot.voice.replies.reply import Reply
from bot.voice.replies.views import CategoryHours, DayView, WeekView
from storage.records import Goal, Occurrence, Task


@dataclass(frozen=True, slots=True)
class MorningMessage(Reply):
    """``rolled`` are titles of tasks that came over by themselves, ``carried`` of goals."""

    view: DayView
    rolled: tuple[str, ...] = ()
    carried: tuple[str, ...] = ()
    late: bool = False


@dataclass(frozen=True, slots=True)
class EveningNudge(Reply):
    day: date
    tasks: tuple[Task, ...]
    unlogged: tuple[tuple[str, Occurrence], ...]
    late: bool = False


@dataclass(frozen=True, slots=True)
class Recap(Reply):
    first: date
    last: date
    hours: tuple[CategoryHours, ...]
    met: tuple[Goal, ...]
    unmet: tuple[Goal, ...]
    ahead: WeekView
    late: bool = False
