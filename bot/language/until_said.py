"""Hours of which only the end is said: museum until 17, worked till 5.

until := [opening] {category | "until" clock | break}

When they began is for what is known of the day to tell. Where the clock runs,
they are its hours, and the reply stops it. Else they began as planned, if the
category was planned before that end; else where the latest hours of today
ended. The answer says which. Where none of these is known, it is no reply.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time
from typing import Literal

from bot.language.context import Context
from bot.language.elapsed import elapsed_minutes
from bot.language.hours import Hours
from bot.language.hours_said import without_opening
from bot.language.left_out import Guess, guesses
from bot.language.meaning import Ask, ClockOut, Log, SaidStint
from bot.language.phrase import Explained, Phrase, explain
from bot.language.slots import Break, Called, break_said, called, hours_back
from bot.language.words import CLOSERS

READERS = (hours_back, called, break_said)


@dataclass(frozen=True, slots=True)
class Beginning:
    """When hours began, and how that is known."""

    at: time
    began: Literal["planned", "last hours"]


def read_until(phrase: Phrase) -> Log | ClockOut | Ask | None:
    """The hours up to a time of today; None when anything else is told, or nobody can say when they began."""
    core = None if phrase.piece else without_opening(phrase)
    said = explain(core, READERS) if core else None
    end = _end_alone(said) if said else None
    if said is None or end is None:
        return None
    call, context = said.one(Called), phrase.context
    names = call.names if call else ()
    if context.clocked_in is not None and (not names or context.clocked_in in names):
        return stopped(context, end, away(said))
    guessed = tuple(Guess(name) for name in names) or guesses(context, context.now.date(), None, None)
    found = tuple(log for guess in guessed if (log := _log(said, guess, end)) is not None)
    return None if not found else found[0] if len(found) == 1 else Ask(found)


def _end_alone(said: Explained) -> time | None:
    """The end, where hours without a start are said once, and nothing but a category and a break beside them."""
    hours = said.one(Hours)
    strange = any(said.phrase.word(at) not in CLOSERS for at in said.left)
    if hours is None or hours.start is not None or strange or said.twice(Hours, Called, Break):
        return None
    return hours.end


def _log(said: Explained, guess: Guess, end: time) -> Log | None:
    context = said.phrase.context
    begins = _beginning(said.phrase, guess.category, end)
    pause, today = away(said), context.now.date()
    minutes = elapsed_minutes(today, begins.at, end, context.now.tzinfo) - pause if begins else 0
    if begins is None or minutes <= 0:
        return None
    return Log((SaidStint(guess.category, today, minutes, begins.at, end, pause, why=guess.why, began=begins.began),))


def away(said: Explained) -> int:
    """The minutes of the break, said behind the hours or anywhere else."""
    return sum(pause.minutes for pause in said.all(Break)) + sum(hours.break_minutes for hours in said.all(Hours))


def stopped(context: Context, end: time | None, pause: int) -> Log | ClockOut | None:
    """The end of the clock that runs, now or at ``end``; with a break its hours are told, which end it as well.

    None for a break in a clock that was started after the end, or on another day. A break too long for the hours leaves none of them.
    """
    if not pause or context.clocked_since is None:
        return ClockOut(context.clocked_in, end) if not pause else None
    end = end or context.now.time().replace(second=0, microsecond=0, tzinfo=None)
    start, today = context.clocked_since.replace(second=0, microsecond=0), context.now.date()
    minutes = elapsed_minutes(today, start, end, context.now.tzinfo) - pause
    return Log((SaidStint(context.clocked_in, today, minutes, start, end, pause),), ends_clock=True) if start < end else None


def _beginning(phrase: Phrase, category: str, end: time) -> Beginning | None:
    """As planned for the category, but never before the latest hours ended; else when these ended."""
    last = phrase.context.last_end
    planned = max((block.start for block in phrase.context.planned if block.category == category and block.start < end), default=None)
    if planned is not None and (last is None or last <= planned):
        return Beginning(planned, "planned")
    return Beginning(last, "last hours") if last is not None and last < end else None
