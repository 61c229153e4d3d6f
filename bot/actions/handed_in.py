"""Periods that were handed in and are no longer as they were."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from bot.actions.jobs import rules_for
from bot.actions.sheets import sheet_of
from bot.actions.today import today
from bot.rules.pay.handed_in import ChangedDay, ChangedPay, changed_since, pay_since, ruled_as_then
from bot.rules.pay.job_rules import JobRules, Rate
from bot.rules.pay.timesheet import days_of_job
from bot.voice.replies.pay import ChangedPeriod
from storage.desk import Desk
from storage.plain import Change
from storage.records import HandedIn, Job
from storage.types import RawRow

LOOKED_BACK = timedelta(weeks=53)
"""Periods that ended longer ago are not looked at unasked."""


def changed_days(desk: Desk, rules: JobRules, kept: HandedIn) -> tuple[ChangedDay, ...]:
    """The days on which the period differs from what was handed in, by the rules of then."""
    stints = desk.stints.for_category_between(rules.category_id, kept.first, kept.last)
    return changed_since(kept.days, days_of_job(ruled_as_then(rules, kept), stints, desk.person.zone))


def changed_pay(desk: Desk, rules: JobRules, kept: HandedIn) -> ChangedPay | None:
    """How the period's pay differs from what was handed in, by the rounding and the breaks of then."""
    return pay_since(kept, sheet_of(desk, ruled_as_then(rules, kept), kept.first, kept.last))


def changed_periods(desk: Desk, job: Job, rules: JobRules) -> tuple[ChangedPeriod, ...]:
    """The job's periods of the last year whose hours are not those that were handed in.

    Only a day's sum is looked at first, which the database knows; days are counted for pay only in periods where one differs.
    """
    recent = desk.handed_in.since(job.id, today(desk) - LOOKED_BACK)
    if not recent:
        return ()
    worked = desk.stints.minutes_by_day(job.category_id, min(each.first for each in recent), max(each.last for each in recent))
    found = ((each, changed_days(desk, rules, each)) for each in recent if _differs(each, worked))
    return tuple(ChangedPeriod(rules.name, each, days) for each, days in found if days)


def _differs(kept: HandedIn, worked: Mapping[date, int]) -> bool:
    """Whether some day's minutes are others than those handed in."""
    now = {day: minutes for day, minutes in worked.items() if minutes and kept.first <= day <= kept.last}
    return now != {day.day: day.worked for day in kept.days if day.worked}


def all_changed(desk: Desk) -> tuple[ChangedPeriod, ...]:
    """Those of every job."""
    return tuple(each for job in desk.jobs.all() for each in changed_periods(desk, job, rules_for(desk, job)))


def unsettled_by(desk: Desk, changes: Iterable[Change]) -> tuple[ChangedPeriod, ...]:
    """The periods handed in that ``changes`` to stints made different on days that they touch, or changes of rates in their pay."""
    known = tuple(changes)
    return (*_unsettled_by_hours(desk, known), *_unsettled_by_rates(desk, known))


def _unsettled_by_rates(desk: Desk, changes: Sequence[Change]) -> Iterator[ChangedPeriod]:
    """The periods of the last year whose hours pay otherwise since a rate, or the currency, of their job is another one.

    Where they pay as they did by the rates of before, what differs is older than these changes and was told when it came.
    """
    for job_id in sorted(set(_jobs_repaid(changes))):
        job = desk.jobs.find(job_id)
        for kept in desk.handed_in.since(job_id, today(desk) - LOOKED_BACK) if job else ():
            rules = rules_for(desk, desk.jobs.get(job_id))
            pay = changed_pay(desk, rules, kept)
            if pay and pay != changed_pay(desk, _paid_before(rules, job_id, changes), kept):
                yield ChangedPeriod(rules.name, kept, pay=pay)


def _paid_before(rules: JobRules, job_id: int, changes: Sequence[Change]) -> JobRules:
    """The job with the rates and the currency that held before the changes."""
    rates, currency = {each.since: each for each in rules.rates}, rules.currency
    for change in reversed(changes):
        if change.table == "job_rates" and job_id in _jobs_repaid((change,)):
            if change.after:
                del rates[_rate(change.after).since]
            if change.before:
                rates[_rate(change.before).since] = _rate(change.before)
        elif change.table == "jobs" and change.row_id == job_id and change.before:
            currency = str(change.before["currency"])
    return replace(rules, rates=tuple(rates[since] for since in sorted(rates)), currency=currency)


def _rate(image: RawRow) -> Rate:
    return Rate(date.fromisoformat(str(image["since"])), Decimal(str(image["per_hour"])))


def _jobs_repaid(changes: Iterable[Change]) -> Iterator[int]:
    """The jobs of which a rate or the currency is among the changes."""
    for change in changes:
        image = change.after or change.before or {}
        if change.table == "job_rates":
            yield int(str(image["job_id"]))
        elif change.table == "jobs" and change.before and change.after and change.before["currency"] != change.after["currency"]:
            yield change.row_id


def _unsettled_by_hours(desk: Desk, changes: Iterable[Change]) -> tuple[ChangedPeriod, ...]:
    touched = set(_days_touched(changes))
    if not touched:
        return ()
    days = [day for _, day in touched]
    found = []
    for kept in desk.handed_in.touching(min(days), max(days)):
        rules = rules_for(desk, desk.jobs.get(kept.job_id))
        changed = changed_days(desk, rules, kept)
        if any((rules.category_id, each.day) in touched for each in changed):
            found.append(ChangedPeriod(rules.name, kept, changed))
    return tuple(found)


def _days_touched(changes: Iterable[Change]) -> Iterator[tuple[int, date]]:
    """The category and day of each stint before and after."""
    for change in changes:
        for image in (change.before, change.after) if change.table == "stints" else ():
            if image is not None:
                yield int(str(image["category_id"])), date.fromisoformat(str(image["day"]))
