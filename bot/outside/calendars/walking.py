"""A recurrence rule -> the times on the clock at which it recurs.

A rule is walked period by period, and only the periods that can reach the
wanted stretch are looked at, so a rule years old is as quick as a new one, and
one that never comes true costs no more than the stretch does. Source: RFC
5545, section 3.3.10.
"""

from __future__ import annotations

from calendar import isleap, monthrange
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import product

from bot.outside.calendars.limits import Allowance
from bot.outside.calendars.rules import Frequency, NthWeekday, Rule
from bot.rules.local_time import ONE_DAY

UNITS = {
    Frequency.HOURLY: timedelta(hours=1),
    Frequency.MINUTELY: timedelta(minutes=1),
    Frequency.SECONDLY: timedelta(seconds=1),
}
DAYS_A_WEEK = 7
MONTHS_A_YEAR = 12
ONE_HOUR = timedelta(hours=1)


def walk(rule: Rule, first: datetime, opens: datetime, closes: datetime, allowance: Allowance) -> Iterator[datetime]:
    """The times at which ``rule`` recurs from ``opens`` up to but not including ``closes``, in order.

    All are times on one clock; ``first`` is that of the event's start, which
    is among them only if the rule says so. Raises TooMuchWork.
    """
    rule = _filled_from(first, rule)
    left = rule.count
    for wall in _candidates(rule, first, opens, closes, allowance):
        if wall < first:
            continue
        if wall >= closes or (rule.until is not None and wall > rule.until):
            return
        if wall >= opens:
            yield wall
        if left is not None:
            left -= 1
            if left == 0:
                return


def _filled_from(first: datetime, rule: Rule) -> Rule:
    """The rule with what it leaves open taken from the start of the event."""
    rule = _with_days_from(first, rule)
    if rule.frequency <= Frequency.DAILY:
        rule = replace(rule, hours=rule.hours or frozenset({first.hour}))
    if rule.frequency <= Frequency.HOURLY:
        rule = replace(rule, minutes=rule.minutes or frozenset({first.minute}))
    if rule.frequency <= Frequency.MINUTELY:
        rule = replace(rule, seconds=rule.seconds or frozenset({first.second}))
    return rule


def _with_days_from(first: datetime, rule: Rule) -> Rule:
    if rule.year_days or rule.month_days or rule.weekdays:
        return rule
    if rule.week_numbers or rule.frequency is Frequency.WEEKLY:
        return replace(rule, weekdays=(NthWeekday(0, first.weekday()),))
    if rule.frequency is Frequency.YEARLY:
        return replace(rule, months=rule.months or frozenset({first.month}), month_days=frozenset({first.day}))
    if rule.frequency is Frequency.MONTHLY:
        return replace(rule, month_days=frozenset({first.day}))
    return rule


def _candidates(rule: Rule, first: datetime, opens: datetime, closes: datetime, allowance: Allowance) -> Iterator[datetime]:
    """The times of every period that may reach from ``opens`` to ``closes``; of one that is counted, from its start on."""
    if first >= closes:
        return
    near = first if rule.count is not None else max(first, opens)
    walked = _within_days if rule.frequency > Frequency.DAILY else _over_days
    for times in walked(rule, first, near, closes, allowance):
        yield from _at_positions(rule, times)


def _at_positions(rule: Rule, times: list[datetime]) -> Iterable[datetime]:
    if not rule.positions:
        return times
    count = len(times)
    places = {position - 1 if position > 0 else count + position for position in rule.positions}
    return [times[place] for place in sorted(places) if 0 <= place < count]


# Rules whose periods are days or longer.


def _over_days(rule: Rule, first: datetime, near: datetime, closes: datetime, allowance: Allowance) -> Iterator[list[datetime]]:
    clock = product(sorted(rule.hours), sorted(rule.minutes), sorted(rule.seconds))
    times = [time(hour, minute, second) for hour, minute, second in clock]
    last = min(closes, rule.until) if rule.until is not None else closes
    for days in _periods(rule, first.date(), near.date(), last.date()):
        allowance.spend(len(days))
        fitting = [day for day in days if _fits(rule, day)]
        allowance.spend(len(fitting) * len(times))
        yield [datetime.combine(day, at) for day in fitting for at in times]


def _periods(rule: Rule, first: date, near: date, last: date) -> Iterator[list[date]]:
    """The days of each period of the rule from the one that holds ``near`` to the one that holds ``last``."""
    match rule.frequency:
        case Frequency.YEARLY:
            for year in _every(rule.interval, first.year, near.year, last.year):
                yield _days_of_year(rule, year)
        case Frequency.MONTHLY:
            for month in _every(rule.interval, _month_number(first), _month_number(near), _month_number(last)):
                yield _days_of_month(*divmod(month, MONTHS_A_YEAR))
        case Frequency.WEEKLY:
            monday = first.toordinal() - (first.weekday() - rule.week_starts) % DAYS_A_WEEK
            for day in _every(DAYS_A_WEEK * rule.interval, monday, near.toordinal(), last.toordinal()):
                yield [date.fromordinal(day + number) for number in range(DAYS_A_WEEK)]
        case _:
            for day in _every(rule.interval, first.toordinal(), near.toordinal(), last.toordinal()):
                yield [date.fromordinal(day)]


