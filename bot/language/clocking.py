"""The clock: started now, or at a time; stopped now, or at a time.

clock_in  := ("in" | "clock in" | "start" | "begin" | …) [category] [time]
clock_out := ("out" | "clock out" | "stop" | "off work" | …) [category] [[day] time] [break] | ("drop" | "cancel" | …) "the clock"
           | category ("out" | "in" | "start") [time] | ("left" | "finished" | …) [category] ["at"] time
forgotten := "forgot to clock out" ["," | "and"] ["finished" | "left" | …] ["at"] time
arrived   := ("arrived" | "got to" | "back at" | …) [category] [time], with one of the two at least

Nothing else may stand in it: "in a minute" and "stop it" are talk. A category
left out of clock_in is for the plan to tell; of clock_out it is the one that runs.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time

from bot.language.clock import read_spoken
from bot.language.context import Context
from bot.language.meaning import Ask, ClockIn, ClockOut, Log
from bot.language.names import alike, read_names
from bot.language.phrase import Explained, Phrase, Reader, explain, opened_by
from bot.language.slots import SINCE, Break, Called, Clock, break_said, called, day_back
from bot.language.times_of_day import as_time, likelihood, readings, settled
from bot.language.tokens import Found
from bot.language.until_said import away, stopped
from bot.language.words import ARTICLES, AT_A_CATEGORY, CLOSERS

IN = opened_by(
    "clock me in | clock in | clockin | clocked in | clocking in | punch in | check in | in | start | started | starting | begin | "
    "beginning"
)
OUT = opened_by(
    "clock me out | clock out | clockout | clocked out | clocking out | punch out | check out | stop the clock | out | stop | stopped | "
    "off work | finished work | done working | done with work | leaving work | stop work | stopped work | end work | knock off | i'm out | "
    "i am out | im out | i'm off work | done work | finish work"
)
OUT_AT = opened_by("left | i left | left work | i left work | finished | i finished | finished work | stopped | leaving | got off")
"""These stop the clock only with a time behind them: "finished" alone tells of a task."""
FORGOT = opened_by(
    "forgot to clock out | i forgot to clock out | forgot to stop the clock | i forgot to stop the clock | forgot to punch out | "
    "forgot to stop | forgot clock out"
)
ARRIVED = opened_by("arrived | i arrived | arrived at | i arrived at | got to | i got to | back at | i'm back at | back in")
"""These start the clock only with a category or a time behind them."""
BEHIND_A_CATEGORY = frozenset({"in", "start", "started", "out", "stop"})
VOID = opened_by("discard the clock | drop the clock | cancel the clock | forget the clock | void the clock | never clocked in")
PASSED_OVER = AT_A_CATEGORY | frozenset({"the", "my", ",", ".", "!", "now", "work", "working", "clock", "please"})


def read_clock_in(phrase: Phrase) -> ClockIn | Ask | None:
    """A start of the clock."""
    opened = IN(phrase)
    said = _said_behind(phrase, opened or ARRIVED(phrase), (called, clock_behind, clock_alone))
    categories = _categories(said) if said else None
    if said is None or categories is None or not (opened or said.pieces or categories):
        return None
    choices = tuple(ClockIn(name, _time(said)) for name in categories or (None,))
    return choices[0] if len(choices) == 1 else Ask(choices)


def read_clock_out(phrase: Phrase) -> ClockOut | Log | Ask | None:
    """A stop of the clock, perhaps of another day's, or without keeping its hours, or less a break."""
    void = VOID(phrase)
    said = _said_behind(phrase, void or OUT(phrase), (called, clock_behind, clock_alone, break_said, day_back))
    categories = _categories(said) if said else None
    if said is None or categories is None:
        return None
    at, day = _time(said), said.one(date)
    if said.one(Break) is not None:
        return None if void or day else _less_a_break(phrase.context, categories, at, away(said))
    choices = tuple(ClockOut(name, at, day, bool(void)) for name in categories or (None,))
    return choices[0] if len(choices) == 1 else Ask(choices)


