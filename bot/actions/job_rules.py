"""What an employer has settled, as the person tells it: each rule is kept with the job and can be taken back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal

from bot.actions.jobs import job_meant, rules_for, shown
from bot.actions.refused import refused
from bot.actions.schedule import plan_paydays
from bot.actions.today import today
from bot.language import pay_meaning as p
from bot.rules.pay.job_rules import LIMITS, LONGEST_WAIT, days_to
from bot.rules.pay.periods import WEEKS
from bot.voice.replies import JobKept, ReminderKept, Reply
from bot.voice.replies.pay import Settled
from storage.desk import Desk
from storage.records import (
    BreakRule,
    Category,
    Job,
    JobRate,
    Limit,
    OvertimeRules,
    PayPeriod,
    Rounded,
    Rounding,
    RoundingStep,
    Weekday,
)

MOST_TIMES = 10
UNSAID_CURRENCY = Job(0, 0, "").currency
"""What a job has of which nobody said in which currency it pays."""

STEPS = {step.value for step in RoundingStep}


def new_job(desk: Desk, said: p.NewJob) -> Reply:
    """Makes a category paid work, with its pay, and the category too where there is none of that name.

    Raises Stopped where it is a job already, and where some of the words were not understood.
    """
    if said.left is not None:
        raise refused("new job not read", said.left)
    category = desk.categories.named(said.name) or desk.categories.add(Category(0, said.name, _section_of_work(desk)))
    if desk.jobs.of_category(category.id) is not None:
        raise refused("job there", category.name)
    period = PayPeriod(said.paid) if said.paid else PayPeriod.WEEKLY
    employer = said.employer or category.name
    job = desk.jobs.add(Job(0, category.id, employer, period, anchor=said.anchor, month_starts=said.month_starts or 1))
    if said.per_hour is not None:
        return replace(set_rate(desk, p.SetRate(category.name, said.per_hour, None, said.currency)), what="new")
    return JobKept(shown(desk, job), "new")


def _section_of_work(desk: Desk) -> str:
    """The section "work", or that of the first job, or the first."""
    named = desk.sections.named("work")
    if named is not None:
        return named.name
    jobs = desk.jobs.all()
    return desk.categories.get(jobs[0].category_id).section if jobs else desk.sections.all()[0].name


def set_rate(desk: Desk, said: p.SetRate) -> JobKept:
    """What an hour pays from a day on; where none was said, from today, and a first rate from the job's first hours."""
    job, per_hour = job_meant(desk, said), Decimal(said.per_hour)
    if not per_hour:
        raise refused("bad value", said.per_hour)
    rates = desk.job_rates.of(job.id)
    since = said.since or (today(desk) if rates else _first_day(desk, job))
    same = next((each for each in rates if each.since == since), None)
    if same is None:
        desk.job_rates.add(JobRate(0, job.id, since, per_hour))
    else:
        desk.job_rates.change(replace(same, per_hour=per_hour))
    currency = said.currency or (job.currency if rates else _currency_of_others(desk, job))
    return _kept(desk, replace(job, currency=currency), "rates")


def _currency_of_others(desk: Desk, job: Job) -> str:
    """What a first rate without a currency is in: the only one in which the other jobs pay, unless the job was given one of its own."""
    used = {each.currency for each in desk.jobs.all() if each.id != job.id and desk.job_rates.of(each.id)}
    return used.pop() if len(used) == 1 and job.currency == UNSAID_CURRENCY else job.currency


def _first_day(desk: Desk, job: Job) -> date:
    """The first day of the period with the job's first hours, or of today's."""
    hours = desk.stints.for_category_between(job.category_id, date.min, today(desk))
    return rules_for(desk, job).period_of(hours[0].day if hours else today(desk))[0]


def set_rounding(desk: Desk, said: p.SetRounding) -> Reply:
    """How the employer rounds, or that it does not. Raises Stopped for a step that no rule allows."""
    if said.step is not None and said.step not in STEPS:
        raise refused("no such step", str(said.step))
    rounding = None if said.step is None else Rounding(RoundingStep(said.step), Rounded(said.what))
    return _kept(desk, replace(job_meant(desk, said), rounding=rounding), "rounding")


