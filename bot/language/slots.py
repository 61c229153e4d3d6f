"""The readers of what a reply may hold: an amount, hours, a day, a break, categories, tasks, a note.

slot := [small words] phrase [small words]

Each takes the small words that belong to it: "for about 2h", "on friday",
"with the kids", "less a 30 min lunch". Each gives the longest reading that
starts at ``at``, or None, and its value has a type of its own, so that a kind
of reply can tell the pieces apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import TypeAlias

from bot.language.amounts import DAY, UNITS, read_amount, read_span
from bot.language.breaks import read_break
from bot.language.clock import read_clock
from bot.language.days import read_day
from bot.language.hours import Hours, read_hours
from bot.language.moments import Moment, read_moment
from bot.language.names import read_names
from bot.language.numbers import NUMBER_WORDS, digits_at
from bot.language.offsets import Offset, moved
from bot.language.phrase import Phrase
from bot.language.recurrence import Rule, read_rule
from bot.language.tokens import Found, is_glued
from bot.language.words import AFTER_A_CATEGORY, ARTICLES, AT_A_CATEGORY


@dataclass(frozen=True, slots=True)
class Amount:
    """How long something took or takes. ``of_days``: days or nights were named, which may be of 24 hours or of work."""

    minutes: int
    of_days: bool = False


@dataclass(frozen=True, slots=True)
class Break:
    """Minutes within hours that do not count."""

    minutes: int


@dataclass(frozen=True, slots=True)
class Called:
    """The categories a call may mean."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Tasks:
    """Numbers of tasks."""

    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Clock:
    """A time said alone: at 9, since 9."""

    time: time


Told: TypeAlias = Amount | Hours | Break | date

HALF_A_YEAR = timedelta(days=182)
TASK_WORDS = frozenset({"task", "tasks", "number", "numbers", "no", "nr", "#"})
SHORT_UNITS = frozenset({"h", "hr", "hrs", "hour", "hours", "m", "min", "mins", "minutes"})
BREAK_WORDS = frozenset({"break", "lunch"})
SINCE = frozenset({"at", "from", "since", "starting", "started", "@"})
MOST_TASKS = 99
"""More than this many numbers is no list of tasks, and a number above it names none."""


def amount_said(phrase: Phrase, at: int) -> Found[Amount] | None:
    """[for | about …] amount."""
    found = read_amount(phrase.tokens, at)
    return Found(Amount(found.value, _names_days(phrase, at, found.end)), found.end) if found else None


def _names_days(phrase: Phrase, at: int, end: int) -> bool:
    return any(UNITS.get(token.text) is DAY for token in phrase.tokens[at:end])


def hours_back(phrase: Phrase, at: int) -> Found[Hours] | None:
    """Hours that have been."""
    return read_hours(phrase.tokens, at, phrase.context, "back")


def day_back(phrase: Phrase, at: int) -> Found[date] | None:
    """[on] day, looking back. The bare name of today's weekday is today: hours are told on the day they were spent.

    A date without a year is the nearest one, back or ahead.
    """
    if phrase.word(at + 1) in SHORT_UNITS and phrase.tokens[at].kind == "number":
        return None
    found = read_day(phrase.tokens, at, phrase.context, "back")
    if found is None:
        return None
    ago = phrase.context.now.date() - found.value
    if ago == timedelta(days=7) and found.end == at + 1:
        return Found(phrase.context.now.date(), found.end)
    return _nearer_to_come(phrase, at, found) if ago > HALF_A_YEAR else found


def _nearer_to_come(phrase: Phrase, at: int, found: Found[date]) -> Found[date]:
    """A date without a year that was most of a year ago is the one to come, which is nearer: 3/8, told on 1 March."""
    today = phrase.context.now.date()
    ahead = day_ahead(phrase, at)
    return ahead if ahead is not None and ahead.end == found.end and today <= ahead.value < today + (today - found.value) else found


def told(phrase: Phrase, at: int) -> Found[Told] | None:
    """What tells of time spent: hours, an amount, a break or a day, whichever is longest.

    An amount with a category right behind it is one for sure, and hours with
    both ends are hours; for these the others are not tried.
    """
    amount = amount_said(phrase, at)
    if amount is not None and (amount.end == len(phrase.tokens) or phrase.word(amount.end) in phrase.names.starts):
        return amount
    hours = hours_back(phrase, at)
    if hours is not None and hours.value.start is not None and hours.value.end is not None:
        return hours
    best: Found[Told] | None = hours
    for found in (amount, day_back(phrase, at), break_said(phrase, at)):
        if found is not None and (best is None or found.end > best.end):
            best = found
    return best


def rule_said(phrase: Phrase, at: int) -> Found[Rule] | None:
    """A recurrence."""
    return read_rule(phrase.tokens, at, phrase.context)


def moment_ahead(phrase: Phrase, at: int) -> Found[Moment] | None:
    """A day, a time or both, looking forward."""
    return read_moment(phrase.tokens, at, phrase.context, "forward")


