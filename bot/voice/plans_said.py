"""Answers about what is fixed in time: commitments, routines, targets."""

from __future__ import annotations

from datetime import date

from bot.language.meaning import Cancel, Move
from bot.voice.manners import Manners, hours_text, listed, time_text, title_text
from bot.voice.message import Message, Page, Rows, Tap, rows_of
from bot.voice.recurrence_words import rule_words
from bot.voice.replies import CommitmentCancelled, CommitmentKept, OneOrAll, RoutineAdded, TargetKept
from storage.records import Occurrence, Target


def occurrence_words(occurrence: Occurrence, manners: Manners) -> str:
    """ "13:00–17:00 Museum shift", with "minor" and "outdoors" where it is."""
    commitment = occurrence.commitment
    extras = [
        word for word, holds in (("minor", not commitment.major and not commitment.all_day), ("outdoors", commitment.outdoors)) if holds
    ]
    hours = "all day" if commitment.all_day else manners.span(occurrence.starts, occurrence.ends)
    return f"{hours} {commitment.title}" + (f" ({', '.join(extras)})" if extras else "")


def commitment_kept(reply: CommitmentKept, manners: Manners) -> Message:
    """The commitment in exact terms, and what it crowds or crosses."""
    page = Page()
    verb = "Moved" if reply.verb == "moved" else "Added"
    page.line(f"{verb}: {_when_and_what(reply, manners)}.")
    page.lines(_remarks(reply, manners))
    return page.message(_move_rows(reply, manners))


def _when_and_what(reply: CommitmentKept, manners: Manners) -> str:
    words = f"{manners.day(reply.occurrence.day)}, {occurrence_words(reply.occurrence, manners)}"
    if reply.commitment.rule:
        words += f", {rule_words(reply.commitment.rule)}"
    return f"{words}, {title_text(reply.category)}" if reply.category else words


def _remarks(reply: CommitmentKept, manners: Manners) -> list[str]:
    lines = []
    if reply.end_assumed:
        lines.append("An hour long, as no end was said.")
    if reply.clashes:
        lines.append(f"At the same time: {listed(list(reply.clashes))}.")
    if reply.outside_waking:
        lines.append("It lies outside your waking hours.")
    if reply.too_many:
        lines.append(_too_many(reply, manners))
    return lines


def _too_many(reply: CommitmentKept, manners: Manners) -> str:
    line = f"{manners.day(reply.occurrence.day)} now has {reply.majors} major commitments; more than three is a lot for one day."
    if not reply.lighter:
        return f"{line} No lighter day of that week has that part of day free."
    return f"{line} Lighter, with that part of day free: {listed([manners.day(day) for day in reply.lighter])}."


def _move_rows(reply: CommitmentKept, manners: Manners) -> Rows:
    taps = [Tap(f"Move to {manners.day(day)}", _move(reply, day), True) for day in reply.lighter]
    return rows_of(taps, 2)


def _move(reply: CommitmentKept, day: date) -> Move:
    return Move(None, day, id=reply.commitment.id, from_day=reply.occurrence.day)


def commitment_cancelled(reply: CommitmentCancelled, manners: Manners) -> Message:
    """What was cancelled."""
    page = Page()
    if reply.whole_series:
        page.line(f"Cancelled, every time: {reply.title}.")
    else:
        page.line(f"Cancelled: {manners.day(reply.occurrence.day)}, {occurrence_words(reply.occurrence, manners)}.")
    return page.message()


def one_or_all(reply: OneOrAll, manners: Manners) -> Message:
    """Whether once or every time, as two buttons."""
    occurrence = reply.occurrence
    page = Page()
    page.line(f"{occurrence.commitment.title} is on {rule_words(occurrence.commitment.rule or '')}. Cancel it once, or every time?")
    taps = (
        Tap(f"Only {manners.day(occurrence.day)}", Cancel(None, occurrence.day, id=occurrence.commitment.id), True),
        Tap("Every time", Cancel(None, id=occurrence.commitment.id), True),
    )
    return page.message((taps,))


def routine_added(reply: RoutineAdded, manners: Manners) -> Message:
    """The routine in exact terms."""
    routine = reply.routine
    page = Page()
    words = f"Routine: {routine.title}, {hours_text(routine.minutes)}, {rule_words(routine.rule)}"
    if routine.window_start and routine.window_end:
        words += f", between {time_text(routine.window_start)} and {time_text(routine.window_end)}"
    page.line(f"{words}, {title_text(reply.category)}." if reply.category else f"{words}.")
    return page.message()


def target_kept(reply: TargetKept, manners: Manners) -> Message:
    """The hours wanted per week."""
    page = Page()
    page.line(f"{title_text(reply.category)}: {target_words(reply.target)} a week, from {manners.near_day(reply.target.since)} on.")
    return page.message()


def target_words(target: Target) -> str:
    """ "at least 5 h", "at most 20 h", "5 h to 10 h"."""
    least, most = target.at_least_minutes, target.at_most_minutes
    if least is not None and most is not None:
        return f"{hours_text(least)} to {hours_text(most)}"
    if least is not None:
        return f"at least {hours_text(least)}"
    return f"at most {hours_text(most or 0)}"
