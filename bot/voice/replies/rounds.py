"""The three messages that come unasked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bot.rules.planned import Planned
from bot.voice.replies.pay import NOTHING_TO_NOTE, WorkNotes
from bot.voice.replies.plan import PlanMade
from bot.voice.replies.reply import Reply
from bot.voice.replies.views import CategoryHours, DayView, WeekView
from storage.records import Goal, Task


@dataclass(frozen=True, slots=True)
class MorningMessage(Reply):
    """The day, and what of the day before was planned and has no hours, with its category."""

    view: DayView
    plan: PlanMade
    unlogged: tuple[tuple[str, Planned], ...] = ()
    late: bool = False


@dataclass(frozen=True, slots=True)
class EveningNudge(Reply):
    day: date
    tasks: tuple[Task, ...]
    unlogged: tuple[tuple[str, Planned], ...]
    running: tuple[str, datetime] | None = None
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
    work: WorkNotes = NOTHING_TO_NOTE
