"""Days on which the person will not work: sick, or off.

day_off := [I'm] "sick" ["day"] [days | "until" day] | [I have] ["a"] "day off" [days] | [taking] days ("off" | "day off")
         | ("off" | "on holiday" | "vacation" | "not working" | "didn't work" | …) days
days    := day {("," | "and" | …) day} | day ("-" | "to" | "until" …) day

Of a day that is over it tells for a while. It says what it is, and asks for nothing yet. Anything more makes it talk: sick of waiting.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import TypeAlias

from bot.language.meaning import Several
from bot.language.phrase import Phrase, opened_by
from bot.language.plan_meaning import DayOff
from bot.language.slots import day_ahead, day_back
from bot.language.tokens import Found
from bot.language.words import CLOSERS

DayReader: TypeAlias = Callable[[Phrase, int], Found[date] | None]

LONGEST_TOLD = timedelta(days=31)
"""How long after a day it is still told of; common practice, no source."""

A_WEEK = timedelta(days=7)
MOST_DAYS = 14
"""Of more days quiet is likelier wanted; common practice, no source."""

WORDS = frozenset({"sick", "ill", "unwell", "off", "holiday", "vacation", "leave", "working", "didn't", "did"})
SUBJECT = opened_by(
    "i'm | im | i am | i'm feeling | i am feeling | i feel | feeling | calling in | call in | i'm calling in | called in | "
    "i'll be | i will be | i have | i've got | i've | i take | taking | i'm taking | take | i'm having | having | home | i'm home"
)
SICK = opened_by("sick | off sick | ill | unwell | sick day | a sick day | sick leave | not well")
BEEN = opened_by("i was | was | i've been | i have been | been | i had | had | i took | took | i called in | called in")
"""What tells of a day that may be over."""
NO_WORK = opened_by("didn't work | did not work | i didn't work | i did not work")
OFF = opened_by(
    "day off | a day off | the day off | my day off | off | days off | holiday | a holiday | on holiday | vacation | on vacation | "
    "on leave | annual leave | not working | not at work | didn't work | did not work | i didn't work | i did not work"
)
JOINTS = frozenset({",", "and", "&", "+"})
STRETCHES = frozenset({"week", "month", "year"})
"""Read as days, these are their first ones, which nobody means who is off."""
TO = frozenset({"-", "to", "until", "till", "through"})
UNTIL = frozenset({"until", "till", "through"})


def read_day_off(phrase: Phrase) -> DayOff | Several | None:
    """The day, today where none is said, and whether because of illness; each of several; None for anything more and for what is over."""
    end = len(phrase.tokens)
    while end and phrase.word(end - 1) in CLOSERS:
        end -= 1
    core = phrase.part(0, end)
    today = phrase.context.now.date()
    day_of = day_back if any(BEEN(core, at) or NO_WORK(core, at) for at in range(end)) else day_ahead
    first = _days(core, 0, day_of) or _days(core, _subject(core, 0), day_of)
    at = first.end + (core.word(first.end) in (",", ":")) if first else 0
    sick, off = _state(core, at)
    last = (_days(core, sick or off, day_of) or (_days_until(core, sick) if sick else None)) if sick or off else None
    if not (sick or off) or (first and last) or (last.end if last else sick or off) < end:
        return None
    said = first or last
    bare = off and said is None and core.word(off - 2) != "day"
    days = said.value if said else (today,)
    if bare or days[0] < today - LONGEST_TOLD:
        return None
    told = tuple(DayOff(day, sick=bool(sick)) for day in days)
    return told[0] if len(told) == 1 else Several(told)


def _days(core: Phrase, at: int, day_of: DayReader) -> Found[tuple[date, ...]] | None:
    """A day, several of them, or each from one to another; the later ones come after the first."""
    first = day_of(core, at + (core.word(at) == "from"))
    if first is None or core.word(first.end - 1) in STRETCHES:
        return None
    days, end = [first.value], first.end
    last = day_of(core, end + 1) if core.word(end) in TO else None
    if last is not None:
        span = _from_to(first.value, _after(days[0], last.value))
        return Found(span, last.end) if span else None
    while core.word(end) in JOINTS and (following := day_of(core, end + 1)) is not None and len(days) < MOST_DAYS:
        days.append(_after(days[-1], following.value))
        end = following.end
    return Found(tuple(days), end)


def _days_until(core: Phrase, at: int) -> Found[tuple[date, ...]] | None:
    """Each day from today until the one that is said."""
    last = day_ahead(core, at + 1) if core.word(at) in UNTIL else None
    span = _from_to(core.context.now.date(), last.value) if last else ()
    return Found(span, last.end) if last and span else None


def _from_to(first: date, last: date) -> tuple[date, ...]:
    """All of them; none where they are too many."""
    length = (last - first).days + 1
    return tuple(first + timedelta(days=ahead) for ahead in range(length)) if 0 < length <= MOST_DAYS else ()


def _after(before: date, day: date) -> date:
    """The day, or the one of its name that follows the day said before it: off tuesday and wednesday, said on a tuesday."""
    return day + A_WEEK if before - A_WEEK < day < before else day


def _subject(core: Phrase, at: int) -> int:
    return BEEN(core, at) or SUBJECT(core, at)


def _state(core: Phrase, at: int) -> tuple[int, int]:
    """Where "sick" ends and where "off" ends, 0 for what is not said."""
    for start in dict.fromkeys((at + _subject(core, at), at)):
        sick, off = SICK(core, start), OFF(core, start)
        if sick or off:
            return (start + sick if sick else 0), (start + off if off and not sick else 0)
    return 0, 0
