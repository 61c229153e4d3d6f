"""What is next, whether a day is full, and when it is free: the answer first, then what the day holds."""

from __future__ import annotations

from bot.voice.manners import Manners, hours_text, listed
from bot.voice.message import Message, Page
from bot.voice.replies import FreeTimes, HowFull, PlanLine, WhatsNext
from bot.voice.views_said import day_view, free_line, open_task_lines, plan_lines, running_lines

MOST_AHEAD = 6
MOST_TASKS = 5


def whats_next(reply: WhatsNext, manners: Manners) -> Message:
    """What is under way and until when, what comes next and when, the rest of the day, and the open tasks that have no hours in it."""
    page = Page()
    page.heading(manners.long_day(reply.view.day))
    page.lines([f"Now, until {manners.clock(line.ends)}: {_named(line)}." for line in reply.under_way])
    for line in reply.ahead[:1]:
        page.line(f"Next, {manners.span(line.starts, line.ends)}: {_named(line)}.")
    if not reply.ahead:
        page.line("Nothing more is fixed or planned today.")
    page.some(plan_lines(reply.ahead[1:], manners), MOST_AHEAD, "today")
    planned = {line.number for line in (*reply.under_way, *reply.ahead)}
    tasks = open_task_lines(tuple(task for task in reply.view.tasks if task.number not in planned), manners)
    if tasks:
        page.gap()
        page.line("Tasks without hours")
        page.some(tasks, MOST_TASKS, "tasks")
    page.gap()
    page.lines(running_lines(reply.view.running, manners))
    page.line(free_line(reply.view))
    return page.message()


def _named(line: PlanLine) -> str:
    return line.title if line.number is None else f"{line.number} {line.title}"


def how_full(reply: HowFull, manners: Manners) -> Message:
    """Yes or no, and the day."""
    has_room = reply.minutes > 0
    word = "Yes" if has_room is reply.is_free else "No"
    room = f"{hours_text(reply.minutes)} can still be filled" if has_room else "nothing more can be filled"
    return day_view(reply.view, manners, f"{word}: {room}.")


def free_times(reply: FreeTimes, manners: Manners) -> Message:
    """The stretches that are free, and the day."""
    spans = [manners.span(each.starts, each.ends) for each in reply.spans if each.minutes]
    return day_view(reply.view, manners, f"You are free {listed(spans)}." if spans else "No time is free.")