def _less_a_break(context: Context, categories: tuple[str, ...], end: time | None, pause: int) -> ClockOut | Log | None:
    """The hours of the clock that runs, less a break; None where it runs for another category. Where none runs, the answer says so."""
    if context.clocked_in is None:
        return ClockOut(categories[0] if len(categories) == 1 else None, end)
    return stopped(context, end, pause) if not categories or context.clocked_in in categories else None


def read_clock_out_at(phrase: Phrase) -> ClockOut | None:
    """A stop of the clock told as a story: left at 17:10, left the museum at 5."""
    start = OUT_AT(phrase)
    said = _said_behind(phrase, start, (called, clock_behind, clock_alone))
    call = said.one(Called) if said else None
    if call is None and phrase.word(start) not in SINCE:
        return None
    if said is None or said.one(Clock) is None or any(said.phrase.word(at) not in CLOSERS | ARTICLES for at in said.left):
        return None
    return ClockOut(call.names[0] if call else None, _time(said)) if call is None or len(call.names) == 1 else None


def read_forgotten(phrase: Phrase) -> ClockOut | None:
    """A stop of the clock that was not told in time: forgot to clock out, finished 00:20."""
    start = FORGOT(phrase)
    start = start + 1 if start and phrase.word(start) in (",", ".", ":", "-", "and", "but") else start
    said = _said_behind(phrase, start and start + OUT_AT(phrase, start), (called, clock_behind, clock_alone, day_back))
    names = _categories(said) if said else None
    if said is None or names is None or len(names) > 1 or said.one(Clock) is None:
        return None
    return ClockOut(names[0] if names else None, _time(said), said.one(date))


def read_clock_behind(phrase: Phrase) -> ClockIn | ClockOut | Log | Ask | None:
    """The clock with its category before it: museum out 17:00, museum in; "home in 10" is talk."""
    call = read_names(phrase.tokens, 0, phrase.names)
    verb = phrase.word(call.end) if call else ""
    if call is None or verb not in BEHIND_A_CATEGORY or (verb == "in" and phrase.tokens[call.end + 1 :]):
        return None
    turned = replace(phrase, tokens=(phrase.tokens[call.end], *phrase.tokens[: call.end], *phrase.tokens[call.end + 1 :]))
    return read_clock_out(turned) if verb in ("out", "stop") else read_clock_in(turned)


def _said_behind(phrase: Phrase, start: int, readers: tuple[Reader, ...]) -> Explained | None:
    """What stands behind the opening, if there is one and nothing is said twice."""
    if not start:
        return None
    said = explain(phrase.part(start), readers)
    alone = said.one(date) is not None and said.one(Clock) is None
    return None if alone or said.twice(Called, Clock, date, Break) else said


def _time(said: Explained) -> time | None:
    clock = said.one(Clock)
    return clock.time if clock is not None else None


def clock_alone(phrase: Phrase, at: int) -> Found[Clock] | None:
    """A time without "at" before it, at the end: clock out 17:05."""
    found = _face(phrase, at)
    over = found and (phrase.word(found.end) in ("", ".", "!", ",") or day_back(phrase, found.end) or break_said(phrase, found.end))
    return found if over else None


def clock_behind(phrase: Phrase, at: int) -> Found[Clock] | None:
    """at | from | since, and a time."""
    return _face(phrase, at + 1) if phrase.word(at) in SINCE else None


def _face(phrase: Phrase, at: int) -> Found[Clock] | None:
    """A time that has been; of one in the night and one to come the nearer: 12:30 said at noon is to come."""
    said = read_spoken(phrase.tokens, at)
    if said is None:
        return None
    likely = likelihood(phrase.context, "back")
    minute = settled(said.value, likely)[0]
    if likely.price_of_hour(minute):
        minute = min(readings(said.value), key=lambda reading: abs(reading - likely.now))
    return Found(Clock(as_time(minute)), said.end)


def _categories(said: Explained) -> tuple[str, ...] | None:
    """The categories meant, none when none was said, or None when there are words about something else."""
    call = said.one(Called)
    strange = [said.phrase.word(at) for at in said.left if said.phrase.word(at) not in PASSED_OVER]
    if not strange:
        return call.names if call else ()
    return None if call or len(strange) > 1 else alike(strange[0], said.phrase.names) or None
