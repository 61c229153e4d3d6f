"""Tasks and goals to add.

add_task := ("task" | "todo" | "add" | "remind me to" | …) {title | day | amount | category | "outdoors"} ["for goal" words]
          | title day amount
add_goal := ["week" | "month" | month] "goal" {title | amount | category | section | horizon}
horizon  := ["for" | "by" | "in"] (("this" | "next" | "the") ("week" | "month") | "weekly" | "monthly" | month ":")

Estimates are in estimates_said.py. "By the end of the day" and "before
friday" say the last day on which it may be done.

A title may be put in quotes; then nothing inside it is read. A day or an
amount with words of the title on both sides is part of the title, unless what
follows it goes on with "about", "with" or the like: prepare monday meeting. A
day with a time is the task's day, and the time goes to the end of its title.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from bot.language.context import Context
from bot.language.due_said import Timed, day_due, timed
from bot.language.estimates_said import estimate_said
from bot.language.meaning import AddGoal, AddRoutine, AddTask
from bot.language.month_names import MONTHS
from bot.language.partial_days import day_shifted, month_shifted
from bot.language.phrase import QUOTED, Explained, Phrase, Piece, explain, opened_by
from bot.language.recurrence import Rule
from bot.language.slots import Amount, day_ahead, rule_said
from bot.language.titles import Title, looks_like_title, title_of
from bot.language.tokens import Found
from bot.language.weekdays import week_of
from bot.language.words import SPENT, UNDONE

TASK = opened_by(
    "task | task to | tasks | todo | to do | to - do | add task | add a task | add | new task | new todo | reminder to | reminder "
    "| add todo | remind me to | remind me | remember to | don't forget to | dont forget to | keep as task | task for | "
    "a task | need to"
)
GOAL = opened_by("goal | goals | add goal | add a goal | new goal | weekly goal | week goal | add week goal | goal for | a goal")
MONTH_GOAL = opened_by("month goal | monthly goal | goal month | goal monthly | add month goal | add monthly goal | month's goal")
NAMED_MONTH_GOAL = opened_by("|".join(f"{month} goal" for month in MONTHS))
HORIZONS: dict[str, Literal["week", "month"]] = {"week": "week", "weekly": "week", "month": "month", "monthly": "month"}
WHICH = frozenset({"this", "the", "next"})
ALREADY = frozenset({"met", "done", "reached", "finished", "closed", "completed"})
"""Alone behind "goal", and not quoted, these tell of one there is, and name no new one."""
AGAIN = frozenset({"every", "each", "daily", "weekly", "monthly", "yearly"})
SHORT = 30
"""Minutes of what comes again, where nobody says how long it takes. Common practice, no source."""
MOST_PLAIN = 10
"""In tokens: a longer reply without "task" tells a story."""
TOLD_OF = frozenset("was were had took went met saw ran swam rode drove wrote read made got gave came left".split())
"""Before a weekday these tell of the one that was."""
GOES_ON = frozenset({"about", "with", "to", "for", "at", "from", "on", "in", ","})
ALSO_WORDS = frozenset({"sun", "sat", "mar", "may", "wed"})
"""Short for days and months, and right before other words likelier words themselves: sun cream."""
GOAL_OF_TASK = (("for", "goal"), ("towards", "goal"), ("for", "the", "goal"), ("goal", ":"))


@dataclass(frozen=True, slots=True)
class Horizon:
    """Whether a goal is for the week or for the month; ``first`` is the first day of one to come."""

    name: Literal["week", "month"]
    first: date | None = None


@dataclass(frozen=True, slots=True)
class Outdoors:
    """That a task is to be done outdoors."""


def read_task(phrase: Phrase) -> AddTask | AddRoutine | None:
    """A task to add, for today unless a day was said; one that comes again is a routine."""
    start = TASK(phrase)
    if not start:
        return None
    split = _goal_at(phrase, start)
    goal = phrase.original(split[1], len(phrase.tokens)) if split else None
    part = phrase.part(start, split[0] if split else None)
    reminded = phrase.word(start - 1) in ("me", "reminder") or phrase.word(0).startswith("remind")
    said = _without_middles(explain(part, (timed(alone=reminded), day_ahead, day_due, estimate_said, outdoors_said)))
    title = title_of(said)
    if not title.text or said.twice(Amount, date, Timed) or _days_said(said) > 1:
        return None
    again = _routine(part) if not split else None
    return again or _task(phrase, said, goal, reminded=reminded)


def read_plain_task(phrase: Phrase) -> AddTask | None:
    """A task that only its shape tells: a title, a day to come and how long it takes: buy bread tomorrow 10m."""
    if phrase.piece or len(phrase.tokens) > MOST_PLAIN:
        return None
    said = _without_middles(explain(phrase, (day_ahead, estimate_said)))
    title, day = title_of(said, shortest=1), said.one(date)
    if not title.text or len(said.pieces) != 2 or not said.all(Amount) or day is None or day <= phrase.context.now.date():
        return None
    # Of a category the hours may as well have been spent: clean house 1h sat.
    told_of = title.category is not None or phrase.word(0).endswith("ed") or phrase.word(0) in TOLD_OF | SPENT
    return _task(phrase, said, None, reminded=False) if looks_like_title(said) and not told_of else None


def _days_said(said: Explained) -> int:
    return len(said.all(date)) + len(said.all(Timed))


def _task(phrase: Phrase, said: Explained, goal: str | None, *, reminded: bool) -> AddTask:
    title, at, estimate = title_of(said), said.one(Timed), said.one(Amount)
    day = said.one(date) or (at.day if at else None) or phrase.context.now.date()
    text = f"{title.text}, {at.words}" if at else title.text
    minutes = estimate.minutes if estimate else None
    remind_at = at.time if at and reminded else None
    return AddTask(text, day, title.category, minutes, goal, outdoors=said.one(Outdoors) is not None, remind_at=remind_at)


def _routine(phrase: Phrase) -> AddRoutine | None:
    """What is to be done again and again: pay rent every month on the 1st."""
    said = explain(phrase, (rule_said, estimate_said))
    rules, title, estimate = said.all(Rule), title_of(said), said.one(Amount)
    if len(rules) != 1 or not AGAIN.intersection(token.text for token in phrase.tokens) or not title.text:
        return None
    return AddRoutine(title.text, estimate.minutes if estimate else SHORT, rules[0].text, category=title.category)


def read_goal(phrase: Phrase) -> AddGoal | AddTask | None:
    """A goal to add, for this week unless the month was said. A goal for a day is a task."""
    monthly, named = MONTH_GOAL(phrase), NAMED_MONTH_GOAL(phrase)
    start = monthly or named or GOAL(phrase)
    if not start:
        return None
    day = day_ahead(phrase, start) if horizon_said(phrase, start) is None else None
    if day is not None and phrase.word(day.end) == ":":
        said = _without_middles(explain(phrase.part(day.end + 1), (estimate_said, outdoors_said)))
        return replace(_task(phrase, said, None, reminded=False), day=day.value) if title_of(said).text else None
    said = _without_middles(explain(phrase.part(start), (horizon_said, estimate_said)))
    section, said = _section_at_end(said)
    title = title_of(said)
    if not title.text or _tells_of_one(said, title) or said.twice(Amount, Horizon):
        return None
    first = _first_of(MONTHS[phrase.word(0)], phrase.context.now.date()) if named else None
    horizon, estimate = said.one(Horizon) or Horizon("month" if monthly or named else "week", first), said.one(Amount)
    minutes = estimate.minutes if estimate else None
    return AddGoal(title.text, horizon.name, title.category, section, minutes, horizon.first)


def _tells_of_one(said: Explained, title: Title) -> bool:
    """Whether it tells of a goal that there is, and how far that one is: goal done, goal essay half done."""
    *_, before, last = ("", *title.text.lower().split())
    how_far = last in ALREADY and before in UNDONE
    return (title.text.lower() in ALREADY or how_far) and QUOTED not in map(said.phrase.word, said.left)


def outdoors_said(phrase: Phrase, at: int) -> Found[Outdoors] | None:
    """The word alone; "outside" is too often part of a title."""
    return Found(Outdoors(), at + 1) if phrase.word(at) == "outdoors" else None


def horizon_said(phrase: Phrase, at: int) -> Found[Horizon] | None:
    """[for | by | in] this month, the month, monthly, next week, april: …"""
    start = at + 1 if phrase.word(at) in ("for", "by", "in") else at
    month = MONTHS.get(phrase.word(start)) if phrase.word(start + 1) == ":" else None
    if month is not None:
        return Found(Horizon("month", _first_of(month, phrase.context.now.date())), start + 2)
    which = phrase.word(start)
    name = HORIZONS.get(phrase.word(start + 1) if which in WHICH else which if which.endswith("ly") else "")
    if name is None:
        return None
    end = start + 2 if which in WHICH else start + 1
    return Found(Horizon(name, _next(name, phrase.context) if which == "next" else None), end + 1 if phrase.word(end) == ":" else end)


def _first_of(month: int, today: date) -> date | None:
    """The first day of the month of that number that comes next; None for the current one."""
    return None if month == today.month else month_shifted(today, (month - today.month) % 12)


def _next(name: Literal["week", "month"], context: Context) -> date | None:
    today = context.now.date()
    return day_shifted(week_of(today, context.week_starts), 7) if name == "week" else month_shifted(today, 1)


def _goal_at(phrase: Phrase, at: int) -> tuple[int, int] | None:
    """Where "for goal" stands, and where the goal's words begin."""
    for place in range(at + 1, len(phrase.tokens) - 1):
        for words in GOAL_OF_TASK:
            if tuple(token.text for token in phrase.tokens[place : place + len(words)]) == words:
                return place, place + len(words)
    return None


