"""What was called off of what is fixed in time, so that it can be moved instead of lost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from bot.actions.events import events_between
from bot.rules.local_time import day_bounds, local_day
from bot.rules.occurrences import occurrences, own_day
from storage.desk import Desk
from storage.records import Commitment, Occurrence

MOVED_WITHIN = timedelta(days=7)
"""What takes place once, under the name of a series and this near to a time left out of it, is that time moved; no source."""


def called_off(desk: Desk, first: date, last: date) -> tuple[Occurrence, ...]:
    """The times from day ``first`` to ``last`` that were cancelled one by one and are not in a calendar, earliest first."""
    zone = desk.person.zone
    opens, closes = day_bounds(first, zone)[0], day_bounds(last, zone)[1]
    singles = desk.commitments.singles_between(opens - MOVED_WITHIN, closes + MOVED_WITHIN)
    events = {(each.title, each.starts) for each in events_between(desk, first, last)}
    once = [
        Occurrence(each, local_day(each.starts, zone), each.starts, each.ends)
        for each in singles
        if each.cancelled and opens <= each.starts < closes and (each.title, each.starts) not in events
    ]
    series = [each for each in desk.commitments.recurring(closes) if each.except_days and not each.cancelled]
    left_out = [each for one in series for each in _not_moved(_left_out(one, first - MOVED_WITHIN, last + MOVED_WITHIN, zone), singles)]
    return tuple(sorted((*once, *(each for each in left_out if first <= each.day <= last)), key=lambda each: each.starts))


def _left_out(series: Commitment, first: date, last: date, zone: str) -> list[Occurrence]:
    """The times of a series that its days left out would have had."""
    whole = occurrences((replace(series, except_days=()),), first, last, zone)
    return [replace(each, commitment=series) for each in whole if own_day(each) in series.except_days]


def _not_moved(left_out: list[Occurrence], singles: Iterable[Commitment]) -> list[Occurrence]:
    """Without those that take place under the name of their series nearby, each of which tells of the nearest: moving keeps them so."""
    for single in singles:
        near = [each for each in left_out if each.commitment.title == single.title and _apart(each, single) <= MOVED_WITHIN]
        if near:
            left_out = [each for each in left_out if each is not min(near, key=lambda each: _apart(each, single))]
    return left_out


def _apart(one: Occurrence, other: Commitment) -> timedelta:
    return abs(one.starts - other.starts)
