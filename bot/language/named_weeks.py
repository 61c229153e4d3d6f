"""A week that is named once and holds for all days of a line: shift next week mon 7-13, wed 7-13; this week museum tue fri 13-17.

line := {…} week ["only"] {…} days {…}

Days that stand together share what is said beside them; each becomes a line of
its own. Where days stand apart, with hours each, the week is put behind each of them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bot.language.phrase import Phrase
from bot.language.standpoint import standpoint
from bot.language.tokens import Found, Token, Tokens
from bot.language.weekday_lists import EVERY, GROUPS, JOINTS, read_weekdays
from bot.language.weekdays import WEEKDAYS, read_week

WEEKS = frozenset({"this", "next", "last"})
ONLY = frozenset({"only", "just"})
BEFORE_A_WEEK = frozenset({"for", "in", "of", "on"})
NOT_THAT_WEEK = frozenset("from since starting until till after before by every each".split())
"""Before a week these say more than that it is the one."""
NAMES = tuple("monday tuesday wednesday thursday friday saturday sunday".split())
MARKS = frozenset({",", ":", "-"})


@dataclass(frozen=True, slots=True)
class NamedWeek:
    """The week by its word, and the line without it; ``days`` are the places of its days, each group up to the place after it."""

    word: str
    line: Phrase
    groups: tuple[Found[tuple[int, ...]], ...]
    starts: tuple[int, ...]


def named_week(line: Phrase) -> NamedWeek | None:
    """The week of a line that names one, and a day more than once, or one day only; None for any other line."""
    words = [token.text for token in line.tokens]
    if "week" not in words or not EVERY.isdisjoint(words):
        return None
    at = words.index("week") - 1
    week = read_week(line.tokens, at, standpoint(line.context, "forward")) if at >= 0 and words[at] in WEEKS else None
    if week is None or words.count("week") > 1 or (at and words[at - 1] in NOT_THAT_WEEK):
        return None
    start, end, only = _around(words, at, week.end)
    rest = replace(line, tokens=line.tokens[:start] + line.tokens[end:])
    starts, groups = _groups(rest)
    days = sum(len(group.value) for group in groups)
    return NamedWeek(words[at], rest, tuple(groups), tuple(starts)) if days > 1 or (days and only) else None


def _around(words: list[str], at: int, end: int) -> tuple[int, int, bool]:
    """The week with the small words that belong to it: only this week, this week only, for next week:"""
    only = False
    while at and (words[at - 1] in BEFORE_A_WEEK or words[at - 1] in ONLY):
        only = only or words[at - 1] in ONLY
        at -= 1
    while end < len(words) and (words[end] in ONLY or words[end] in MARKS):
        only = only or words[end] in ONLY
        end += 1
    return at, end, only


def _groups(line: Phrase) -> tuple[list[int], list[Found[tuple[int, ...]]]]:
    """Where days stand, and what they are: mon, tue and thu is one group, mon 7-13, wed 7-13 are two."""
    starts: list[int] = []
    groups: list[Found[tuple[int, ...]]] = []
    at = 0
    while at < len(line.tokens):
        is_day = line.word(at) in WEEKDAYS or line.word(at) in GROUPS
        days = read_weekdays(line.tokens, at) if is_day else None
        if days is None:
            at += 1
            continue
        starts.append(at)
        first = int(line.context.week_starts)
        groups.append(Found(tuple(sorted((day.weekday for day in days.value), key=lambda day: (day - first) % 7)), days.end))
        at = days.end
    return starts, groups


def spread(week: NamedWeek) -> tuple[Phrase, ...]:
    """The lines that say the week with each day: one for each day of a single group, else one with the week behind every day."""
    line = week.line
    if len(week.groups) == 1:
        start, group = week.starts[0], week.groups[0]
        return tuple(_put(line, start, group.end, _said(line, start, day, week.word)) for day in group.value)
    end = len(line.tokens)
    for start, group in reversed(list(zip(week.starts, week.groups, strict=True))):
        line = _put(line, start, group.end, _each_with(line, start, group, end, week.word))
        end = start
    return (line,)


def _each_with(line: Phrase, start: int, group: Found[tuple[int, ...]], end: int, which: str) -> Tokens:
    """The days of a group, each with what stands behind the group, which ends at ``end``: mon and tue 6-12 is mon 6-12, tue 6-12."""
    while end > group.end and line.word(end - 1) in JOINTS:
        end -= 1
    shared = line.tokens[group.end : end]
    comma = Token(",", "mark", line.tokens[start].start, line.tokens[start].start, glued=True)
    *others, last = (_said(line, start, day, which) for day in group.value)
    return (*(token for day in others for token in (*day, *shared, comma)), *last)


def _said(line: Phrase, at: int, day: int, which: str) -> Tokens:
    """That day of that week, in the place of the token at ``at``."""
    return tuple(replace(line.tokens[at], text=text, glued=False) for text in (NAMES[day], which, "week"))


def _put(line: Phrase, start: int, end: int, said: Tokens) -> Phrase:
    """The line with ``said`` for the tokens from ``start`` up to ``end``, and for the "on" before them."""
    start = start - 1 if start and line.word(start - 1) == "on" else start
    return replace(line, tokens=line.tokens[:start] + said + line.tokens[end:])
