"""What to look at in one's own working time, over all jobs: long weeks, short rests, missed breaks, overlaps, hours not noted.

The limits are those of Directive 2003/88/EC and of the British Working Time
Regulations 1998; local rules differ. Only stints with times say when work
began and ended; of the others only the minutes count.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction
from typing import Final

from bot.rules.local_time import elapsed_minutes
from bot.rules.spans import Span, overlap
from bot.rules.weeks import DAYS_A_WEEK
from storage.records import Occurrence, Stint

MOST_A_WEEK: Final = 48 * 60
"""Minutes a week on average. Source: Directive 2003/88/EC, article 6(b)."""

WEEKS_AVERAGED: Final = 17
"""Source: Working Time Regulations 1998, regulation 4."""

LEAST_REST: Final = 11 * 60
"""Minutes between two workdays. Source: Directive 2003/88/EC, article 3."""

MOST_WITHOUT_BREAK: Final = 6 * 60
LEAST_BREAK: Final = 20
"""Minutes of work that call for a break, and of the break. Source: Working Time Regulations 1998, regulation 12."""

LEAST_MISSING: Final = 30
"""Fewer minutes than this between a shift and what was noted are nothing to ask about; common practice, no source."""


@dataclass(frozen=True, slots=True)
class AverageWeek:
    """Minutes worked from ``first`` to ``last``, and over how many ``weeks`` they are averaged."""

    first: date
    last: date
    minutes: int
    weeks: int

    @property
    def average(self) -> Fraction:
        """Minutes a week."""
        return Fraction(self.minutes, self.weeks)

    @property
    def too_long(self) -> bool:
        """Whether it is more than 48 hours."""
        return self.average > MOST_A_WEEK


@dataclass(frozen=True, slots=True)
class ShortRest:
    """Less than 11 hours between the end of one workday and the start of the next, UTC instants."""

    ended: datetime
    started: datetime

    @property
    def minutes(self) -> int:
        """How long it was."""
        return elapsed_minutes(self.ended, self.started)


@dataclass(frozen=True, slots=True)
class NoBreak:
    """``minutes`` of work on ``day`` without a break of 20 minutes in them."""

    day: date
    minutes: int


@dataclass(frozen=True, slots=True)
class MissingHours:
    """``minutes`` of a day's planned shifts in a category that nothing tells of."""

    day: date
    category_id: int
    minutes: int


def average_week(minutes: Mapping[date, int], until: date) -> AverageWeek | None:
    """The average of the 17 weeks that end with ``until``, or of the whole weeks since the first work, if they are fewer.

    ``minutes`` are those of each day that has work, in all jobs together. None without any up to then.
    """
    first = until - timedelta(days=WEEKS_AVERAGED * DAYS_A_WEEK - 1)
    done = {day: spent for day, spent in minutes.items() if day <= until}
    if not done:
        return None
    began = max(first, min(done))
    weeks = -(-((until - began).days + 1) // DAYS_A_WEEK)
    return AverageWeek(began, until, sum(spent for day, spent in done.items() if day >= began), weeks)


def short_rests(work: Iterable[Stint]) -> tuple[ShortRest, ...]:
    """Every rest of less than 11 hours between two workdays, earliest first. Work that goes on past midnight is one workday."""
    rests: list[ShortRest] = []
    day, ended = date.min, None
    for stint, span in _timed(work):
        if ended is None or (stint.day != day and span.starts > ended):
            if ended is not None and elapsed_minutes(ended, span.starts) < LEAST_REST:
                rests.append(ShortRest(ended, span.starts))
            day = stint.day
        ended = max(ended or span.ends, span.ends)
    return tuple(rests)


def missed_breaks(work: Sequence[Stint]) -> tuple[NoBreak, ...]:
    """The longest work of more than 6 hours without a break of 20 minutes, by day.

    A break is one that a stint notes, or the time between two stints. A stint
    without times stands alone.
    """
    longest: dict[date, int] = {}
    for stretch in (*_stretches(work), *([each] for each in work if each.starts is None)):
        minutes = sum(stint.minutes for stint in stretch)
        if minutes > MOST_WITHOUT_BREAK and not any(stint.break_minutes >= LEAST_BREAK for stint in stretch):
            day = stretch[0].day
            longest[day] = max(longest.get(day, 0), minutes)
    return tuple(NoBreak(day, longest[day]) for day in sorted(longest))


def overlaps_of_jobs(work: Iterable[Stint]) -> tuple[tuple[Stint, Stint], ...]:
    """Every pair of stints of two categories that share time, the earlier first."""
    pairs: list[tuple[Stint, Stint]] = []
    still_on: list[tuple[Stint, Span]] = []
    for stint, span in _timed(work):
        still_on = [(each, its) for each, its in still_on if its.ends > span.starts]
        pairs.extend((each, stint) for each, its in still_on if each.category_id != stint.category_id and overlap(its, span))
        still_on.append((stint, span))
    return tuple(pairs)


def missing_hours(
    shifts: Iterable[Occurrence], stints: Sequence[Stint], jobs: Collection[int], until: datetime
) -> tuple[MissingHours, ...]:
    """By day and job, the minutes of shifts over by ``until`` that no stint tells of, where they are half an hour or more.

    ``jobs`` are the categories that are paid work. A stint with times tells of
    the shifts that it shares time with, as far as its minutes go; the minutes
    of the others tell of any shift of their day. A noted break counts as told,
    because a shift is planned with its breaks.
    """
    missing: Counter[tuple[date, int]] = Counter()
    for shift, wanted in _not_told(shifts, _timed(stints)):
        job = shift.commitment.category_id
        if job is not None and job in jobs and shift.ends <= until:
            missing[shift.day, job] += wanted
    for stint in stints:
        if stint.starts is None or stint.ends is None:
            missing[stint.day, stint.category_id] -= stint.minutes + stint.break_minutes
    return tuple(MissingHours(*key, missing[key]) for key in sorted(missing) if missing[key] >= LEAST_MISSING)


def _not_told(shifts: Iterable[Occurrence], timed: Sequence[tuple[Stint, Span]]) -> Iterator[tuple[Occurrence, int]]:
    """Each shift, and its minutes that no stint of its job and time tells of; no minute of a stint tells of two shifts."""
    left = [span.minutes for _, span in timed]
    for shift in sorted(shifts, key=lambda each: (each.starts, each.ends)):
        wanted = elapsed_minutes(shift.starts, shift.ends)
        for place, (stint, span) in enumerate(timed):
            if stint.category_id == shift.commitment.category_id and overlap(shift, span):
                told = min(wanted, left[place])
                left[place], wanted = left[place] - told, wanted - told
        yield shift, wanted


def _timed(work: Iterable[Stint]) -> list[tuple[Stint, Span]]:
    """The stints with times, in order."""
    timed = [(stint, Span(stint.starts, stint.ends)) for stint in work if stint.starts is not None and stint.ends is not None]
    return sorted(timed, key=lambda each: (each[1].starts, each[1].ends))


def _stretches(work: Iterable[Stint]) -> list[list[Stint]]:
    """Stints with times that follow each other without a break between them; all jobs together."""
    stretches: list[list[Stint]] = []
    ended: datetime | None = None
    for stint, span in _timed(work):
        if ended is None or elapsed_minutes(ended, span.starts) >= LEAST_BREAK:
            stretches.append([])
        stretches[-1].append(stint)
        ended = max(ended or span.ends, span.ends)
    return stretches
