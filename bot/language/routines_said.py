"""Routines: done every day or week, for so long, within a preferred window.

routine := "routine" {title | amount | rule | hours | part of day | category}
         | {title | amount | rule | hours | part of day | category}     with an amount and a rule

A part of the day bounds the
window: morning until 12:00, afternoon until 17:00, then evening, held to the waking window.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time

from bot.language.amounts import UNITS
from bot.language.context import Context
from bot.language.cycle import Cycle
from bot.language.cycles import read_cycle
from bot.language.dayparts import read_part
from bot.language.hours import Hours, read_hours
from bot.language.meaning import AddRoutine, Ask, Meaning
from bot.language.names import read_names
from bot.language.phrase import Explained, Phrase, explain, opened_by
from bot.language.recurrence import Rule
from bot.language.slots import Amount, amount_said, rule_said
from bot.language.titles import title_of
from bot.language.tokens import Found
from bot.language.weekday_lists import read_weekdays
from bot.language.weekdays import WEEKDAYS
from bot.language.words import FUNCTION_WORDS

ROUTINE = opened_by("routine | add routine | add a routine | new routine | a routine | habit | routine to")
NOON, EVENING = time(12), time(17)


@dataclass(frozen=True, slots=True)
class Window:
    """When a routine is best done, local times."""

    start: time | None
    end: time | None


def read_routine(phrase: Phrase) -> Meaning | None:
    """A routine that is called one; where its rule was left out, every day and every week are the choices."""
    start = ROUTINE(phrase)
    if not start:
        return None
    said = _explained(phrase.part(start))
    if said.one(Amount) is None:
        by_days = explain(phrase.part(start), (days_said, window_said, amount_said))
        said = by_days if by_days.one(Rule) and by_days.one(Amount) else said
    rules = [rule.text for rule in said.all(Rule)] or ["FREQ=DAILY", "FREQ=WEEKLY"]
    return _routines(said, tuple(rules))


def read_plain_routine(phrase: Phrase) -> Meaning | None:
    """A routine that only its shape tells: a title, an amount and a rule."""
    if not any(token.text in UNITS for token in phrase.tokens):
        return None
    said = _explained(phrase)
    if said.one(Rule) is None or said.one(Amount) is None or any(phrase.word(at) in FUNCTION_WORDS for at in said.left):
        return None
    if _tells_of_days(said):
        return None
    return _routines(said, tuple(rule.text for rule in said.all(Rule)))


def _tells_of_days(said: Explained) -> bool:
    """Whether bare names of days and a category tell of hours spent on these days: mon-wed 3h workshop."""
    rule = next(piece for piece in said.pieces if isinstance(piece.value, Rule))
    call = read_names(said.phrase.tokens, said.left[0], said.phrase.names) if said.left else None
    return said.phrase.word(rule.at) in WEEKDAYS and call is not None and len(said.left) == call.end - said.left[0]


def _explained(phrase: Phrase) -> Explained:
    return explain(phrase, (rule_said, window_said, amount_said))


def days_said(phrase: Phrase, at: int) -> Found[Rule] | None:
    """How often, without times: gym every day. Bare names of days are in a routine the days of every week: gym mon wed."""
    cycle = read_cycle(phrase.tokens, at)
    if cycle is not None:
        return Found(Rule(cycle.value.rule(), None), cycle.end)
    days = read_weekdays(phrase.tokens, at)
    return Found(Rule(Cycle("WEEKLY", days=days.value).rule(), None), days.end) if days else None


def window_said(phrase: Phrase, at: int) -> Found[Window] | None:
    """Hours that bound the window, or a part of the day."""
    hours = read_hours(phrase.tokens, at, phrase.context, "forward", today=False)
    if hours is not None:
        return _window_of_hours(hours)
    start = at + 1 if phrase.word(at) in ("in", "during") else at
    part = read_part(phrase.tokens, start + 1 if phrase.word(start) == "the" else start)
    return Found(_window_of_part(part.value.name, phrase.context), part.end) if part else None


def _window_of_hours(hours: Found[Hours]) -> Found[Window]:
    return Found(Window(hours.value.start, hours.value.end), hours.end)


def _window_of_part(name: str, context: Context) -> Window:
    if name == "morning":
        return Window(min(context.waking_start, NOON), NOON)
    if name == "afternoon":
        return Window(NOON, EVENING)
    return Window(EVENING, max(context.waking_end, EVENING))


def _routines(said: Explained, rules: tuple[str, ...]) -> Meaning | None:
    title, window = title_of(said), said.one(Window) or _window_in_rule(said)
    minutes = _minutes(said, window)
    if not title.text or minutes is None or said.twice(Rule, Amount, Window):
        return None
    start, end = (window.start, window.end) if window else (None, None)
    choices = tuple(AddRoutine(title.text, minutes, rule, start, end, title.category) for rule in rules)
    return choices[0] if len(choices) == 1 else Ask(choices)


def _window_in_rule(said: Explained) -> Window | None:
    """The times, or the part of the day, that stood inside the rule: every saturday morning."""
    rule = next((piece for piece in said.pieces if isinstance(piece.value, Rule)), None)
    if rule is None or not isinstance(rule.value, Rule):
        return None
    if rule.value.start or rule.value.end:
        return Window(rule.value.start, rule.value.end)
    parts = [part for at in range(rule.at, rule.end) if (part := read_part(said.phrase.tokens, at)) is not None]
    return _window_of_part(parts[0].value.name, said.phrase.context) if parts else None


def _minutes(said: Explained, window: Window | None) -> int | None:
    """The amount said, or else the whole of a window with both ends."""
    amount = said.one(Amount)
    if amount is not None:
        return amount.minutes or None
    if window is None or window.start is None or window.end is None or not window.start < window.end:
        return None
    return (window.end.hour - window.start.hour) * 60 + window.end.minute - window.start.minute
