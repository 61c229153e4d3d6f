"""What the language must know of the person: the context of a reply."""

from __future__ import annotations

from datetime import datetime, time

from bot.actions.agenda import busy_on
from bot.actions.clock import running_words
from bot.actions.naming import category_names
from bot.actions.open_tasks import open_for
from bot.actions.today import local_now, this_month, today
from bot.language.context import Context, Named, Planned
from bot.rules.local_time import local, local_day
from storage.desk import Desk
from storage.records import Horizon, Occurrence


def context_of(desk: Desk) -> Context:
    """The person's categories, open tasks, running clock and planned hours, at the desk's instant."""
    person = desk.person
    jobs = {job.category_id for job in desk.jobs.all()}
    running = running_words(desk)
    busy = [each for each in busy_on(desk, today(desk)) if each.commitment.category_id is not None]
    return Context(
        now=local_now(desk),
        categories=tuple(Named(each.name, each.aliases, each.section, each.id in jobs) for each in desk.categories.all()),
        sections=tuple(section.name for section in desk.sections.all()),
        waking_start=person.waking_start,
        waking_end=person.waking_end,
        week_starts=person.week_starts,
        date_order=person.date_order,
        tasks=tuple((task.number, task.title) for task in open_for(desk, today(desk))),
        goals=tuple(goal.title for goal in desk.goals.open_for(Horizon.MONTH, this_month(desk))),
        clocked_in=running[0] if running else None,
        clocked_since=_since(desk, running[1]) if running else None,
        planned=tuple(_planned(desk, each) for each in busy if each.day == today(desk)),
        ran_in=tuple(_planned(desk, each) for each in busy if each.day < today(desk)),
        last_end=_last_end(desk),
    )


def _since(desk: Desk, starts: datetime) -> time | None:
    """The local time at which the running clock was started; None where that was on another day."""
    return local(starts, desk.person.zone).time() if local_day(starts, desk.person.zone) == today(desk) else None


def _last_end(desk: Desk) -> time | None:
    """The local time at which the latest of today's hours ended; None where none has a time, or they end on another day."""
    ends = [local(each.ends, desk.person.zone) for each in desk.stints.on(today(desk)) if each.ends is not None]
    return max(ends).time() if ends and max(ends).date() == today(desk) else None


def _planned(desk: Desk, each: Occurrence) -> Planned:
    assert each.commitment.category_id is not None
    name, zone = category_names(desk)[each.commitment.category_id], desk.person.zone
    return Planned(name, local(each.starts, zone).time(), local(each.ends, zone).time(), each.commitment.title)
