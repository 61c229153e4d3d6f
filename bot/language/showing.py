"""What a person wants to see.

show := ["show" | "what's on" | "how many" | "/" | …] {what | span | category | filler}
what := "day" | "week" | "month" | "hours" | "goals" | "timesheet" | "settings" | "calendars" | "routines" | "job" | "help" [topic]
      | "recap" | "export" | file

A span alone asks for the plan of that day, week or month, and a year for its hours. What the reply fills:

- ``day`` always says its ``day``; today unless another was said; and ``topic`` tasks where only they were asked for;
- ``tasks`` are the open ones of the span, which is all time where none was said;
- ``week`` and ``month`` say ``first`` and ``last`` (both included) only where a week or month was said: "next week", not "week";
- ``recap`` says them of a month, or of a week that was said: "month recap", "recap last week";
- ``hours``, ``goals`` and ``timesheet`` say ``first`` and ``last`` where a span was said, and ``category`` where one was;
- ``help`` says its ``topic``.

Files are in files_said.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from bot.language.files_said import FILES, Filed, Formed, file_said, file_shown, form_said
from bot.language.meaning import Ask, Show, What
from bot.language.names import read_names
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.slots import Called, day_ahead
from bot.language.spans import Span, month_ahead, month_around, read_span_of_days, week_around
from bot.language.tokens import Found, is_number
from bot.language.words import AT_A_CATEGORY

LEAD = opened_by(
    "show me | show | send me | see | view | list | what's on | what is on | whats on | what's | whats | what is | what are "
    "| what do i have | what have i got | what's planned | what's left | how many | how much | how long | give me | my | the | / | "
    "can i see | print | plan for"
)
WHATS: dict[str, What] = {
    "day": "day",
    "plan": "day",
    "agenda": "day",
    "calendar": "day",
    "calendars": "calendars",
    "week": "week",
    "month": "month",
    "weekly": "week",
    "week's": "week",
    "month's": "month",
    "monthly": "month",
    "hours": "hours",
    "goals": "goals",
    "goal": "goals",
    "timesheet": "timesheet",
    "timesheets": "timesheet",
    "recap": "recap",
    "routines": "routines",
    "routine": "routines",
    "targets": "routines",
    "job": "job",
    "jobs": "job",
    "payday": "job",
    "paydays": "job",
    "settings": "settings",
    "setting": "settings",
    "preferences": "settings",
}
OPEN_TASKS = opened_by(
    "tasks | my tasks | open tasks | whats open | what's open | what is open | what's due | whats due | what is due | due | tasks due"
)
ALL_TASKS = opened_by(
    "all tasks | all my tasks | all the tasks | all open tasks | every task | every open task | tasks all | all the open tasks"
)
TASKS_AT_ALL = frozenset({"tasks", "task"})
EXPORT = opened_by("export | export my data | export all my data | export everything | export all | / export")
DID = opened_by("what did i do | what did we do | what have i done")
WORKED = frozenset({"work", "worked", "spend", "spent"})
FREE = opened_by("free | am i free | when am i free | when do i have time | do i have time | have i got time")
HOW_FULL = opened_by("how full is | how busy is | how free is | how does")
IS = frozenset({"is", "am", "are"})
FULL = opened_by("full | busy | free | free for me | looking | look")
NEXT = opened_by(
    "next | what's next | whats next | what is next | what comes next | what next | what now | now what | what's on next | up next | "
    "what's left | whats left | what is left | what's left today | whats left today | what is left today | what's left for today | "
    "what is left for today"
)
FILLERS = frozenset(
    """
    my the for of in on at to did do have i has we work worked spent spend log logged me please so far is are was there planned plan up
    doing this ? . ! , :
    """.split()
)
WANTED = opened_by(
    "|".join((*WHATS, *FILES)) + "| next week | next month | last week | last month | this week | this month | export | tasks"
)
JUST_OVER = timedelta(days=60)
"""No source: a month that ended within two is likelier looked back at than planned ten ahead."""
LOOKS_BACK = frozenset({"hours", "recap", "timesheet", "timesheets", "picture", "chart", "graph"})
UNITS: set[What] = {"day", "week", "month"}
OF_A_CATEGORY: set[What] = {"hours", "timesheet", "goals", "job"}
HELP = opened_by("help | / help | ? | help me | help with | help on | how do i | commands | what can i say | what can you do | h")
MOST_TOPIC_WORDS = 2


@dataclass(frozen=True, slots=True)
class Wanted:
    """A word for what is to be shown."""

    what: What


def read_help(phrase: Phrase) -> Show | None:
    """Help, on a topic or not."""
    start = HELP(phrase)
    end = len(phrase.tokens)
    while end > start and phrase.word(end - 1) in ("?", "!", ".", "please"):
        end -= 1
    if not start or end - start > MOST_TOPIC_WORDS:
        return None
    return Show("help", topic=phrase.original(start, end).lower() or None)


def read_show(phrase: Phrase) -> Show | Ask | None:
    """Something to look at, when the whole phrase asks for nothing else."""
    short = _read_short(phrase)
    if short is not None:
        return short
    start = LEAD(phrase)
    start = start + 1 if start and phrase.word(start) in ("my", "the", "your") else start
    if is_number(phrase.tokens, 0) and len(phrase.tokens) == 1:
        return None  # A number alone is a button or a time, not a year.
    said = explain(phrase.part(start) if start else phrase, (span_said, wanted_said, file_said, form_said, category_said))
    if not said.pieces or said.twice(Span, Called, Filed, Formed) or any(said.phrase.word(at) not in FILLERS for at in said.left):
        return None
    call = said.one(Called)
    whats: set[What] = {wanted.what for wanted in said.all(Wanted)} or ({"hours"} if _asks_how_much(phrase, call) else set())
    file, form = said.one(Filed), said.one(Formed)
    choices = [_show(phrase, whats, said.one(Span), name, file, form) for name in (call.names if call else (None,))]
    shows = tuple(show for show in choices if show is not None)
    return None if not shows else shows[0] if len(shows) == 1 else Ask(shows)


def _asks_how_much(phrase: Phrase, call: Called | None) -> bool:
    """How long did I work this week? How much museum last week? Hours are meant, though nobody says so."""
    how_much = phrase.word(0) == "how" and phrase.word(1) in ("much", "long")
    return how_much and (call is not None or not WORKED.isdisjoint(token.text for token in phrase.tokens))


def _read_short(phrase: Phrase) -> Show | None:
    """Questions that name no thing: what is open; what I did, which are hours; when I am free."""
    end = len(phrase.tokens) - (phrase.word(len(phrase.tokens) - 1) in ("?", "."))
    if end and EXPORT(phrase) == end:
        return Show("export")
    tasks = _read_tasks(phrase, end)
    if tasks is not None:
        return tasks
    did, free = DID(phrase), FREE(phrase)
    span = read_span_of_days(phrase, did) if did else None
    if span is not None and span.end == end:
        return Show("hours", first=span.value.first, last=span.value.last)
    if end and end == NEXT(phrase):
        return Show("day", phrase.context.now.date(), topic="next")
    return _when_free(phrase, free, end) if free else _day_asked(phrase, end)


def _when_free(phrase: Phrase, at: int, end: int) -> Show | None:
    """The stretches of a day, by default today, that are free; of a week what it holds."""
    if at == end:
        return Show("day", phrase.context.now.date(), topic="free times")
    span = read_span_of_days(phrase, at)
    if span is not None and span.end == end and span.value.unit == "week":
        return Show("week", first=span.value.first, last=span.value.last)
    day = day_ahead(phrase, at)
    return Show("day", day.value, topic="free times") if day is not None and day.end == end else None


def _day_asked(phrase: Phrase, end: int) -> Show | None:
    """Is thursday full? Is it free? How busy is friday? How does tomorrow look?"""
    how = HOW_FULL(phrase)
    day = day_ahead(phrase, how or 1) if how or phrase.word(0) in IS else None
    full = FULL(phrase, day.end) if day is not None else 0
    if day is None or not (how or full) or day.end + full != end:
        return None
    return Show("day", day.value, topic=None if how else "free" if phrase.word(day.end) == "free" else "full")


def _read_tasks(phrase: Phrase, end: int) -> Show | None:
    """The tasks of today, or of the day that follows; the open ones of a week or month, or all of them."""
    start = LEAD(phrase) if TASKS_AT_ALL.intersection(token.text for token in phrase.tokens[:end]) else 0
    for lead in dict.fromkeys((0, start)):
        if end > lead and ALL_TASKS(phrase, lead) == end - lead:
            return Show("tasks")
        opened = OPEN_TASKS(phrase, lead)
        if opened:
            return _tasks_of(phrase, lead + opened, end)
    return None


def _tasks_of(phrase: Phrase, at: int, end: int) -> Show | None:
    """Of nothing that is said today; else of a day, or of a longer span."""
    if at == end:
        return Show("day", phrase.context.now.date(), topic="tasks")
    at = at + 1 if phrase.word(at) == "due" else at
    span = read_span_of_days(phrase, at)
    if span is not None and span.end == end and span.value.unit != "day":
        ahead = month_ahead(phrase, span.value)
        return Show("tasks", first=ahead.first, last=ahead.last)
    day = day_ahead(phrase, at)
    return Show("day", day.value, topic="tasks") if day is not None and day.end == end else None


def span_said(phrase: Phrase, at: int) -> Found[Span] | None:
    """A span. Hours are asked of days that have been, a plan of days to come."""
    span = read_span_of_days(phrase, at)
    if any(token.text in LOOKS_BACK for token in phrase.tokens):
        return span
    day = day_ahead(phrase, at)
    if day is None or (span is not None and (span.end > day.end or span.value.unit != "day")):
        return span
    return Found(Span(day.value, day.value, "day"), day.end)


def wanted_said(phrase: Phrase, at: int) -> Found[Wanted] | None:
    """The word for what is wanted."""
    what = WHATS.get(phrase.word(at))
    return Found(Wanted(what), at + 1) if what else None


def category_said(phrase: Phrase, at: int) -> Found[Called] | None:
    """[for | at | …] [the] category; but in "did I work" nothing is named."""
    if at and phrase.word(at - 1) in ("i", "we"):
        return None
    start = at + 1 if phrase.word(at) in AT_A_CATEGORY else at
    found = read_names(phrase.tokens, start + 1 if phrase.word(start) == "the" else start, phrase.names)
    return Found(Called(found.value), found.end) if found else None


def _show(
    phrase: Phrase, whats: set[What], span: Span | None, category: str | None, file: Filed | None, form: Formed | None
) -> Show | None:
    """The one thing that the words add up to: "week hours" are hours, "plan tomorrow" a day, and "week picture" a file."""
    if file is not None:
        return file_shown(file.kind, form.form if form else None, whats, span, category)
    if form is not None:
        return None
    things, units = whats - UNITS, whats & UNITS
    if len(things) > 1 or len(units) > 1 or (category is not None and not things & OF_A_CATEGORY):
        return None
    if things:
        return _thing(phrase, things.pop(), units.pop() if units else None, span, category)
    return _plan(phrase, units.pop() if units else None, span)


def _thing(phrase: Phrase, what: What, unit: What | None, span: Span | None, category: str | None) -> Show | None:
    if what in ("settings", "calendars", "routines", "job"):
        return Show(what, category=category) if span is None and unit is None else None
    if what == "recap":
        return _recap(phrase, unit, span) if category is None else None
    if span is None and unit is not None:
        span = _this(phrase, unit)
    if span is not None and what == "goals":
        span = month_ahead(phrase, span)
    return Show(what, first=span.first if span else None, last=span.last if span else None, category=category)


def _recap(phrase: Phrase, unit: What | None, span: Span | None) -> Show | None:
    """Of this week or month, or of one that has been."""
    if span is None and unit == "month":
        span = _this(phrase, unit)
    if span is None:
        return Show("recap") if unit != "day" else None
    past = span.first <= phrase.context.now.date()
    return (
        Show("recap", first=span.first, last=span.last) if past and span.unit in ("week", "month") and unit in (None, span.unit) else None
    )


def _this(phrase: Phrase, unit: What) -> Span:
    today = phrase.context.now.date()
    if unit == "week":
        return week_around(today, phrase.context.week_starts)
    return month_around(today.year, today.month) if unit == "month" else Span(today, today, "day")


def _plan(phrase: Phrase, unit: What | None, span: Span | None) -> Show | None:
    """A day's, week's or month's plan; a unit and a span must agree, and a week or month around a day may be asked for."""
    if span is None:
        return None if unit is None else Show("day", phrase.context.now.date()) if unit == "day" else Show(unit)
    if span.unit == "year":
        return Show("hours", first=span.first, last=span.last) if unit is None else None
    if span.unit == "day" and unit in (None, "day"):
        return Show("day", span.first)
    if span.unit == "day" and unit == "week":
        span = week_around(span.first, phrase.context.week_starts)
    if span.unit not in ("week", "month") or unit not in (None, "day", span.unit):
        return None
    if span.unit == "week":
        return Show("week", first=span.first, last=span.last)
    month = month_ahead(phrase, span, just_over=JUST_OVER)
    return Show("month", first=month.first, last=month.last)
