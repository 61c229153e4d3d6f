"""Answers about hours: logged, corrected, in the way of others, or not to be."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from bot.language.meaning import AddCommitment, Amend, ClockOut, Close, Log, SaidStint, Several, Undo
from bot.language.pick import Pick
from bot.rules.clock_went import clock_went, which_pass
from bot.rules.local_time import elapsed_minutes
from bot.voice.manners import Manners, hours_text, listed, title_text
from bot.voice.message import Message, Page, Rows, Tap, clipped, one_line, with_lines
from bot.voice.replies import (
    AlreadyRunning,
    ClockedIn,
    ClockVoided,
    Logged,
    LoggedItem,
    LongClock,
    TakenOut,
    Undone,
)
from storage.records import Stint, Task, TaskState

WHY = {"clocked in": "as you are clocked in there", "planned": "as planned at that hour"}
LONG = 4 * 60
"""Minutes from which hours at a job likely had a break; common practice, no source."""
USUAL_BREAK = 30
MOST_STANDING = 3
"""Hours that are named when what came in their place is taken back."""
A_WEEK = 7
"""Days."""

BEGAN = {"planned": "as planned", "last hours": "where your latest hours end"}


def stint_line(category: str, stint: Stint, manners: Manners) -> str:
    """A stint in exact terms: "Museum, Tue 3 Mar, 13:00–17:00, less 30 min: 3 h 30"."""
    parts = [title_text(category), manners.day(stint.day)]
    if stint.starts and stint.ends:
        parts.append(manners.span(stint.starts, stint.ends))
    if stint.break_minutes:
        parts.append(f"less {hours_text(stint.break_minutes)}")
    return f"{', '.join(parts)}: {hours_text(stint.minutes)}"


def as_noted(stint: Stint, manners: Manners) -> str:
    """ "13:00–15:00: 2 h, essay": its times where they are known, and its note."""
    hours = hours_text(stint.minutes)
    timed = f"{manners.span(stint.starts, stint.ends)}: {hours}" if stint.starts and stint.ends else hours
    return f"{timed}, {stint.note}" if stint.note else timed


def logged(reply: Logged, manners: Manners) -> Message:
    """Each stint in exact terms, then the totals of the day."""
    page = Page()
    for item in reply.items:
        page.lines(_item_lines(item, manners))
    page.lines(_totals(reply.items, manners))
    page.lines(_unlogged_lines("Still to come, not logged", reply.ahead, manners))
    page.lines(_unlogged_lines("In part noted before, so not logged", reply.in_part, manners))
    if reply.corrected:
        page.line("This replaces what was logged before.")
    instead = None if reply.corrected or reply.by_plan else _planned_instead(reply.items, manners)
    if instead:
        page.line("That is past, so I took it as hours spent.")
    rows = (
        *_close_rows(reply.items),
        *_break_rows(reply.items),
        *(((Tap("Log the rest of it", Log(reply.in_part, despite="trim")),),) if reply.in_part else ()),
        *(((Tap(_planning_words(instead, manners), instead),),) if instead else ()),
    )
    return replace(page.message(rows), about=tuple(stint_line(item.category, item.stint, manners) for item in reply.items))


def _unlogged_lines(why: str, planned: tuple[SaidStint, ...], manners: Manners) -> list[str]:
    """ "Still to come, not logged: 18:15–19:00 carer."."""
    words = [f"{manners.times(each.start, each.end)} {each.category}" for each in planned if each.start and each.category]
    return [f"{why}: {listed(words)}."] if words else []


def undone(reply: Undone, manners: Manners) -> Message:
    """What was taken back or done again, and the hours that are as they were before it."""
    line = f"{'Done again' if reply.again else 'Taken back'}: “{reply.summary}”"
    stands = [stint_line(category, stint, manners) for category, stint in reply.stands[:MOST_STANDING]]
    return replace(with_lines(one_line(line), [f"Back to: {'; '.join(stands)}"] if stands else []), about=(line,))


def _planned_instead(items: tuple[LoggedItem, ...], manners: Manners) -> Several | None:
    """Shifts of several days lately past, or of one that is nearer as a day to come, may be meant for a week later.

    Then the hours are taken back, and planned there.
    """
    ago = {(manners.today - item.stint.day).days for item in items}
    perhaps = len(ago) > 1 or any(days > A_WEEK / 2 for days in ago)
    if not perhaps or not all(0 < days < A_WEEK for days in ago) or any(item.why for item in items):
        return None
    planned = [_a_week_on(item, manners) for item in items]
    return Several((Undo(), *(each for each in planned if each))) if all(planned) else None


def _planning_words(instead: Several, manners: Manners) -> str:
    """ "Plan Sat 28 Nov instead", or "Plan the coming days instead" of more than one."""
    days = [each.day for each in instead.parts if isinstance(each, AddCommitment)]
    return f"Plan {manners.day(days[0])} instead" if len(days) == 1 else "Plan the coming days instead"


def _a_week_on(item: LoggedItem, manners: Manners) -> AddCommitment | None:
    starts, ends = item.stint.starts, item.stint.ends
    if starts is None or ends is None:
        return None
    day = item.stint.day.fromordinal(item.stint.day.toordinal() + A_WEEK)
    return AddCommitment(title_text(item.category), day, manners.local(starts).time(), manners.local(ends).time(), item.category)


def _break_rows(items: tuple[LoggedItem, ...]) -> Rows:
    """One tap for the usual break of a long stint of paid work that was told without one."""
    stint = items[0].stint if len(items) == 1 and items[0].paid else None
    if stint is None or stint.starts is None or stint.break_minutes or stint.minutes < LONG:
        return ()
    return ((Tap(f"Less {hours_text(USUAL_BREAK)}", Amend(break_minutes=USUAL_BREAK)),),)


def _item_lines(item: LoggedItem, manners: Manners) -> list[str]:
    lines = [stint_line(item.category, item.stint, manners)]
    went = clock_went(item.stint.starts, item.stint.ends, manners.zone) if item.stint.starts and item.stint.ends else None
    if went:
        lines.append(f"The clock went {went}, so {hours_text(item.stint.minutes + item.stint.break_minutes)} passed from start to end.")
    for instant in (item.stint.starts, item.stint.ends):
        taken = which_pass(instant, manners.zone) if instant else None
        if instant and taken:
            lines.append(f"{manners.clock(instant)} came twice that night; this is the {taken}.")
    if item.why:
        lines.append(f"{title_text(item.category)}, {WHY[item.why]}.")
    if item.began and item.stint.starts:
        lines.append(f"From {manners.clock(item.stint.starts)}, {BEGAN[item.began]}.")
    lines += [_task_line(task) for task in item.tasks]
    if item.routine:
        lines += _routine_lines(item, item.routine, manners)
    elif item.goal:
        lines += _goal_lines(item, item.goal.title)
    elif item.stint.note and item.stint.note.lower() not in [task.title.lower() for task in item.tasks]:
        lines.append(f"Note: {item.stint.note}")
    if item.closed:
        lines.append(f"Closed: {listed(list(item.closed))}.")
    return lines


def _routine_lines(item: LoggedItem, routine: str, manners: Manners) -> list[str]:
    return [f"Done {manners.near_day(item.stint.day)}: {routine}.", *_learned(item, routine)]


def _goal_lines(item: LoggedItem, goal: str) -> list[str]:
    left = f": {hours_text(item.left)} left" if item.left else ""
    return [f"For {goal}, a goal of the week{left}.", *_learned(item, goal)]


def _learned(item: LoggedItem, title: str) -> list[str]:
    return [f"From now on {title} counts for {title_text(item.category)}."] if item.learned else []


def _task_line(task: Task) -> str:
    """What the hours were for, and what they leave of its estimate."""
    if task.estimate_minutes is None or task.state is not TaskState.OPEN:
        return f"For {task.title}."
    return (
        f"For {task.title}: {hours_text(task.estimate_minutes)} left."
        if task.estimate_minutes
        else f"For {task.title}: nothing is left of its estimate."
    )


def _close_rows(items: tuple[LoggedItem, ...]) -> Rows:
    """One tap to close each open task whose estimate is used up."""
    used_up = {task.id: task for item in items for task in item.tasks if task.state is TaskState.OPEN and task.estimate_minutes == 0}
    return tuple((Tap(f"Close {clipped(task.title, 36)}", Close(Pick(ids=(task.id,)))),) for task in used_up.values())


def _totals(items: tuple[LoggedItem, ...], manners: Manners) -> list[str]:
    """One line a category and day, with the total after the last of these stints."""
    latest = {(item.category, item.stint.day): item.total for item in items}
    return [f"{title_text(name)} {manners.near_day(day)}: {hours_text(total)} in all." for (name, day), total in latest.items()]


def clocked_in(reply: ClockedIn, manners: Manners) -> Message:
    """Which clock runs since when, after what it ended."""
    page = Page()
    if reply.ended:
        page.lines(_item_lines(reply.ended, manners))
    page.line(f"{title_text(reply.category)}: clock running since {_since(reply.starts, manners)}.")
    return page.message(((Tap("Clock out", ClockOut()),),))


def long_clock(reply: LongClock, manners: Manners) -> Message:
    """How long the clock ran, and the ways out."""
    page = Page()
    since = f"{manners.day(manners.local(reply.starts).date())} {manners.clock(reply.starts)}"
    page.line(f"That would be {hours_text(elapsed_minutes(reply.starts, reply.ends))}, since {since}. Nothing is logged yet.")
    page.line(f"Write when you really stopped, like “{manners.example('out 17:00')}”.")
    taps = (
        Tap("Log all of it", replace(reply.hours, despite="keep both"), True),
        Tap("Stop, log nothing", ClockOut(void=True), True),
    )
    return page.message((taps,))


def clock_voided(reply: ClockVoided, manners: Manners) -> Message:
    """That the clock stopped and nothing was logged."""
    return one_line(f"{title_text(reply.category)}: the clock since {_since(reply.starts, manners)} is stopped, with nothing logged.")


def already_running(reply: AlreadyRunning, manners: Manners) -> Message:
    """Since when the clock has been running."""
    return one_line(
        f"{title_text(reply.category)} has been running since {_since(reply.running.starts, manners)}. Nothing changed.",
        ((Tap("Clock out", ClockOut()),),),
    )


def _since(starts: datetime, manners: Manners) -> str:
    """ "09:00", or "yesterday 09:00"."""
    day = manners.local(starts).date()
    return manners.clock(starts) if day == manners.today else f"{manners.near_day(day)} {manners.clock(starts)}"


def taken_out(reply: TakenOut, manners: Manners) -> Message:
    """The hours that are noted no longer, and what is left of that day."""
    page = Page()
    page.line(f"Deleted: {stint_line(reply.category, reply.stint, manners)}")
    left = f"{hours_text(reply.total)} in all" if reply.total else "no hours"
    page.line(f"{title_text(reply.category)} {manners.near_day(reply.stint.day)}: {left}.")
    return page.message()
