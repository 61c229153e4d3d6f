"""A day read slot by slot, as the objective states it and without the planner's own code; and every plan of a small one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby

from bot.rules.planning.asked import OpenDay, Sort, Wanted

QUARTER = timedelta(minutes=15)
IDLE = None
Rank = tuple[int, int, int, int, int]


@dataclass(frozen=True)
class NaiveThing:
    """What is wanted, in quarters, and the slots it may lie in."""

    length: int
    smallest: int
    value: int
    routine: bool
    outdoors: bool
    allowed: frozenset[int]


@dataclass(frozen=True)
class NaiveDay:
    """Which quarters are free, how many may be filled, how wet each is, and what is wanted."""

    slots: int
    free: frozenset[int]
    may_fill: int
    wet: tuple[int, ...]
    things: tuple[NaiveThing, ...]


def naive(day: OpenDay) -> NaiveDay:
    """The day, read quarter by quarter."""
    quarters = list(_quarters(day))
    free = frozenset(number for number, starts in enumerate(quarters) if not _taken(day, starts))
    return NaiveDay(
        slots=len(quarters),
        free=free,
        may_fill=len(free) * 15 * (100 - day.free_share) // 100 // 15,
        wet=tuple(_wetness(day, starts) for starts in quarters),
        things=tuple(_thing(day, wanted, quarters, free) for wanted in day.wanted),
    )


def _quarters(day: OpenDay) -> Iterator[datetime]:
    starts = day.window.starts.replace(minute=0, second=0, microsecond=0)
    while starts + QUARTER <= day.window.ends:
        if starts >= day.window.starts:
            yield starts
        starts += QUARTER


def _taken(day: OpenDay, starts: datetime) -> bool:
    return any(
        each.span.starts - timedelta(minutes=each.minutes_before) < starts + QUARTER
        and starts < each.span.ends + timedelta(minutes=each.minutes_after)
        for each in day.fixed
    )


def _wetness(day: OpenDay, starts: datetime) -> int:
    chances = [sky.wet_chance for sky in day.skies if sky.span.starts < starts + QUARTER and starts < sky.span.ends]
    return max(chances, default=50)


def _thing(day: OpenDay, wanted: Wanted, quarters: Sequence[datetime], free: frozenset[int]) -> NaiveThing:
    length = -(-wanted.minutes // 15)
    smallest = length if wanted.smallest_minutes is None else min(length, -(-wanted.smallest_minutes // 15))
    allowed = frozenset(
        number
        for number, starts in enumerate(quarters)
        if number in free
        and (wanted.window is None or (wanted.window.starts <= starts and starts + QUARTER <= wanted.window.ends))
        and not (wanted.outdoors and _is_wet(day, starts))
    )
    return NaiveThing(length, smallest, wanted.value, wanted.sort is Sort.ROUTINE, wanted.outdoors, allowed)


def _is_wet(day: OpenDay, starts: datetime) -> bool:
    return any(not sky.dry and sky.span.starts < starts + QUARTER and starts < sky.span.ends for sky in day.skies)


def best_of_all(day: NaiveDay) -> Rank:
    """The rank of the best plan, by trying every plan there is."""
    return max(rank for filled in _fillings(day, ()) if (rank := _rank(day, filled)) is not None)


def _fillings(day: NaiveDay, filled: tuple[int | None, ...]) -> Iterator[tuple[int | None, ...]]:
    """Every way to give each slot to nothing or to one thing that may lie there, none with more slots than it needs."""
    slot = len(filled)
    if slot == day.slots:
        yield filled
        return
    yield from _fillings(day, (*filled, IDLE))
    for index, thing in enumerate(day.things):
        if slot in thing.allowed and filled.count(index) < thing.length:
            yield from _fillings(day, (*filled, index))


def _rank(day: NaiveDay, filled: tuple[int | None, ...]) -> Rank | None:
    """The rank of a filling, or None when it is no possible plan."""
    runs = [(index, len(list(run))) for index, run in groupby(filled) if index is not IDLE]
    counts = {index: filled.count(index) for index, _ in runs}
    if sum(counts.values()) > day.may_fill:
        return None
    if any(count != day.things[index].length for index, count in counts.items()):
        return None
    if any(length < day.things[index].smallest for index, length in runs):
        return None
    things = [(slot, day.things[index]) for slot, index in enumerate(filled) if index is not IDLE]
    return (
        sum(day.things[index].routine for index in counts),
        sum(day.things[index].value for index in counts if not day.things[index].routine),
        -sum(thing.value * slot for slot, thing in things),
        len(counts) - len(runs),
        -sum(day.wet[slot] for slot, thing in things if thing.outdoors),
    )