def day_ahead(phrase: Phrase, at: int) -> Found[date] | None:
    """[on] day, looking forward."""
    return read_day(phrase.tokens, at, phrase.context, "forward")


def day_alone(phrase: Phrase, at: int) -> Found[date] | None:
    """A day looking forward, where only a day can stand: 15 is one, and so are 2-15, 7.6 and "3 weeks"."""
    measured = at < len(phrase.tokens) and (phrase.tokens[at].kind == "number" or phrase.word(at) in NUMBER_WORDS)
    distance = read_span(phrase.tokens, at) if measured else None
    there = moved(phrase.context.now.date(), Offset(distance.value, 1)) if distance and distance.value.finest.rank >= DAY.rank else None
    found = read_day(phrase.tokens, at, phrase.context, "forward", alone=True)
    if distance is not None and there is not None and (found is None or found.end < distance.end):
        return Found(there, distance.end)
    return found


def clock_said(phrase: Phrase, at: int) -> Found[Clock] | None:
    """at | from | since, and a time."""
    if phrase.word(at) not in SINCE:
        return None
    found = read_clock(phrase.tokens, at + 1, phrase.context)
    return Found(Clock(found.value), found.end) if found else None


def called(phrase: Phrase, at: int) -> Found[Called] | None:
    """[at | with …] [the | my …] category [work | time …]."""
    start = at
    if phrase.word(start) in AT_A_CATEGORY:
        start += 1
    if phrase.word(start) in ARTICLES:
        start += 1
    found = read_names(phrase.tokens, start, phrase.names)
    if found is None:
        return None
    end = found.end + 1 if phrase.word(found.end) in AFTER_A_CATEGORY else found.end
    return Found(Called(found.value), end)


def break_said(phrase: Phrase, at: int) -> Found[Break] | None:
    """less amount [break] | amount break | break amount | no break."""
    found = read_break(phrase.tokens, at)
    if found is not None:
        return Found(Break(found.value), found.end)
    word = phrase.word(at)
    if word in ("no", "without") and phrase.word(at + 1) in BREAK_WORDS:
        return Found(Break(0), at + 2)
    if word not in BREAK_WORDS:
        return None
    amount = read_amount(phrase.tokens, at + 2 if phrase.word(at + 1) in ("of", ":") else at + 1)
    return Found(Break(amount.value), amount.end) if amount else None


def numbers_said(phrase: Phrase, at: int) -> Found[Tasks] | None:
    """[task | #] number {(, | and | - | to) number}: 2; 1, 3-5; 1 and 4; 2 to 4."""
    return _numbers(phrase, at, with_to=True)


def numbers_without_to(phrase: Phrase, at: int) -> Found[Tasks] | None:
    """The same, where "to" begins something else: push 1 to 3 march."""
    return _numbers(phrase, at, with_to=False)


def _numbers(phrase: Phrase, at: int, *, with_to: bool) -> Found[Tasks] | None:
    numbers: dict[int, None] = {}
    end = None
    while True:
        stretch = _number_or_range(phrase, at, with_to=with_to)
        if stretch is None:
            break
        end = stretch.end
        numbers.update(dict.fromkeys(stretch.value))
        at = _after_joint(phrase, end)
    return Found(Tasks(tuple(numbers)), end) if end is not None and len(numbers) <= MOST_TASKS else None


def _number_or_range(phrase: Phrase, at: int, *, with_to: bool) -> Found[tuple[int, ...]] | None:
    first = _number(phrase, at)
    if first is None:
        return None
    joints = ("-", "to", "through", "till", "until") if with_to else ("-",)
    last = _number(phrase, first.end + 1) if phrase.word(first.end) in joints else None
    if last is None or last.value < first.value:
        return Found((first.value,), first.end)
    return Found(tuple(range(first.value, last.value + 1)), last.end)


def _number(phrase: Phrase, at: int) -> Found[int] | None:
    while phrase.word(at) in TASK_WORDS:
        at += 1
    number = digits_at(phrase.tokens, at)
    if number is None or not 0 < number <= MOST_TASKS or _is_measured(phrase, at + 1):
        return None
    return Found(number, at + 1)


def _is_measured(phrase: Phrase, at: int) -> bool:
    """Whether a number goes on, into 30m, 30 min, 2.5 or 9:15, and so is not a task's."""
    word = phrase.word(at)
    if word in UNITS:
        return word.isalpha()
    return word != "" and is_glued(phrase.tokens, at) and (word.isalpha() or (word in ".:/%" and is_glued(phrase.tokens, at + 1)))


def _after_joint(phrase: Phrase, at: int) -> int:
    if phrase.word(at) == ",":
        at += 1
    return at + 1 if phrase.word(at) in ("and", "&", "+", "plus") else at


def tasks_said(phrase: Phrase, at: int) -> Found[Tasks] | None:
    """(on | for) [task | #] numbers, or task numbers."""
    start = at + 1 if phrase.word(at) in ("on", "for") else at
    if start == at and phrase.word(at) not in TASK_WORDS:
        return None
    found = numbers_said(phrase, start)
    return Found(Tasks(found.value.numbers), found.end) if found else None