def _every(step: int, first: int, near: int, last: int) -> range:
    """Every ``step`` from ``first``, starting with the latest that is not after ``near``, to ``last``."""
    return range(first + (near - first) // step * step, last + 1, step)


def _month_number(day: date) -> int:
    return day.year * MONTHS_A_YEAR + day.month - 1


def _days_of_month(year: int, month_from_zero: int) -> list[date]:
    month = month_from_zero + 1
    return [date(year, month, day) for day in range(1, monthrange(year, month)[1] + 1)]


def _days_of_year(rule: Rule, year: int) -> list[date]:
    months = sorted(rule.months) or range(1, MONTHS_A_YEAR + 1)
    return [day for month in months for day in _days_of_month(year, month - 1)]


# Rules whose periods are hours or shorter.


def _within_days(rule: Rule, first: datetime, near: datetime, closes: datetime, allowance: Allowance) -> Iterator[list[datetime]]:
    unit = UNITS[rule.frequency]
    step = rule.interval * unit
    starts = datetime.combine(first.date(), time.min) + (first - datetime.combine(first.date(), time.min)) // unit * unit
    at = starts + (near - starts) // step * step
    last = min(closes, rule.until) if rule.until is not None else closes
    while at <= last:
        allowance.spend()
        skip_to = _next_that_may_fit(rule, at)
        if skip_to > at:
            at += -((at - skip_to) // step) * step
            continue
        yield _times_of_period(rule, at)
        at += step


def _next_that_may_fit(rule: Rule, at: datetime) -> datetime:
    """``at`` itself if it passes, or the first moment after what rules it out."""
    if not _fits(rule, at.date()):
        return datetime.combine(at.date() + ONE_DAY, time.min)
    if rule.hours and at.hour not in rule.hours:
        return at.replace(minute=0, second=0) + ONE_HOUR
    if rule.frequency > Frequency.HOURLY and rule.minutes and at.minute not in rule.minutes:
        return at.replace(second=0) + timedelta(minutes=1)
    if rule.frequency is Frequency.SECONDLY and rule.seconds and at.second not in rule.seconds:
        return at + timedelta(seconds=1)
    return at


def _times_of_period(rule: Rule, at: datetime) -> list[datetime]:
    minutes = sorted(rule.minutes) if rule.frequency is Frequency.HOURLY else [at.minute]
    seconds = sorted(rule.seconds) if rule.frequency < Frequency.SECONDLY else [at.second]
    return [at.replace(minute=minute, second=second) for minute in minutes for second in seconds]


# Whether a day is one of the rule's.


def _fits(rule: Rule, day: date) -> bool:
    return (
        (not rule.months or day.month in rule.months)
        and (not rule.month_days or _is_numbered(rule.month_days, day.day, monthrange(day.year, day.month)[1]))
        and (not rule.weekdays or any(_is_nth(rule, nth, day) for nth in rule.weekdays))
        and (not rule.year_days or _is_numbered(rule.year_days, day.timetuple().tm_yday, _days_in(day.year)))
        and (not rule.week_numbers or _is_numbered(rule.week_numbers, *_week(day, rule.week_starts)))
    )


def _is_numbered(wanted: frozenset[int], number: int, highest: int) -> bool:
    """Whether ``number`` is wanted, counted from the front or from the back."""
    return number in wanted or number - highest - 1 in wanted


def _is_nth(rule: Rule, wanted: NthWeekday, day: date) -> bool:
    if day.weekday() != wanted.weekday:
        return False
    # The RFC gives a number no meaning but in months and years.
    if wanted.nth == 0 or rule.frequency > Frequency.MONTHLY:
        return True
    if rule.frequency is Frequency.YEARLY and not rule.months:
        number, highest = day.timetuple().tm_yday, _days_in(day.year)
    else:
        number, highest = day.day, monthrange(day.year, day.month)[1]
    if wanted.nth > 0:
        return (number - 1) // DAYS_A_WEEK + 1 == wanted.nth
    return (highest - number) // DAYS_A_WEEK + 1 == -wanted.nth


def _days_in(year: int) -> int:
    return 366 if isleap(year) else 365


def _week(day: date, week_starts: int) -> tuple[int, int]:
    """The number of the week that ``day`` is in, and of the last week of that week's year.

    A week belongs to the year that has four of its days or more, as in ISO
    8601, but starts on ``week_starts``.
    """
    fourth = day - timedelta(days=(day.weekday() - week_starts) % DAYS_A_WEEK) + timedelta(days=3)
    weeks_after = (_days_in(fourth.year) - fourth.timetuple().tm_yday) // DAYS_A_WEEK
    number = (fourth.timetuple().tm_yday - 1) // DAYS_A_WEEK + 1
    return number, number + weeks_after
