"""Answers about what stands from week to week: routines and targets."""

from __future__ import annotations

from bot.voice.manners import Manners, hours_text, title_text
from bot.voice.message import Message, Page, one_line
from bot.voice.recurrence_words import rule_words
from bot.voice.replies import RoutineAdded, RoutineDone, RoutineDropped, RoutinesView, TargetDropped, TargetKept
from storage.records import Routine, Target

MOST_LISTED = 12


def routine_added(reply: RoutineAdded, manners: Manners) -> Message:
    """The routine in exact terms."""
    return one_line(f"{'Routine changed' if reply.changed else 'Routine'}: {_routine_words(reply.routine, reply.category, manners)}.")


def _routine_words(routine: Routine, category: str | None, manners: Manners) -> str:
    words = f"{routine.title}, {hours_text(routine.minutes)}, {rule_words(routine.rule, manners.date_order)}"
    if routine.window_start and routine.window_end:
        words += f", between {manners.time_of_day(routine.window_start)} and {manners.time_of_day(routine.window_end)}"
    return f"{words}, {title_text(category)}" if category else words


def routine_done(reply: RoutineDone, manners: Manners) -> Message:
    """On which day it is done."""
    return one_line(f"Done {manners.near_day(reply.day)}: {reply.title}.")


def routine_dropped(reply: RoutineDropped, manners: Manners) -> Message:
    """What is done no more."""
    return one_line(f"No longer a routine: {reply.routine.title}.")


def routines_view(reply: RoutinesView, manners: Manners) -> Message:
    """One line a routine, by number; then the targets."""
    page = Page()
    if not reply.routines and not reply.targets:
        page.line(f"No routines and no targets yet. Write, for example: {manners.example('routine exercise 30m every day 7-9')}")
        return page.message()
    if reply.routines:
        page.heading("Routines")
        page.lines([f"{number} {_routine_words(*each, manners)}" for number, each in enumerate(reply.routines[:MOST_LISTED], 1)])
    if len(reply.routines) > MOST_LISTED:
        page.line(f"and {len(reply.routines) - MOST_LISTED} more")
    if reply.targets:
        page.heading("Hours wanted a week")
        page.lines([f"{title_text(category)}: {target_words(target)}" for target, category in reply.targets])
    page.line(_how_to_end(reply))
    return page.message()


def _how_to_end(reply: RoutinesView) -> str:
    """How one of those shown is ended, as it may be typed."""
    ways = [f"drop routine {reply.routines[0][0].title}"] if reply.routines else []
    ways += [f"no target {reply.targets[0][1]}"] if reply.targets else []
    return f"To end one, write: {' or '.join(ways)}"


def target_kept(reply: TargetKept, manners: Manners) -> Message:
    """The hours wanted per week."""
    return one_line(f"{title_text(reply.category)}: {target_words(reply.target)} a week, from {manners.near_day(reply.target.since)} on.")


def target_dropped(reply: TargetDropped, manners: Manners) -> Message:
    """That no hours are wanted any more."""
    return one_line(f"{title_text(reply.category)}: no hours wanted a week any more, from {manners.near_day(reply.since)} on.")


def target_words(target: Target) -> str:
    """The bounds of a target."""
    return bounds_words(target.at_least_minutes, target.at_most_minutes)


def bounds_words(least: int | None, most: int | None) -> str:
    """ "at least 5 h", "at most 20 h", "5 h to 10 h"."""
    if least is not None and most is not None:
        return f"{hours_text(least)} to {hours_text(most)}"
    if least is not None:
        return f"at least {hours_text(least)}"
    return f"at most {hours_text(most or 0)}"
