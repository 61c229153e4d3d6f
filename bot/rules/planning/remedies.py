"""What would make room for something that found none: single changes, everything else staying where it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from bot.rules.planning.asked import STEP_MINUTES, Block, OpenDay, Sort, Wanted
from bot.rules.planning.board import Board, Item, starts_of
from bot.rules.planning.laying_out import grid_of, laid_out
from bot.rules.planning.solving import solve

HALF_AN_HOUR: Final = 30  # The smallest piece proposed; common practice, no source.


@dataclass(frozen=True, slots=True)
class OutsideWindow:
    """It would fit from ``starts`` on, outside its window."""

    starts: datetime


@dataclass(frozen=True, slots=True)
class InTheWet:
    """It would fit from ``starts`` on, in hours that are likely wet."""

    starts: datetime


@dataclass(frozen=True, slots=True)
class Splitting:
    """It would fit in so many ``pieces``, none shorter than half an hour."""

    pieces: int


@dataclass(frozen=True, slots=True)
class FillMore:
    """It would fit if ``minutes`` of the hours that are to stay free were filled."""

    minutes: int


@dataclass(frozen=True, slots=True)
class Without:
    """It would fit if what ``key`` names went to another time or another day."""

    key: str


@dataclass(frozen=True, slots=True)
class MoreTime:
    """The time left is ``minutes`` too short: the longest stretch of it, or for what may be split all that can be used."""

    minutes: int


Remedy = OutsideWindow | InTheWet | Splitting | FillMore | Without | MoreTime


def remedies(day: OpenDay, blocks: tuple[Block, ...], wanted: Wanted) -> tuple[Remedy, ...]:
    """Every single change that would give ``wanted`` a place beside the ``blocks`` of the plan of ``day``.

    Of what could give way only one thing is named: a task before a routine,
    the least valuable first. When more time would help, that comes last.
    """
    beside = replace(day, kept=(*day.kept, *blocks))
    return (*_other_ways(beside, wanted), *_fuller(beside, wanted), *_in_place_of_others(day, blocks, wanted), *_longer(beside, wanted))


def placed(day: OpenDay, wanted: Wanted) -> tuple[Block, ...]:
    """The blocks that ``wanted`` gets if it is the only thing to be placed on ``day``; none when it has no place."""
    grid = grid_of(day.window)
    pieces = solve(laid_out(replace(day, wanted=(wanted,)), grid)).pieces
    return tuple(Block(wanted.key, grid.span(piece.start, piece.length)) for piece in pieces)


def _other_ways(beside: OpenDay, wanted: Wanted) -> Iterator[Remedy]:
    if wanted.window is not None and (blocks := placed(beside, replace(wanted, window=None))):
        yield OutsideWindow(blocks[0].span.starts)
    if wanted.outdoors and (blocks := placed(beside, replace(wanted, outdoors=False))):
        yield InTheWet(blocks[0].span.starts)
    if wanted.smallest_minutes is None and (blocks := placed(beside, replace(wanted, smallest_minutes=HALF_AN_HOUR))):
        yield Splitting(len(blocks))


def _fuller(beside: OpenDay, wanted: Wanted) -> Iterator[Remedy]:
    board = _board(beside, wanted)
    over = board.items[0].length - board.capacity
    if over > 0 and placed(replace(beside, free_share=0), wanted):
        yield FillMore(over * STEP_MINUTES)


def _in_place_of_others(day: OpenDay, blocks: tuple[Block, ...], wanted: Wanted) -> Iterator[Remedy]:
    in_plan = {block.key for block in blocks}
    giving_way = sorted(day.wanted, key=lambda other: (other.sort is Sort.ROUTINE, other.value))
    for other in giving_way:
        if other.key in in_plan:
            stay = tuple(block for block in blocks if block.key != other.key)
            if placed(replace(day, kept=(*day.kept, *stay)), wanted):
                yield Without(other.key)
                return


def _longer(beside: OpenDay, wanted: Wanted) -> Iterator[Remedy]:
    if not placed(replace(beside, free_share=0), wanted):
        item = _board(beside, wanted).items[0]
        yield MoreTime(max(1, item.length - _usable(item)) * STEP_MINUTES)


def _board(day: OpenDay, wanted: Wanted) -> Board:
    return laid_out(replace(day, wanted=(wanted,)), grid_of(day.window))


def _usable(item: Item) -> int:
    """The slots of the longest stretch where ``item`` may lie, or of all that hold a piece of it if it may be split."""
    if item.whole:
        return max((length for length in range(1, item.length) if starts_of(item.allowed, length)), default=0)
    starts = starts_of(item.allowed, item.shortest)
    covered = 0
    for offset in range(item.shortest):
        covered |= starts << offset
    return covered.bit_count()
