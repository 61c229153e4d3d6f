"""Logging hours."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.actions.goal_time import goal_noted, minutes_left
from bot.actions.naming import category_name, category_named
from bot.actions.refused import Stopped, refused
from bot.actions.routine_days import note_done, routine_noted
from bot.actions.spent_on import in_categories, planned_for, tasks_of
from bot.actions.task_time import as_left
from bot.actions.today import today
from bot.language.meaning import Log, SaidStint
from bot.rules.local_time import day_bounds, elapsed_minutes, instant_shown
from bot.rules.spans import Span, overlap, without
from bot.voice.manners import title_text
from bot.voice.replies import DayTooFull, HoursClash, Logged, LoggedItem, NotedAlready, Reply, StillToCome
from storage.desk import Desk
from storage.records import Goal, Stint

AHEAD = timedelta(minutes=15)
"""How far before its end hours may be logged, as people do on their way out; common practice, no source."""


def log(desk: Desk, said: Log) -> Reply:
    """Keeps every stint said, or none of them and says what is in the way."""
    said = in_categories(desk, said)
    if said.corrects is not None and desk.stints.find(said.corrects) is not None:
        desk.stints.remove(said.corrects)
    stints = [stint_of(desk, each) for each in said.stints]
    if said.despite is None:
        _check(desk, said, stints)
    if said.ends_clock:
        _end_clock(desk)
    kept = [(piece, words) for stint, words in zip(stints, said.stints, strict=True) for piece in _keep(desk, stint, said.despite)]
    return Logged(tuple(_told(desk, stint, words) for stint, words in kept), corrected=said.corrects is not None)


def _end_clock(desk: Desk) -> None:
    running = desk.running.current()
    if running is None:
        raise refused("nothing runs")
    desk.running.remove(running.id)


def _told(desk: Desk, stint: Stint, said: SaidStint) -> LoggedItem:
    """The kept stint, how what was not said of it was chosen, and the routine that it says was done."""
    item = replace(item_of(desk, stint), why=said.why, began=said.began)
    routine, goal = routine_noted(desk, stint.note), goal_noted(desk, stint.note, stint.day) if not stint.task_ids else None
    if goal is not None and routine is None:
        return _told_of_goal(desk, item, goal)
    return item if routine is None else replace(item, routine=routine.title, learned=note_done(desk, routine, stint))


def _told_of_goal(desk: Desk, item: LoggedItem, goal: Goal) -> LoggedItem:
    """The hours with the goal that they were for, which takes their category where it has none, and what it still wants."""
    learned = goal.category_id is None
    if learned:
        desk.goals.change(replace(goal, category_id=item.stint.category_id))
    return replace(item, goal=goal, left=minutes_left(desk, (goal,), item.stint.day).get(goal.id, 0), learned=learned)


def item_of(desk: Desk, stint: Stint) -> LoggedItem:
    """A kept stint with its category's total of that day, and the tasks that it was spent on."""
    total = sum(each.minutes for each in desk.stints.on(stint.day) if each.category_id == stint.category_id)
    paid = desk.jobs.of_category(stint.category_id) is not None
    tasks = as_left(desk, (task for id in stint.task_ids if (task := desk.tasks.find(id)) is not None))
    return LoggedItem(category_name(desk, stint.category_id) or "", stint, total, paid=paid, tasks=tasks)


def stint_of(desk: Desk, said: SaidStint) -> Stint:
    """The stint that is said, not kept yet. Raises Stopped where it has no time or names a task that is not there."""
    category = category_named(desk, said.category or "")
    starts, ends = _instants(desk, said)
    minutes = elapsed_minutes(starts, ends) - said.break_minutes if starts and ends else said.minutes
    if minutes <= 0 and said.began == "planned":
        raise refused("nothing planned today", title_text(category.name))
    if minutes <= 0:
        raise refused("nothing but break" if said.break_minutes else "no time at all")
    stint = Stint(0, category.id, said.day, minutes, starts, ends, said.break_minutes, tasks_of(desk, said), said.note)
    return stint if stint.task_ids or stint.note else replace(stint, task_ids=planned_for(desk, stint))


def _instants(desk: Desk, said: SaidStint) -> tuple[datetime | None, datetime | None]:
    """Start and end in UTC; an end that is not after the start is on the next day."""
    if said.start is None:
        return None, None
    starts = instant_shown(said.day, said.start, desk.person.zone)
    if said.end is None:
        return starts, starts + timedelta(minutes=said.minutes + said.break_minutes)
    # Over a repeated hour the clock may show less at the end than at the start, and yet time has passed.
    same_day = instant_shown(said.day, said.end, desk.person.zone)
    if said.end > said.start or same_day > starts:
        return starts, same_day
    return starts, instant_shown(said.day + timedelta(days=1), said.end, desk.person.zone)


