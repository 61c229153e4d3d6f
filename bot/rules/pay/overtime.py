"""Overtime of one workweek for one employer.

Each week stands alone: nothing is averaged over two. Source: 29 CFR 778.104.
Money is exact until it is shown: a third of a cent has no decimal, so sums
are fractions of the decimals they come from, and never binary floats.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from itertools import groupby
from typing import Final

from bot.rules.pay.rounding import MINUTES_AN_HOUR
from bot.rules.weeks import DAYS_A_WEEK
from storage.records import Limit, OvertimeRules

ONCE: Final = Decimal(1)


@dataclass(frozen=True, slots=True)
class Worked:
    """A day's paid minutes in one job, and what an hour of them pays, where it is known."""

    day: date
    category_id: int
    minutes: int
    per_hour: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Share:
    """``minutes`` of a day's work that pay ``times`` the regular rate."""

    worked: Worked
    minutes: int
    times: Decimal


def shares_of_week(week: Iterable[Worked], rules: OvertimeRules) -> tuple[Share, ...]:
    """One workweek's work, all jobs of the employer, split by how many times the regular rate it pays.

    The later work is the overtime: within a day in the order given. Daily
    limits come first, and what they leave is measured by the weekly ones, so
    that no hour counts twice. Source: California Labor Code, section 510.
    """
    by_day = [(day, tuple(group)) for day, group in groupby(sorted(week, key=lambda each: each.day), key=lambda each: each.day)]
    worked_days = [day for day, group in by_day if any(each.minutes for each in group)]
    seventh = worked_days[-1] if len(worked_days) == DAYS_A_WEEK else None
    by_days = (share for day, group in by_day for share in _cut(_whole(group), rules.seventh_day if day == seventh else rules.daily))
    return tuple(share for share in _cut(by_days, rules.weekly) if share.minutes)


def regular_rate(week: Sequence[Worked], bonus: Decimal = Decimal(0)) -> Fraction | None:
    """What an hour of the week pays on average over all its rates, a ``bonus`` for the week's work included.

    None when some of its rates are unknown or nothing was worked. Source: 29 CFR 778.110 and 778.115.
    """
    earned = straight_pay(week)
    minutes = sum(each.minutes for each in week)
    if earned is None or not minutes:
        return None
    return (earned + Fraction(bonus)) * MINUTES_AN_HOUR / minutes


def straight_pay(week: Iterable[Worked]) -> Fraction | None:
    """What the hours pay at their own rates, overtime as any other; None when some of the rates are unknown."""
    earned = Fraction(0)
    for each in week:
        if each.per_hour is None:
            return None
        earned += Fraction(each.per_hour) * each.minutes / MINUTES_AN_HOUR
    return earned


def premium(minutes: int, times: Decimal, rate: Fraction) -> Fraction:
    """What overtime of ``minutes`` at ``times`` the regular ``rate`` an hour pays on top of straight pay."""
    return rate * Fraction(times - ONCE) * minutes / MINUTES_AN_HOUR


def _whole(group: Iterable[Worked]) -> Iterator[Share]:
    return (Share(each, each.minutes, ONCE) for each in group)


def _cut(shares: Iterable[Share], limits: Sequence[Limit]) -> Iterator[Share]:
    """The shares cut where their sum passes a limit. What pays more already neither counts nor is cut."""
    so_far = 0
    for share in shares:
        if share.times != ONCE:
            yield share
            continue
        yield from _cut_one(share, so_far, limits)
        so_far += share.minutes


def _cut_one(share: Share, so_far: int, limits: Sequence[Limit]) -> Iterator[Share]:
    starts, times = so_far, ONCE
    for limit in limits:
        ends = min(max(limit.over_minutes, starts), so_far + share.minutes)
        yield Share(share.worked, ends - starts, times)
        starts, times = ends, limit.times
    yield Share(share.worked, so_far + share.minutes - starts, times)
