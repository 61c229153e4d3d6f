"""A job's hours in its pay period."""

from __future__ import annotations

from datetime import date
from itertools import groupby

from bot.actions.naming import category_name, category_named
from bot.actions.refused import refused
from bot.actions.today import today
from bot.language.meaning import Show
from bot.rules.pay.periods import pay_period_of
from bot.voice.replies import Question, Reply, TimesheetView
from storage.desk import Desk
from storage.records import Job


def timesheet(desk: Desk, said: Show) -> Reply:
    """The job's stints by day in the pay period of the day asked for, by default today's."""
    jobs = desk.jobs.all()
    if said.category is None and len(jobs) > 1:
        return Question(tuple(Show("timesheet", said.day, said.first, said.last, category_name(desk, job.category_id)) for job in jobs))
    job = _job(desk, said, jobs)
    first, last = _span(desk, said, job)
    stints = sorted(desk.stints.for_category_between(job.category_id, first, last), key=lambda stint: (stint.day, stint.id))
    days = tuple((each, tuple(group)) for each, group in groupby(stints, key=lambda stint: stint.day))
    return TimesheetView(job, category_name(desk, job.category_id) or "", first, last, days)


def _span(desk: Desk, said: Show, job: Job) -> tuple[date, date]:
    """The span asked for, else the pay period of the day asked for, by default today's."""
    if said.first is not None and said.last is not None:
        return said.first, said.last
    return pay_period_of(said.day or said.first or today(desk), job.pay_period, desk.person.week_starts)


def _job(desk: Desk, said: Show, jobs: tuple[Job, ...]) -> Job:
    wanted = category_named(desk, said.category).id if said.category else None
    job = next((each for each in jobs if wanted in (None, each.category_id)), None)
    if job is None:
        raise refused("no job", said.category or "")
    return job
