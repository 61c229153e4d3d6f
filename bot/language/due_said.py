"""When a task is due.

due   := ["due" | "by"] ["on" | ":"] day | "by" ("the end of" day | "close of business" …) | "before" day
timed := ["due" | "by"] day time | ["due" | "by"] time day
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time

from bot.language.clock import read_clock
from bot.language.partial_days import day_shifted
from bot.language.phrase import Phrase, Reader
from bot.language.slots import day_ahead, moment_ahead
from bot.language.tokens import Found

DUE_WORDS = frozenset({"eod", "cob", "end", "the", "close"})

SURELY_A_TIME = frozenset({":", "am", "pm", "a.m", "p.m", "noon", "midnight", "o'clock"})


@dataclass(frozen=True, slots=True)
class Timed:
    """A day, where one was said, and a time on it; ``words`` are the time as it was typed."""

    day: date | None
    time: time
    words: str


def day_due(phrase: Phrase, at: int) -> Found[date] | None:
    """due friday; by the end of the day, by close of business on friday; before friday, which is by thursday."""
    today = phrase.context.now.date()
    if phrase.word(at) == "before":
        day = day_ahead(phrase, at + 1)
        last = day_shifted(day.value, -1) if day else None
        return Found(last, day.end) if day and last and last >= today else None
    if phrase.word(at) == "due":
        return _due(phrase, at + 1)
    if phrase.word(at) != "by" or phrase.word(at + 1) not in DUE_WORDS:
        return None
    moment = moment_ahead(phrase, at)
    return Found(moment.value.day or today, moment.end) if moment and moment.value.start is not None else None


def _due(phrase: Phrase, at: int) -> Found[date] | None:
    return day_ahead(phrase, at + 1 if phrase.word(at) in (":", "date") else at)


def timed(*, alone: bool) -> Reader:
    """The reader of a day with a time; ``alone`` lets it read a time with "at" and without a day as well: remind me at 5pm."""

    def read(phrase: Phrase, at: int) -> Found[object] | None:
        moment = moment_ahead(phrase, at + 1 if phrase.word(at) == "due" else at)
        if moment is None or moment.value.start is None or moment.value.end is not None or moment.value.distance is not None:
            return None
        day = moment.value.day if moment.value.day_said else None
        words = _time_words(phrase, at, moment.end) if day or (alone and phrase.word(at) == "at") else None
        at_clock = moment.value.start
        return Found(Timed(day, at_clock, f"{at_clock:%H:%M}" if words.isdigit() else words), moment.end) if words else None

    return read


def _time_words(phrase: Phrase, at: int, end: int) -> str | None:
    """The figures of the time, in the words of the moment from ``at`` to ``end``; none where they may be a length or a number."""
    found: tuple[int, int] | None = None
    for start in range(at, end):
        clock = read_clock(phrase.tokens, start, phrase.context)
        if clock is not None and clock.end <= end and (found is None or clock.end - start > found[1] - found[0]):
            found = (start, clock.end)
    if found is None:
        return None
    words = {token.text for token in phrase.tokens[found[0] : found[1]]}
    sure = phrase.word(found[0] - 1) in ("at", "@") or not words.isdisjoint(SURELY_A_TIME)
    return phrase.original(*found) if sure else None
