"""Calendars of others, and what is said of their events.

add    := [("calendar" | "add calendar" | "subscribe to" | "follow") [name]] link | ("add" | "read" | …) [name] "calendar" link
change := ("pause" | "resume" | "remove" | …) ["the"] "calendar" name
mark   := "mark" words ["as"] {"minor" | "major" | "outdoors" | "indoors" | category} [travel]

A link begins with https:// or webcal:// and ends at the next space.
"""

from __future__ import annotations

import re
from typing import Literal

from bot.language.calendar_meaning import AddCalendar, ChangeCalendar, MarkEvents
from bot.language.names import read_names
from bot.language.phrase import Opening, Phrase, opened_by
from bot.language.travel_said import travel_said
from bot.rules.travel import NONE_SAID, Travel

ADD = opened_by(
    "calendar | add calendar | add the calendar | new calendar | subscribe to | subscribe to calendar | subscribe | follow | "
    "follow calendar"
)
NAMED = opened_by("add | add my | add the | read | read my | read the | import | use")
LINKED = opened_by("https : / / | http : / / | webcal : / / | webcals : / /")
PAUSE = opened_by("pause calendar | pause the calendar | stop calendar | stop the calendar")
RESUME = opened_by("resume calendar | resume the calendar | unpause calendar | go on with calendar")
REMOVE = opened_by(
    "remove calendar | remove the calendar | delete calendar | delete the calendar | drop calendar | forget calendar | "
    "unsubscribe from calendar | unsubscribe from"
)
MARK = opened_by("mark | mark all")
LINK_AT_END = re.compile(r"(?:^|\s)((?:https?|webcals?)://\S+)$", re.IGNORECASE)
FLAGS: dict[str, tuple[Literal["minor", "outdoors"], bool]] = {
    "minor": ("minor", True),
    "major": ("minor", False),
    "outdoors": ("outdoors", True),
    "indoors": ("outdoors", False),
}
BETWEEN = frozenset({"as", "is", "are", ",", "and", ":", "="})
QUOTING = '"“”„«» '


def read_add_calendar(phrase: Phrase) -> AddCalendar | None:
    """A link alone, or with a name before it."""
    start, named = ADD(phrase), NAMED(phrase)
    if not (start or named or LINKED(phrase)):
        return None
    text = phrase.original(start or named, len(phrase.tokens))
    link = LINK_AT_END.search(text)
    if link is None:
        return None
    name = text[: link.start()].strip(QUOTING)
    if named and not start:
        name, calendar, _ = name.rpartition("calendar")
        return AddCalendar(link[1], name.strip(QUOTING) or None) if calendar else None
    return AddCalendar(link[1], name or None)


def read_change_calendar(phrase: Phrase) -> ChangeCalendar | None:
    """A calendar to pause, go on with, or remove, by its name."""
    for opening, how in CHANGES:
        start = opening(phrase)
        name = phrase.original(start, len(phrase.tokens))
        if start and name:
            return ChangeCalendar(name, how)
    return None


CHANGES: tuple[tuple[Opening, Literal["pause", "resume", "remove"]], ...] = ((PAUSE, "pause"), (RESUME, "resume"), (REMOVE, "remove"))


def read_mark(phrase: Phrase) -> MarkEvents | None:
    """Words, and behind them what holds for the events that they stand in."""
    start = MARK(phrase)
    if not start or phrase.word(start) == "done":
        return None
    end, travel = _travel_at_end(phrase, start)
    said: dict[str, bool] = {}
    while end > start + 1 and phrase.word(end - 1) in FLAGS.keys() | BETWEEN:
        end -= 1
        flag = FLAGS.get(phrase.word(end))
        if flag and said.setdefault(*flag) is not flag[1]:
            return None
    end, category = _category_at_end(phrase, start, end)
    if end <= start or not (said or category or travel):
        return None
    return MarkEvents(phrase.original(start, end), category, said.get("minor"), said.get("outdoors"), travel.before, travel.after)


def _travel_at_end(phrase: Phrase, start: int) -> tuple[int, Travel]:
    """Where the words end without the way there and back behind them, and that way."""
    for at in range(start + 1, len(phrase.tokens)):
        found = travel_said(phrase, at)
        if found is not None and found.end == len(phrase.tokens):
            return at, found.value
    return len(phrase.tokens), NONE_SAID


def _category_at_end(phrase: Phrase, start: int, end: int) -> tuple[int, str | None]:
    """Where the words end without the category behind them, and that category; at least one word stays."""
    for at in range(start + 1, end):
        found = read_names(phrase.tokens, at, phrase.names)
        if found is not None and found.end == end and len(found.value) == 1:
            cut = at
            while cut > start + 1 and phrase.word(cut - 1) in BETWEEN:
                cut -= 1
            return cut, found.value[0]
    return end, None