def set_break(desk: Desk, said: p.SetBreak) -> Reply:
    """A break that is taken off, beside those after other lengths of work; or none at all."""
    job = job_meant(desk, said)
    if said.after_minutes is None:
        return _kept(desk, replace(job, breaks=()), "breaks")
    if not 0 < said.minutes < said.after_minutes:
        raise refused("break too long")
    others = [each for each in job.breaks if each.after_minutes != said.after_minutes]
    breaks = sorted((*others, BreakRule(said.after_minutes, said.minutes)), key=lambda each: each.after_minutes)
    return _kept(desk, replace(job, breaks=tuple(breaks)), "breaks")


def set_pay_period(desk: Desk, said: p.SetPayPeriod) -> Reply:
    """How often the job is paid; weeks are counted from the anchor, where one was said, and months begin on the day said, else the 1st."""
    job = job_meant(desk, said)
    paid = replace(job, pay_period=PayPeriod(said.paid), anchor=said.anchor or job.anchor, month_starts=said.month_starts or 1)
    kept = _kept(desk, paid, "pay period")
    midweek = said.anchor is not None and kept.shown.job.pay_period in WEEKS and said.anchor.weekday() != kept.shown.job.week_starts
    return replace(kept, midweek=said.anchor) if midweek else kept


def set_payday(desk: Desk, said: p.SetPayday) -> Reply:
    """How many days after a period's last one it is paid. Raises Stopped for a day of the month that is not always as many after it."""
    job = job_meant(desk, said)
    if said.on is not None:
        after = days_to(rules_for(desk, job), said.on)
        if after is None:
            raise refused("payday moves", rules_for(desk, job).name)
        return _kept(desk, replace(job, payday_after=after), "payday")
    if said.days_after is not None and said.days_after > LONGEST_WAIT:
        raise refused("bad value", f"{said.days_after} days")
    return _kept(desk, replace(job, payday_after=said.days_after), "payday")


def set_overtime(desk: Desk, said: p.SetOvertime) -> Reply:
    """A limit beyond which hours pay more; one of the same multiple is replaced. Or no overtime at all. Raises Stopped."""
    job = job_meant(desk, said)
    if said.over_minutes is None or said.times is None:
        return _kept(desk, replace(job, overtime=None), "overtime")
    times = Decimal(said.times)
    if not 1 < times <= MOST_TIMES:
        raise refused("bad value", f"{said.times} times")
    rules, name = job.overtime or OvertimeRules(), LIMITS[said.of]
    others = [each for each in getattr(rules, name) if each.times != times and each.over_minutes != said.over_minutes]
    limits = sorted((*others, Limit(said.over_minutes, times)), key=lambda each: each.over_minutes)
    if [each.times for each in limits] != sorted(each.times for each in limits):
        raise refused("limits fall")
    return _kept(desk, replace(job, overtime=replace(rules, **{name: tuple(limits)})), "overtime")


def set_job_word(desk: Desk, said: p.SetJobWord) -> Reply:
    """The workweek's first day, the currency or the employer."""
    return _kept(desk, WORDS[said.name](job_meant(desk, said), said.value), said.name)


WORDS: dict[str, Callable[[Job, str], Job]] = {
    "workweek": lambda job, value: replace(job, week_starts=Weekday[value.upper()]),
    "currency": lambda job, value: replace(job, currency=value),
    "employer": lambda job, value: replace(job, employer=value),
}


def remind_payday(desk: Desk, said: p.RemindPayday) -> Reply:
    """Whether a word comes on payday's eve, for one job or each whose payday is known. Raises Stopped where none is."""
    jobs = (job_meant(desk, said),) if said.category else desk.jobs.all()
    wanted = [job for job in jobs if job.payday_after is not None or not said.on]
    if not wanted:
        raise refused("no payday", rules_for(desk, jobs[0]).name if jobs else "")
    kept = [desk.jobs.change(replace(job, remind=said.on)) for job in wanted]
    plan_paydays(desk)
    return ReminderKept(said.on, tuple(shown(desk, job) for job in kept))


def _kept(desk: Desk, job: Job, what: Settled) -> JobKept:
    return JobKept(shown(desk, desk.jobs.change(job)), what)