def _section_at_end(said: Explained) -> tuple[str | None, Explained]:
    """A section named by the last leftover word, when no category is called so."""
    last = said.left[-1] if len(said.left) > 1 else -1
    word = said.phrase.word(last) if last >= 0 else ""
    calls = said.phrase.names.starts.get(word, ())
    section = next((name for name in said.phrase.context.sections if name.lower() == word), None)
    if section is None or any(len(words) == 1 and len(meant) == 1 for words, meant in calls):
        return None, said
    return section, replace(said, left=said.left[:-1])


def _without_middles(said: Explained) -> Explained:
    """The same, with what stands in the middle of the title given back to it."""
    kept = tuple(piece for piece in said.pieces if not _in_the_middle(said, piece))
    given = [at for piece in said.pieces if piece not in kept for at in range(piece.at, piece.end)]
    return replace(said, pieces=kept, left=tuple(sorted((*said.left, *given))))


def _in_the_middle(said: Explained, piece: Piece) -> bool:
    if piece.end == piece.at + 1 and piece.end in said.left and said.phrase.word(piece.at) in ALSO_WORDS:
        return said.phrase.word(piece.end) not in GOES_ON
    before = any(at < piece.at for at in said.left)
    behind = [at for at in said.left if at >= piece.end]
    if not before or not behind or behind[0] != piece.end:
        return False
    word = said.phrase.word(piece.end)
    return word not in GOES_ON and word not in said.phrase.names.starts and said.phrase.word(piece.at) not in ("on", "for", "by", "due")
