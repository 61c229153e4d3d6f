"""Each kind of meaning as a reply in a given spelling, the way a person would type it.

What only buttons carry (ids, how to treat a clash) has no words and is left out.
"""

from __future__ import annotations

from datetime import date, time
from functools import singledispatch

from bot.language.meaning import (
    AddCommitment,
    AddGoal,
    AddRoutine,
    AddTask,
    Amend,
    ClockIn,
    ClockOut,
    Close,
    Drop,
    Log,
    Meaning,
    Push,
    Reopen,
    SaidStint,
    Set,
    SetTarget,
    Several,
    Show,
    TakeOut,
    Undo,
)
from bot.language.pick import Pick
from bot.voice.recurrence_words import rule_words
from bot.voice.spelling import SETTING_WORDS, Spelling, amount_words, travel_words

BACK = {1: "last period", 2: "period before last"}
"""Pay periods before today's."""
A_WEEK = 7
"""Days."""


def words(*said: str | None) -> str:
    """What was said, with a space between."""
    return " ".join(word for word in said if word)


@singledispatch
def as_reply(meaning: Meaning, spelling: Spelling) -> str:
    """The reply that says ``meaning`` in this spelling. Raises TypeError for what is no order: a question, or nothing understood."""
    raise TypeError(f"not written as a reply: {meaning!r}")


@as_reply.register
def _(meaning: Log, spelling: Spelling) -> str:
    said, before = [], spelling.today
    for stint in meaning.stints:
        said.append(stint_words(stint, spelling, before))
        before = stint.day
    return ", ".join(said)


def stint_words(stint: SaidStint, spelling: Spelling, before: date) -> str:
    """day hours category less break on tasks - note; a category or a start that was guessed is left out, as it was.

    Hours of a day to come are a commitment unless they are told as spent.
    """
    told = "log" if stint.day > spelling.today and stint.start is not None else None
    day = None if stint.day == before and not spelling.exact else spelling.day(stint.day)
    if stint.end is not None and stint.began:
        hours = f"until {spelling.clock(stint.end)}"
    elif stint.start is not None and stint.end is not None:
        hours = spelling.hours(stint.start, stint.end)
    else:
        hours = amount_words(stint.minutes + stint.break_minutes)
    pause = f"less {amount_words(stint.break_minutes)}" if stint.break_minutes else None
    category = None if stint.why else stint.category
    tasks = f"on {_numbers(stint.tasks)}" if stint.tasks else None
    note = f"- {spelling.title(stint.note)}" if stint.note else None
    return words(told, day, hours, category, pause, tasks, note)


def _numbers(numbers: tuple[int, ...]) -> str:
    return ", ".join(map(str, numbers))


def pick_words(pick: Pick, spelling: Spelling) -> str:
    """Numbers, words, or all of them."""
    if pick.all:
        return "all goals" if pick.goals else "all"
    if pick.words is None:
        return _numbers(pick.numbers)
    return f"goal {spelling.title(pick.words)}" if pick.goals else spelling.title(pick.words)


@as_reply.register
def _(meaning: ClockIn, spelling: Spelling) -> str:
    return words("in" if meaning.category else "clock in", meaning.category, _at(meaning.time, spelling))


@as_reply.register
def _(meaning: ClockOut, spelling: Spelling) -> str:
    if meaning.void:
        return "discard the clock"
    day = spelling.day(meaning.day) if meaning.day else None
    return words("out", meaning.category, day, _at(meaning.time, spelling))


def _at(at: time | None, spelling: Spelling) -> str | None:
    return f"at {spelling.clock(at)}" if at is not None else None


@as_reply.register
def _(meaning: Close, spelling: Spelling) -> str:
    took = f"in {amount_words(meaning.minutes)}" if meaning.minutes else None
    return words("done", pick_words(meaning.tasks, spelling), took, meaning.category, spelling.day(meaning.day) if meaning.day else None)


