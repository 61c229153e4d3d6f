"""What comes with a picture or a page."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from bot.language.meaning import Paper
from bot.voice.replies.reply import Reply


@dataclass(frozen=True, slots=True)
class WeekPictured(Reply):
    """The week from ``first`` to ``last`` with its minutes planned and spent in all."""

    first: date
    last: date
    planned: int
    spent: int


@dataclass(frozen=True, slots=True)
class HoursPictured(Reply):
    """So many weeks, from ``first`` to ``last``; of one category or of all."""

    first: date
    last: date
    weeks: int
    category: str | None = None


@dataclass(frozen=True, slots=True)
class PageMade(Reply):
    """The week from ``first`` to ``last`` to print."""

    first: date
    last: date
    form: Paper


@dataclass(frozen=True, slots=True)
class ExportMade(Reply):
    """Everything that is kept of the person."""
