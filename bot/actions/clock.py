"""The running clock: in, out."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time, timedelta

from bot.actions.hours import log
from bot.actions.naming import category_name, category_named
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.language.meaning import Amend, ClockIn, ClockOut, Log, SaidStint
from bot.rules.local_time import elapsed_minutes, instant_of, local, local_day
from bot.voice.manners import title_text
from bot.voice.replies import AlreadyRunning, ClockedIn, ClockVoided, Logged, LoggedItem, LongClock, Question, Refusal, Reply
from bot.voice.times_of_day import time_text
from storage.desk import Desk
from storage.records import Running

LONGEST = timedelta(hours=16)
"""A clock that ran longer was probably forgotten. Common practice, no source."""

MOST_OF_A_DAY = 23 * 60


def clock_in(desk: Desk, said: ClockIn) -> Reply:
    """Starts the clock for a category; one that runs for another is ended at that moment."""
    if said.category is None:
        raise Stopped(Question(tuple(replace(said, category=category_name(desk, job.category_id)) for job in desk.jobs.all())))
    category = category_named(desk, said.category)
    starts = _instant(desk, said.time)
    running = desk.running.current()
    if running and running.category_id == category.id:
        raise Stopped(AlreadyRunning(category.name, running))
    if said.time is not None:
        _ask_if_noted(desk, said, category.id, starts)
    ended = _end(desk, running, starts) if running else None
    desk.running.add(Running(0, category.id, starts))
    return ClockedIn(category.name, starts, ended)


def _ask_if_noted(desk: Desk, said: ClockIn, category_id: int, starts: datetime) -> None:
    """Raises Stopped where the category has noted hours after ``starts``: these may have begun then, or the clock starts now."""
    noted = next((each for each in desk.stints.overlapping(starts, desk.now) if each.category_id == category_id), None)
    if noted is not None:
        corrected = Amend(start=said.time, of_category=said.category, of_day=noted.day, id=noted.id)
        raise Stopped(Question((corrected, ClockIn(said.category))))


def clock_out(desk: Desk, said: ClockOut) -> Reply:
    """Ends the clock that runs and keeps its hours, unless they are too many to be true or in the way of others."""
    running = desk.running.current()
    if running is None or (said.category and category_named(desk, said.category).id != running.category_id):
        raise refused("nothing runs")
    if said.void:
        desk.running.remove(running.id)
        return ClockVoided(category_name(desk, running.category_id) or "", running.starts)
    ends = _end_of(desk, running, said)
    if ends <= running.starts:
        raise refused("end before start", time_text(said.time, desk.person.clock_style) if said.time else "now")
    hours = _as_said(desk, running, ends)
    if ends - running.starts > LONGEST and said.day is None:
        raise Stopped(LongClock(hours, running.starts, ends))
    if hours.stints[0].minutes <= 0:
        desk.running.remove(running.id)
        return Refusal("no time at all")
    return log(desk, hours)


def _end_of(desk: Desk, running: Running, said: ClockOut) -> datetime:
    """When the clock ends: now, the time said on the day said, or the first such time since the clock started."""
    if said.time is None:
        return desk.now.replace(second=0, microsecond=0)
    zone = desk.person.zone
    day = said.day or local_day(running.starts, zone)
    ends = instant_of(day, said.time, zone)
    if said.day is None and ends <= running.starts and instant_of(day + timedelta(days=1), said.time, zone) <= desk.now:
        ends = instant_of(day + timedelta(days=1), said.time, zone)
    if ends > desk.now + timedelta(minutes=1):
        raise refused("clock in the future", title_text(time_text(said.time, desk.person.clock_style)))
    return ends


def _as_said(desk: Desk, running: Running, ends: datetime) -> Log:
    """The hours of the clock as the person would have said them."""
    zone = desk.person.zone
    starts = local(running.starts, zone)
    minutes = elapsed_minutes(running.starts, ends)
    category = category_name(desk, running.category_id)
    # A clock time is within a day of its start; hours that are longer are told by their length.
    end = None if minutes > MOST_OF_A_DAY else local(ends, zone).time()
    stint = SaidStint(category, starts.date(), minutes, starts.time().replace(second=0, microsecond=0), end)
    return Log((stint,), ends_clock=True)


def _instant(desk: Desk, at: time | None) -> datetime:
    """Now, or today's ``at``; raises Stopped when that is still to come."""
    if at is None:
        return desk.now.replace(second=0, microsecond=0)
    instant = instant_of(today(desk), at, desk.person.zone)
    if instant > desk.now + timedelta(minutes=1):
        raise refused("clock in the future", title_text(time_text(at, desk.person.clock_style)))
    return instant


def _end(desk: Desk, running: Running, ends: datetime) -> LoggedItem | None:
    """Takes the running row away and keeps its stint, unless it is shorter than a minute."""
    said = _as_said(desk, running, ends)
    if said.stints[0].minutes <= 0:
        desk.running.remove(running.id)
        return None
    reply = log(desk, said)
    return reply.items[0] if isinstance(reply, Logged) else None


def running_words(desk: Desk) -> tuple[str, datetime] | None:
    """The name of the category whose clock runs and since when, or None."""
    running = desk.running.current()
    return None if running is None else (category_name(desk, running.category_id) or "", running.starts)
