"""Between a day's hours and the slots that the search works on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Final, NamedTuple

from bot.rules.free_hours import minutes_to_fill
from bot.rules.planning.asked import STEP, STEP_MINUTES, OpenDay, Sky, Sort, Wanted
from bot.rules.planning.board import Board, Item, slots_between
from bot.rules.spans import Span, Timed

UNKNOWN_WETNESS: Final = 50  # Percent; common practice, no source: as likely wet as dry.
EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)
STEPS_A_DAY: Final = timedelta(days=1) // STEP
STEP_SECONDS: Final = STEP // timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class Grid:
    """The slots of a day: ``slots`` full quarters of an hour from ``starts`` on."""

    starts: datetime
    slots: int

    def inside(self, span: Timed) -> int:
        """The slots that lie wholly in ``span``."""
        return slots_between(max(0, -_steps(self.starts - span.starts)), min(self.slots, _steps(span.ends - self.starts)))

    def touched(self, spans: Iterable[Timed]) -> int:
        """The slots that share any time with ``spans``."""
        touched = 0
        for span in spans:
            if span.starts < span.ends:
                touched |= slots_between(*self.reach(span))
        return touched

    def reach(self, span: Timed) -> tuple[int, int]:
        """The first slot that shares time with ``span``, and the one after the last."""
        first = max(0, _steps(span.starts - self.starts))
        return first, max(first, min(self.slots, -_steps(self.starts - span.ends)))

    def span(self, start: int, length: int) -> Span:
        """The time of ``length`` slots from ``start`` on."""
        return Span(self.starts + start * STEP, self.starts + (start + length) * STEP)


def grid_of(window: Span) -> Grid:
    """The full quarters of an hour in ``window``."""
    starts = window.starts + (EPOCH - window.starts) % STEP
    return Grid(starts, max(0, _steps(window.ends - starts)))


def _steps(length: timedelta) -> int:
    """How many steps it has, rounded down: what ``length // STEP`` says, at half its price, as a day asks it often."""
    return length.days * STEPS_A_DAY + length.seconds // STEP_SECONDS


def slots_for(minutes: int) -> int:
    """How many slots ``minutes`` need: begun ones count."""
    return -(-minutes // STEP_MINUTES)


class Room(NamedTuple):
    """The free slots of a day, as a set, and how many of them may be filled."""

    free: int
    capacity: int


def open_slots(day: OpenDay, grid: Grid) -> Room:
    """What is neither fixed nor kept, and how much of it may be filled."""
    return room_beside([each.taken for each in day.fixed], grid, day.free_share, [block.span for block in day.kept])


def room_beside(taken: Iterable[Timed], grid: Grid, free_share: int, filled: Iterable[Timed] = ()) -> Room:
    """What is neither ``taken`` nor ``filled``, and how much of it may be filled: ``free_share`` percent of what is not taken stay free."""
    unfixed = slots_between(0, grid.slots) & ~grid.touched(taken)
    kept = grid.touched(filled)
    free = unfixed & ~kept
    may_fill = minutes_to_fill(unfixed.bit_count() * STEP_MINUTES, free_share) // STEP_MINUTES
    return Room(free, min(free.bit_count(), max(0, may_fill - (unfixed & kept).bit_count())))


def laid_out(day: OpenDay, grid: Grid) -> Board:
    """The board of ``day``: the items in the order of what is wanted."""
    free, capacity = open_slots(day, grid)
    # What the sky does matters to nothing else.
    skies = day.skies if any(wanted.outdoors for wanted in day.wanted) else ()
    dry = ~grid.touched(sky.span for sky in skies if not sky.dry)
    items = tuple(_item(wanted, grid, free, dry) for wanted in day.wanted)
    return Board(grid.slots, free, capacity, _wetness(skies, grid), items)


def _item(wanted: Wanted, grid: Grid, free: int, dry: int) -> Item:
    length = slots_for(wanted.minutes)
    smallest = length if wanted.smallest_minutes is None else slots_for(wanted.smallest_minutes)
    allowed = free if wanted.window is None else free & grid.inside(wanted.window)
    return Item(
        length=length,
        value=wanted.value,
        # What does not hold two pieces cannot be split.
        shortest=smallest if 2 * smallest <= length else length,
        allowed=allowed & dry if wanted.outdoors else allowed,
        routine=wanted.sort is Sort.ROUTINE,
        outdoors=wanted.outdoors,
    )


def _wetness(skies: tuple[Sky, ...], grid: Grid) -> tuple[int, ...]:
    """Of each slot, the highest chance of rain that is forecast for any of it."""
    if not skies:
        return (UNKNOWN_WETNESS,) * grid.slots
    wetness: list[int | None] = [None] * grid.slots
    for sky in skies:
        for slot in range(*grid.reach(sky.span)):
            wetness[slot] = max(wetness[slot] or 0, sky.wet_chance)
    return tuple(UNKNOWN_WETNESS if chance is None else chance for chance in wetness)