@as_reply.register
def _(meaning: Drop, spelling: Spelling) -> str:
    return words("drop", pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: Reopen, spelling: Spelling) -> str:
    return words("reopen", pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: Push, spelling: Spelling) -> str:
    goals = {"week": "next week", "month": "the month"}
    to = spelling.day(meaning.to) if isinstance(meaning.to, date) else goals.get(meaning.to, meaning.to)
    return words("push", pick_words(meaning.tasks, spelling), "to", to)


@as_reply.register
def _(meaning: AddTask, spelling: Spelling) -> str:
    day = None if meaning.day == spelling.today and not spelling.exact else spelling.day(meaning.day)
    estimate = amount_words(meaning.estimate_minutes) if meaning.estimate_minutes else None
    goal = f"for goal {spelling.title(meaning.goal)}" if meaning.goal else None
    where = "outdoors" if meaning.outdoors else None
    if meaning.remind_at is not None:
        title, _, at = meaning.title.rpartition(", ")
        return words("remind me to", spelling.title(title), "at", at, day, estimate, meaning.category, where, goal)
    return words("task", spelling.title(meaning.title), day, estimate, meaning.category, where, goal)


@as_reply.register
def _(meaning: AddGoal, spelling: Spelling) -> str:
    estimate = amount_words(meaning.estimate_minutes) if meaning.estimate_minutes else None
    opening = "goal" if meaning.horizon == "week" or meaning.period else "month goal"
    return words(opening, _goal_period(meaning), spelling.title(meaning.title), estimate, meaning.category, meaning.section)


def _goal_period(meaning: AddGoal) -> str | None:
    """A week or month to come; no goal is added for a week after the next."""
    if meaning.period is None:
        return None
    return "next week:" if meaning.horizon == "week" else f"{meaning.period:%B}:".lower()


@as_reply.register
def _(meaning: AddCommitment, spelling: Spelling) -> str:
    rule = rule_words(meaning.rule) if meaning.rule else None
    if rule is not None and meaning.loose:
        rule = rule.removeprefix("every ")
    day = spelling.day(meaning.day) if rule is None else f"starting {spelling.day(meaning.day)}" if spelling.exact else None
    hours = spelling.hours(meaning.start, meaning.end) if meaning.start else None
    flags = words(None if meaning.major else "minor", "outdoors" if meaning.outdoors else None)
    way = travel_words(meaning.minutes_before, meaning.minutes_after)
    opening, ending = (None, "instead") if meaning.instead else ("appt", None)
    return words(opening, spelling.title(meaning.title), rule, day, hours, meaning.category, flags, way, ending)


@as_reply.register
def _(meaning: AddRoutine, spelling: Spelling) -> str:
    window = spelling.hours(meaning.window_start, meaning.window_end) if meaning.window_start else None
    amount, rule = amount_words(meaning.minutes), rule_words(meaning.rule)
    return words("routine", spelling.title(meaning.title), amount, rule, window, meaning.category)


@as_reply.register
def _(meaning: SetTarget, spelling: Spelling) -> str:
    least = f"at least {amount_words(meaning.at_least_minutes)}" if meaning.at_least_minutes else None
    most = f"at most {amount_words(meaning.at_most_minutes)}" if meaning.at_most_minutes else None
    return words("target", meaning.category, least, most)


@as_reply.register
def _(meaning: Show, spelling: Spelling) -> str:
    if meaning.what == "help":
        return words("help", meaning.topic)
    if meaning.what == "day" and meaning.topic:
        day = spelling.day(meaning.day or spelling.today)
        asked = {"next": "what's next", "full": f"is {day} full", "free": f"is {day} free", "free times": f"when am i free {day}"}
        return asked.get(meaning.topic) or words(meaning.topic, day)
    if meaning.what == "day":
        return words("day" if spelling.exact else None, spelling.day(meaning.day or spelling.today))
    if meaning.what == "tasks" and meaning.first is None:
        return "all tasks"
    if meaning.what in ("week", "month") and meaning.first:
        return f"week of {meaning.first.isoformat()}" if meaning.what == "week" else f"{meaning.first:%B %Y}".lower()
    if meaning.what == "recap":
        return words("recap", _recap_span(meaning))
    span = f"from {meaning.first.isoformat()} to {meaning.last.isoformat()}" if meaning.first and meaning.last else None
    if meaning.what == "times":
        return words("when is" if meaning.topic else "when do i work", meaning.topic or meaning.category, span)
    span = span or BACK.get(meaning.back)
    return words(meaning.what.replace("_", " "), meaning.form, meaning.category, span)


