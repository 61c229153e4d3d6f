"""As ``typed``, for the plan of a day, days off, and what is moved or cancelled. Importing it makes ``as_reply`` know them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time

from bot.language.meaning import Cancel, Move
from bot.language.plan_meaning import AcceptPlan, DayOff, Later, MakePlan, NotToday, Place, SameHours, Swap
from bot.voice.spelling import Spelling, later_words
from bot.voice.typed import as_reply, pick_words, words

__all__ = ["as_reply"]


@as_reply.register
def _(meaning: MakePlan, spelling: Spelling) -> str:
    day = spelling.day(meaning.day) if meaning.day else None
    if meaning.over == "week":
        return "plan next week" if day else "plan week"
    return words("plan", day or "day")


@as_reply.register
def _(meaning: AcceptPlan, spelling: Spelling) -> str:
    return words("accept plan", f"for {spelling.day(meaning.day)}" if meaning.day else None)


@as_reply.register
def _(meaning: Later, spelling: Spelling) -> str:
    return words("later", pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: NotToday, spelling: Spelling) -> str:
    return words("not today", pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: Swap, spelling: Spelling) -> str:
    return f"swap {meaning.first} and {meaning.second}"


@as_reply.register
def _(meaning: Place, spelling: Spelling) -> str:
    return words(spelling.hours(meaning.start, meaning.end), pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: SameHours, spelling: Spelling) -> str:
    return words(meaning.category, "same as", spelling.day(meaning.day))


@as_reply.register
def _(meaning: DayOff, spelling: Spelling) -> str:
    return f"{'sick' if meaning.sick else 'day off'} {spelling.day(meaning.day)}"


@as_reply.register
def _(meaning: Move, spelling: Spelling) -> str:
    title, day = (spelling.title(meaning.words) if meaning.words else None), (spelling.day(meaning.from_day) if meaning.from_day else None)
    start = f"from {spelling.clock(meaning.start)}" if meaning.keeps_end and meaning.start else None
    if meaning.by or start:
        return words(title, day, later_words(meaning.by) if meaning.by else start)
    to = words(*_moment(meaning.day, meaning.start, meaning.end, spelling))
    return words("move", title, f"from {day}" if day else None, "to" if to else None, to)


@as_reply.register
def _(meaning: Cancel, spelling: Spelling) -> str:
    until = f"to {spelling.day(meaning.last)}" if meaning.last else None
    when = _moment(meaning.day, meaning.start, meaning.end, spelling)
    return words("cancel", spelling.title(meaning.words) if meaning.words else None, *when, until)


def _moment(day: date | None, start: time | None, end: time | None, spelling: Spelling) -> Iterator[str]:
    if day is not None:
        yield spelling.day(day)
    if start is not None:
        yield spelling.hours(start, end)
