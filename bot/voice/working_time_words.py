"""The quiet lines of the recap on working time: the most important notes, and how many more there are."""

from __future__ import annotations

from collections.abc import Sequence

from bot.rules.pay.working_time import AverageWeek
from bot.voice.manners import Manners, count_text, hours_text, listed, title_text
from bot.voice.replies import WorkNotes
from bot.voice.timesheet_said import changed_lines

LIMITS = "Check your local rules."
MOST_NAMED = 2
MOST_NOTES = 3
"""Hours missing, overlapping or changed come before limits, for they are the person's to set right; these are three at most."""


def work_lines(notes: WorkNotes, manners: Manners, *, whole: bool = False) -> list[str]:
    """What does not fit together in the hours, what may be over a limit, and what changed since it was handed in; nothing usually.

    Of hours that are missing the most are named; all of them where the ``whole`` is wanted.
    """
    wrong = [*_missing(notes, manners, None if whole else MOST_NAMED), *_overlaps(notes, manners)]
    changed = changed_lines(notes.changed, manners)
    limits = [*_average(notes.average), *_rests(notes, manners), *_breaks(notes, manners)]
    room = max(MOST_NOTES - len(wrong) - len(changed), 0)
    lines = [" ".join(wrong)] if wrong else []
    lines += [" ".join((*limits[:room], LIMITS))] if limits[:room] else []
    more = [f"and {count_text(len(limits[room:]), 'more note')} on working time"] if limits[room:] else []
    return [*lines, *changed, *more]


def names_all_missing(notes: WorkNotes) -> bool:
    """Whether the lines on working time name all hours that are missing."""
    return len(notes.missing) <= MOST_NAMED


def _missing(notes: WorkNotes, manners: Manners, most: int | None) -> list[str]:
    """The longest first, or all of them day by day."""
    missing = notes.missing if most is None else sorted(notes.missing, key=lambda pair: -pair[1].minutes)
    said = [f"{title_text(name)} on {manners.day(each.day)} ({hours_text(each.minutes)})" for name, each in missing]
    return [f"Planned and not noted: {_some(said, most)}."] if said else []


def _overlaps(notes: WorkNotes, manners: Manners) -> list[str]:
    said = [f"{title_text(one)} with {title_text(other)} on {manners.day(day)}" for day, one, other in notes.overlaps]
    return [f"Overlapping hours: {_some(said)}."] if said else []


def _average(average: AverageWeek | None) -> list[str]:
    if average is None:
        return []
    return [f"{hours_text(round(average.average))} of work a week on average over {count_text(average.weeks, 'week')}, more than 48 h."]


def _rests(notes: WorkNotes, manners: Manners) -> list[str]:
    said = [f"{hours_text(each.minutes)} before {manners.day(manners.local(each.started).date())}" for each in notes.rests]
    return [f"Less than 11 h between two workdays: {_some(said)}."] if said else []


def _breaks(notes: WorkNotes, manners: Manners) -> list[str]:
    said = [f"{hours_text(each.minutes)} on {manners.day(each.day)}" for each in notes.breaks]
    return [f"More than 6 h without a break: {_some(said)}."] if said else []


def _some(said: Sequence[str], most: int | None = MOST_NAMED) -> str:
    """The first few by name, and how many more there are; all of them without a ``most``."""
    more = [f"{len(said) - most} more"] if most is not None and len(said) > most else []
    return listed([*said[:most], *more])
