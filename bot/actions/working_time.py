"""What to look at in a week's working time: for the recap."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.handed_in import all_changed
from bot.actions.naming import category_names
from bot.rules.local_time import local_day
from bot.rules.pay.working_time import (
    WEEKS_AVERAGED,
    average_week,
    missed_breaks,
    missing_hours,
    overlaps_of_jobs,
    short_rests,
)
from bot.rules.weeks import DAYS_A_WEEK
from bot.voice.replies.pay import WorkNotes
from storage.desk import Desk

ONE_WEEK = timedelta(days=DAYS_A_WEEK)


def work_notes(desk: Desk, first: date, last: date) -> WorkNotes:
    """The week from ``first`` to ``last`` over all jobs, by the limits that many laws have; nothing without a job.

    Of sick days no hours are missed.
    """
    jobs = {job.category_id for job in desk.jobs.all()}
    if not jobs:
        return WorkNotes()
    names, zone = category_names(desk), desk.person.zone
    work = [stint for stint in desk.stints.between(first - ONE_WEEK, last) if stint.category_id in jobs]
    week = [stint for stint in work if stint.day >= first]
    sick = {each.day for each in desk.sick_days.between(first, last)}
    shifts = [each for each in agenda(desk, first, last) if each.commitment.blocks_hours and each.day not in sick]
    average = average_week(_minutes(desk, jobs, last), last)
    return WorkNotes(
        missing=tuple((names[each.category_id], each) for each in missing_hours(shifts, work, jobs, desk.now)),
        overlaps=tuple((two.day, names[one.category_id], names[two.category_id]) for one, two in overlaps_of_jobs(week)),
        average=average if average and average.too_long else None,
        rests=tuple(rest for rest in short_rests(work) if local_day(rest.started, zone) >= first),
        breaks=missed_breaks(week),
        changed=all_changed(desk),
    )


def _minutes(desk: Desk, jobs: Iterable[int], last: date) -> Mapping[date, int]:
    """The minutes of all ``jobs`` on each day of the weeks that are averaged, and of one more, before which nothing counts."""
    minutes: Counter[date] = Counter()
    for job in jobs:
        minutes.update(desk.stints.minutes_by_day(job, last - (WEEKS_AVERAGED + 1) * ONE_WEEK, last))
    return minutes