def _recap_span(meaning: Show) -> str | None:
    if meaning.first is None or meaning.last is None:
        return None
    return f"{meaning.first:%B %Y}".lower() if (meaning.last - meaning.first).days > A_WEEK else f"week of {meaning.first.isoformat()}"


@as_reply.register
def _(meaning: Undo, spelling: Spelling) -> str:
    return "redo" if meaning.again else "undo"


@as_reply.register
def _(meaning: Set, spelling: Spelling) -> str:
    if meaning.name == "quiet" and meaning.value in ("on", "off"):
        return "quiet" if meaning.value == "on" else "quiet off"
    if meaning.name == "category":
        name, section, aliases = (part.strip() for part in (meaning.value + ";;").split(";")[:3])
        return words("category", name, section, f"alias {aliases}" if aliases else None)
    return SETTING_WORDS.get(meaning.name, f"{meaning.name} {{}}").format(_setting_value(meaning, spelling))


def _setting_value(meaning: Set, spelling: Spelling) -> str:
    """The value as it is kept; a day of quiet by its name, and a time where it might be misread in another spelling."""
    if meaning.name == "quiet" and not spelling.exact:
        return f"{(day := date.fromisoformat(meaning.value)):%a} {day.day} {day:%b}".lower()
    if spelling.clocks == "short" or meaning.name not in ("morning", "evening", "recap", "waking"):
        return meaning.value
    return "-".join(spelling.clock(time.fromisoformat(part)) for part in meaning.value.split("-"))


@as_reply.register
def _(meaning: Amend, spelling: Spelling) -> str:
    hours = _amended_hours(meaning, spelling)
    amount = amount_words(meaning.minutes + (meaning.break_minutes or 0)) if meaning.minutes else None
    pause = f"less {amount_words(meaning.break_minutes)}" if meaning.break_minutes else None
    day = spelling.day(meaning.day) if meaning.day else None
    by = f"{amount_words(abs(meaning.by))} {'longer' if meaning.by > 0 else 'less'}" if meaning.by else None
    of_day = spelling.day(meaning.of_day) if meaning.of_day else None
    if meaning.of_title:
        return words(meaning.of_title, of_day, "was only", hours, amount, pause, by)
    if meaning.of_category or meaning.of_day:
        to = words(f"to {day}" if day else None, f"to {meaning.category}" if meaning.category else None) or None
        return words("correct" if by is None else None, meaning.of_category, of_day, hours, amount, pause, by, to)
    return words("no,", day, hours, amount, pause, by, meaning.category)


@as_reply.register
def _(meaning: TakeOut, spelling: Spelling) -> str:
    return words("delete", amount_words(meaning.minutes), meaning.category, spelling.day(meaning.day) if meaning.day else None)


def _amended_hours(meaning: Amend, spelling: Spelling) -> str | None:
    """Both ends, or the one that is told with the word that says which it is."""
    if meaning.start is not None:
        return spelling.hours(meaning.start, meaning.end) if meaning.end else f"from {spelling.clock(meaning.start)}"
    if meaning.end is not None:
        return words(None if meaning.either else "until", spelling.clock(meaning.end))
    return None


@as_reply.register
def _(meaning: Several, spelling: Spelling) -> str:
    return ", ".join(as_reply(part, spelling) for part in meaning.parts)
