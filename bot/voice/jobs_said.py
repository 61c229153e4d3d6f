"""What is settled for a job, a sentence a rule."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from decimal import Decimal

from bot.language.meaning import Show
from bot.language.pay_meaning import SetJobWord
from bot.rules.pay.job_rules import JobRules
from bot.voice.manners import LONG_DAYS, Manners, count_text, employed, hours_text, listed, title_text
from bot.voice.message import Message, Page, Tap, rows_of
from bot.voice.recurrence_words import nth
from bot.voice.replies import JobKept, JobShown, JobsView, ReminderKept
from bot.voice.timesheet_words import in_cents, rounding_said
from storage.records import Limit, PayPeriod

A_RATE = Decimal("14.50")
SHORTEST_MONTH = 28
MOST_RATES = 3
"""Rates that are shown, the latest ones."""

LIMIT_WORDS = {"weekly": "a week", "daily": "a day", "seventh_day": "on the seventh day in a row of a workweek"}


def job_kept(reply: JobKept, manners: Manners) -> Message:
    """The rule as it is now."""
    page, name = Page(), title_text(reply.shown.job.name)
    if reply.what == "new":
        page.line(f"{name} is a job now, for {reply.shown.job.employer}. {_pay_period(reply.shown, manners)}")
        if reply.shown.job.rates:
            page.lines(_rates(reply.shown, manners))
            page.line(f"“job {reply.shown.job.name}” shows all that is settled, and “help jobs” what else can be.")
            return page.message()
        page.line(f"Write what else is settled, such as “rate {reply.shown.job.name} {manners.number(A_RATE)}”; “help jobs” has more.")
        return page.message()
    lines = LINES[reply.what](reply.shown, manners)
    page.line(f"{name}: {lines[0][:1].lower()}{lines[0][1:]}")
    page.lines(lines[1:])
    return page.message() if reply.midweek is None else _midweek(page, reply.shown.job, reply.midweek)


def _midweek(page: Page, job: JobRules, said: date) -> Message:
    """That a period begins with the workweek, and a button that lets the workweek begin on the day that was said."""
    day = LONG_DAYS[said.weekday()]
    page.line(f"A period begins with the workweek, on {LONG_DAYS[job.week_starts]}, not on {day}. If this job's weeks begin on {day}:")
    return page.message(((Tap(f"Weeks of {job.name} begin on {day}", SetJobWord(job.name, "workweek", day.lower())),),))


def jobs_view(reply: JobsView, manners: Manners) -> Message:
    """All of one job, or a line for each of several with a button to see all of it."""
    page = Page()
    if len(reply.jobs) > 1:
        page.heading("Your jobs")
        page.lines([_in_a_line(each, manners) for each in reply.jobs])
        taps = [Tap(title_text(each.job.name), Show("job", category=each.job.name)) for each in reply.jobs]
        return page.message(rows_of(taps, 3))
    shown = reply.jobs[0]
    page.heading(employed(shown.job.name, shown.job.employer))
    page.lines(list(_all_lines(shown, manners)))
    return page.message(((Tap("Timesheet", Show("timesheet", category=shown.job.name)),),))


def _in_a_line(shown: JobShown, manners: Manners) -> str:
    """ "Museum, Museum of Canals and Locks: paid every two weeks, next on Fri 6 Mar"."""
    payday = f", next on {manners.day(shown.payday)}" if shown.payday else ""
    return f"{employed(shown.job.name, shown.job.employer)}: paid {period_words(shown.job)}{payday}"


def _all_lines(shown: JobShown, manners: Manners) -> Iterator[str]:
    yield _pay_period(shown, manners)
    yield _payday(shown, manners)
    yield _workweek(shown)
    yield from _rates(shown, manners)
    yield _rounding(shown)
    yield from _breaks(shown)
    yield from _overtime(shown, manners)


def reminder_kept(reply: ReminderKept, manners: Manners) -> Message:
    """Of which jobs payday's eve is told."""
    page = Page()
    names = listed([title_text(each.job.name) for each in reply.jobs])
    if not reply.on:
        page.line(f"No word before payday any more: {names}.")
        return page.message()
    page.line(f"I write the day before payday: {names}.")
    paydays = [f"{title_text(each.job.name)} {manners.day(each.payday)}" for each in reply.jobs if each.payday]
    if paydays:
        page.line(f"Next paydays: {listed(paydays)}.")
    return page.message()


def _pay_period(shown: JobShown, manners: Manners) -> str:
    clipped = shown.job.pay_period is PayPeriod.MONTHLY and shown.job.month_starts > SHORTEST_MONTH
    words = period_words(shown.job) + (", or a shorter month's last day" if clipped else "")
    return f"Paid {words}; the period now is {manners.days(shown.first, shown.last)}."


def period_words(job: JobRules) -> str:
    """ "monthly", "monthly from the 21st"."""
    begins = f" from the {nth(job.month_starts)}" if job.pay_period is PayPeriod.MONTHLY and job.month_starts > 1 else ""
    return f"{job.pay_period.value}{begins}"


def _payday(shown: JobShown, manners: Manners) -> str:
    after = shown.job.payday_after
    if after is None or shown.payday is None:
        return "Payday is not known."
    when = f"{count_text(after, 'day')} after a period ends" if after else "on a period's last day"
    told = "; I write the day before" if shown.remind else ""
    return f"Payday {when}, next on {manners.day(shown.payday)}{told}."


def _workweek(shown: JobShown) -> str:
    return f"The workweek starts on {LONG_DAYS[shown.job.week_starts]}."


def _rates(shown: JobShown, manners: Manners) -> list[str]:
    rates = shown.job.rates[-MOST_RATES:]
    lines = [f"{manners.number(in_cents(each.per_hour))} {shown.job.currency} an hour from {manners.day(each.since)}." for each in rates]
    return lines or [f"No rate is given, so there are hours only; the currency is {shown.job.currency}."]


def _rounding(shown: JobShown) -> str:
    return rounding_said(shown.job.rounding) if shown.job.rounding else "Hours are paid to the minute, without rounding."


def _breaks(shown: JobShown) -> list[str]:
    rules = [f"A day over {hours_text(each.after_minutes)}: {hours_text(each.minutes)} of unpaid break." for each in shown.job.breaks]
    return rules or ["No break is taken off but those you note."]


def _overtime(shown: JobShown, manners: Manners) -> list[str]:
    return list(_limits(shown.job, manners)) or ["No overtime rules."]


def _limits(job: JobRules, manners: Manners) -> Iterator[str]:
    if job.overtime is None:
        return
    for name, said in LIMIT_WORDS.items():
        limits: tuple[Limit, ...] = getattr(job.overtime, name)
        for each in limits:
            over = f"over {hours_text(each.over_minutes)} " if each.over_minutes else ""
            yield f"Overtime {over}{said}: {manners.number(each.times.normalize())} times the rate."


LINES: dict[str, Callable[[JobShown, Manners], list[str]]] = {
    "rates": _rates,
    "currency": _rates,
    "rounding": lambda shown, manners: [_rounding(shown)],
    "breaks": lambda shown, manners: _breaks(shown),
    "pay period": lambda shown, manners: [_pay_period(shown, manners)],
    "payday": lambda shown, manners: [_payday(shown, manners)],
    "overtime": _overtime,
    "workweek": lambda shown, manners: [_workweek(shown)],
    "employer": lambda shown, manners: [f"the employer is {shown.job.employer}."],
}