def _check(desk: Desk, said: Log, stints: list[Stint]) -> None:
    """Raises Stopped when the hours are still to come, overlap others, or are more than the day holds."""
    for stint, words in zip(stints, said.stints, strict=True):
        check_past(desk, said, stint, words)
        told = _told_before(desk, stint)
        if told:
            raise Stopped(NotedAlready(said, category_name(desk, stint.category_id) or "", stint.day, told))
    clashes = clashes_of(desk, stints)
    if clashes:
        raise Stopped(HoursClash(said, tuple((category_name(desk, each.category_id) or "", each) for each in clashes)))
    for day in {stint.day for stint in stints}:
        _check_day(desk, said, day, stints)


def _told_before(desk: Desk, stint: Stint) -> tuple[Stint, ...]:
    """All hours of its category and day, where a length alone is likelier theirs, told again, than more of them.

    So it is where it is theirs to the minute, but for today's without times, which may well be followed by as many more;
    and of paid work with times on a day that is over.
    """
    there = tuple(each for each in desk.stints.on(stint.day) if each.category_id == stint.category_id)
    if not there or stint.starts is not None or stint.note is not None or stint.task_ids:
        return ()
    over, timed = stint.day < today(desk), all(each.starts is not None for each in there)
    same = sum(each.minutes for each in there) == stint.minutes
    paid = over and timed and desk.jobs.of_category(stint.category_id) is not None
    return there if (same and (over or timed)) or paid else ()


def check_past(desk: Desk, said: Log | None, stint: Stint, words: SaidStint) -> None:
    """Raises Stopped when the hours are still to come or under way."""
    if stint.day > today(desk) or (stint.ends is not None and stint.ends > desk.now + AHEAD):
        name, under_way = category_name(desk, stint.category_id) or "", stint.starts is not None and stint.starts <= desk.now
        raise Stopped(StillToCome(said, name, stint.day, words.start, words.end, under_way))


def _check_day(desk: Desk, said: Log, day: date, stints: list[Stint]) -> None:
    kept = sum(each.minutes for each in desk.stints.on(day))
    minutes = kept + sum(each.minutes for each in stints if each.day == day)
    most = elapsed_minutes(*day_bounds(day, desk.person.zone))
    if minutes > most:
        raise Stopped(DayTooFull(said, day, minutes, most))


def clashes_of(desk: Desk, stints: list[Stint]) -> list[Stint]:
    """Kept stints that overlap one of these, and of these those that overlap an earlier one."""
    timed = [(stint, Span(stint.starts, stint.ends)) for stint in stints if stint.starts and stint.ends]
    kept = [each for _, span in timed for each in desk.stints.overlapping(span.starts, span.ends)]
    among = [one for i, (one, span) in enumerate(timed) if any(overlap(span, other) for _, other in timed[i + 1 :])]
    return list(dict.fromkeys(kept + among))


def _keep(desk: Desk, stint: Stint, despite: str | None) -> list[Stint]:
    """Adds the stint, after making room for it or cutting it to the room there is; a length takes the place of what it tells again."""
    if despite == "replace":
        for each in _told_before(desk, stint):
            desk.stints.remove(each.id)
    if stint.starts is None or stint.ends is None or despite not in ("replace", "trim"):
        return [desk.stints.add(stint)]
    in_the_way = desk.stints.overlapping(stint.starts, stint.ends)
    if despite == "replace":
        for each in in_the_way:
            desk.stints.remove(each.id)
        return [desk.stints.add(stint)]
    return [desk.stints.add(piece) for piece in _trimmed(stint, in_the_way)]


def _trimmed(stint: Stint, in_the_way: tuple[Stint, ...]) -> list[Stint]:
    """What is left of a timed stint beside others; its break stays with the longest piece that can hold it."""
    if stint.starts is None or stint.ends is None:
        return [stint]
    taken = [Span(each.starts, each.ends) for each in in_the_way if each.starts and each.ends]
    pieces = without(Span(stint.starts, stint.ends), taken)
    longest = max(pieces, key=lambda span: span.minutes, default=None)
    if longest is None or longest.minutes <= stint.break_minutes:
        raise refused("no time at all")
    breaks = [stint.break_minutes if span == longest else 0 for span in pieces]
    return [
        replace(stint, starts=span.starts, ends=span.ends, break_minutes=off, minutes=span.minutes - off)
        for span, off in zip(pieces, breaks, strict=True)
    ]
