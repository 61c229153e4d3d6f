"""A day on which the person will not work: sick, or off.

day_off := [I'm] "sick" ["day"] [day] | [I have] ["a"] "day off" [day] | [taking] day ("off" | "day off") | "off" day

Of a day that is over it tells for a while. It says what it is, and asks for nothing yet. Anything more makes it talk: sick of waiting.
"""

from __future__ import annotations

from datetime import timedelta

from bot.language.phrase import Phrase, opened_by
from bot.language.plan_meaning import DayOff
from bot.language.slots import day_ahead, day_back
from bot.language.words import CLOSERS

LONGEST_TOLD = timedelta(days=31)
"""How long after a day it is still told of; common practice, no source."""

WORDS = frozenset({"sick", "ill", "unwell", "off"})
SUBJECT = opened_by(
    "i'm | im | i am | i'm feeling | i am feeling | i feel | feeling | calling in | call in | i'm calling in | called in | "
    "i'll be | i will be | i have | i've got | i've | i take | taking | i'm taking | take | i'm having | having | home | i'm home"
)
SICK = opened_by("sick | off sick | ill | unwell | sick day | a sick day | sick leave | not well")
BEEN = opened_by("i was | was | i've been | i have been | been | i had | had | i took | took | i called in | called in")
"""What tells of a day that may be over."""
OFF = opened_by("day off | a day off | the day off | my day off | off")


def read_day_off(phrase: Phrase) -> DayOff | None:
    """The day, today where none is said, and whether because of illness; None for anything more and for a day that is over."""
    end = len(phrase.tokens)
    while end and phrase.word(end - 1) in CLOSERS:
        end -= 1
    core = phrase.part(0, end)
    today = phrase.context.now.date()
    day_of = day_back if any(BEEN(core, at) for at in range(end)) else day_ahead
    first = day_of(core, 0) or day_of(core, _subject(core, 0))
    at = first.end + (core.word(first.end) in (",", ":")) if first else 0
    sick, off = _state(core, at)
    last = day_of(core, sick or off) if sick or off else None
    if not (sick or off) or (first and last) or (last.end if last else sick or off) < end:
        return None
    said = first or last
    bare = off and said is None and core.word(off - 2) != "day"
    return None if bare or (said and said.value < today - LONGEST_TOLD) else DayOff(said.value if said else today, sick=bool(sick))


def _subject(core: Phrase, at: int) -> int:
    return BEEN(core, at) or SUBJECT(core, at)


def _state(core: Phrase, at: int) -> tuple[int, int]:
    """Where "sick" ends and where "off" ends, 0 for what is not said."""
    for start in dict.fromkeys((at + _subject(core, at), at)):
        sick, off = SICK(core, start), OFF(core, start)
        if sick or off:
            return (start + sick if sick else 0), (start + off if off and not sick else 0)
    return 0, 0
