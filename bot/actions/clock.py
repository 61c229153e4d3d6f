"""The running clock: in, out."""

from __future__ import annotations

from datetime import datetime, time, timedelta

from bot.actions.hours import item_of
from bot.actions.naming import category_name, category_named
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.language.meaning import ClockIn, ClockOut
from bot.rules.local_time import elapsed_minutes, instant_of, local_day
from bot.voice.manners import time_text
from bot.voice.replies import AlreadyRunning, ClockedIn, Logged, LoggedItem, Refusal, Reply
from storage.desk import Desk
from storage.records import Running, Stint


def clock_in(desk: Desk, said: ClockIn) -> Reply:
    """Starts the clock for a category; one that runs for another is ended at that moment."""
    category = category_named(desk, said.category or "")
    starts = _instant(desk, said.time)
    running = desk.running.current()
    if running and running.category_id == category.id:
        raise Stopped(AlreadyRunning(category.name, running))
    ended = _end(desk, running, starts) if running else None
    desk.running.add(Running(0, category.id, starts))
    return ClockedIn(category.name, starts, ended)


def clock_out(desk: Desk, said: ClockOut) -> Reply:
    """Ends the clock that runs and keeps its hours."""
    running = desk.running.current()
    if running is None or (said.category and category_named(desk, said.category).id != running.category_id):
        raise refused("nothing runs")
    ends = _instant(desk, said.time)
    if ends <= running.starts:
        raise refused("end before start", time_text(said.time) if said.time else "now")
    ended = _end(desk, running, ends)
    return Refusal("no time at all") if ended is None else Logged((ended,))


def _instant(desk: Desk, at: time | None) -> datetime:
    """Now, or today's ``at``; raises Stopped when that is still to come."""
    if at is None:
        return desk.now.replace(second=0, microsecond=0)
    instant = instant_of(today(desk), at, desk.person.zone)
    if instant > desk.now + timedelta(minutes=1):
        raise refused("clock in the future", time_text(at))
    return instant


def _end(desk: Desk, running: Running, ends: datetime) -> LoggedItem | None:
    """Takes the running row away and keeps its stint, unless it is shorter than a minute."""
    desk.running.remove(running.id)
    minutes = elapsed_minutes(running.starts, ends)
    if minutes <= 0:
        return None
    day = local_day(running.starts, desk.person.zone)
    stint = desk.stints.add(Stint(0, running.category_id, day, minutes, running.starts, ends))
    return item_of(desk, stint)


def running_words(desk: Desk) -> tuple[str, datetime] | None:
    """The name of the category whose clock runs and since when, or None."""
    running = desk.running.current()
    return None if running is None else (category_name(desk, running.category_id) or "", running.starts)
