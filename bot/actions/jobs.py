"""A person's jobs: which one is meant, and what holds for it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

from bot.actions.naming import category_name, category_named, category_names
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.language.meaning import Show
from bot.rules.pay.job_rules import JobRules, rules_of
from bot.voice.replies import JobShown, JobsView, Question, Reply
from storage.desk import Desk
from storage.records import Job


def job_meant(desk: Desk, said: Any) -> Job:
    """The job of the category that ``said``, a meaning, names; the only one where it names none.

    Raises Stopped: with a question where it may be several, with a refusal where it is none.
    """
    if said.category is not None:
        category = category_named(desk, said.category)
        job = desk.jobs.of_category(category.id)
        if job is None:
            raise refused("no job", category.name)
        return job
    jobs = desk.jobs.all()
    if not jobs:
        raise refused("no jobs")
    if len(jobs) > 1:
        raise Stopped(Question(tuple(replace(said, category=category_name(desk, each.category_id)) for each in jobs)))
    return jobs[0]


def rules_for(desk: Desk, job: Job) -> JobRules:
    """What holds for ``job``, with its name and rates."""
    name = category_name(desk, job.category_id) or ""
    return rules_of(job, name, desk.job_rates.of(job.id), desk.person.week_starts)


def all_rules(desk: Desk) -> tuple[JobRules, ...]:
    """What holds for each job, in the order of the jobs."""
    names = category_names(desk)
    rates = desk.job_rates.all()
    return tuple(
        rules_of(job, names[job.category_id], [each for each in rates if each.job_id == job.id], desk.person.week_starts)
        for job in desk.jobs.all()
    )


def shown(desk: Desk, job: Job) -> JobShown:
    """The job with its period of today and its next payday."""
    rules = rules_for(desk, job)
    first, last = rules.period_of(today(desk))
    after = timedelta(days=job.payday_after or 0)
    payday = rules.payday_of(today(desk) - after) if job.payday_after is not None else None
    return JobShown(rules, first, last, payday, job.remind)


def show_jobs(desk: Desk, said: Show) -> Reply:
    """What is settled for the job asked for, or for each. Raises Stopped where there is none."""
    jobs = (job_meant(desk, said),) if said.category else desk.jobs.all()
    if not jobs:
        raise refused("no jobs")
    return JobsView(tuple(shown(desk, job) for job in jobs))


def remove_job(desk: Desk, job: Job) -> None:
    """The category is paid work no more: what was settled and handed in goes with the job, and comes back with it."""
    for rate in desk.job_rates.of(job.id):
        desk.job_rates.remove(rate.id)
    for period in desk.handed_in.of(job.id):
        desk.handed_in.remove(period.id)
    desk.jobs.remove(job.id)
