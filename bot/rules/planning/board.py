"""The day as a row of slots: what the search works on.

A slot is a quarter of an hour; slots are counted from 0. A set of slots is an
``int`` whose bit ``n`` is slot ``n``.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, NamedTuple

NEVER: Final = 1 << 30
"""In place of a slot: later than any."""

MOST_WET: Final = 100


@dataclass(frozen=True, slots=True)
class Item:
    """Something to be placed: ``length`` slots, in pieces of at least ``shortest``, in slots of ``allowed`` only.

    ``shortest`` is ``length`` for what may not be split. ``value`` is at least 1.
    """

    length: int
    value: int
    shortest: int
    allowed: int
    routine: bool = False
    outdoors: bool = False

    @property
    def whole(self) -> bool:
        """Whether it may not be split."""
        return self.shortest == self.length


@dataclass(frozen=True, slots=True)
class Board:
    """The free slots, how many of them may be filled, how wet each slot is in percent, and what is to be placed."""

    slots: int
    free: int
    capacity: int
    wet: tuple[int, ...]
    items: tuple[Item, ...]


class Piece(NamedTuple):
    """The item with the index ``item`` lies in ``length`` slots from ``start`` on.

    A named tuple, because the search makes thousands of them a day.
    """

    item: int
    start: int
    length: int

    @property
    def end(self) -> int:
        """The slot after the last."""
        return self.start + self.length


def slots_between(start: int, end: int) -> int:
    """The set of the slots from ``start`` up to but not including ``end``."""
    return (1 << max(end, start)) - (1 << start)


def lies_in(allowed: int, start: int, length: int) -> bool:
    """Whether ``length`` slots from ``start`` on are all in ``allowed``."""
    wanted = (1 << length) - 1
    return start >= 0 and allowed >> start & wanted == wanted


def starts_of(allowed: int, length: int) -> int:
    """The set of the slots from which ``length`` slots in a row are all in ``allowed``."""
    found, known = allowed, 1
    while known < length:
        step = min(known, length - known)
        found &= found >> step
        known += step
    return found


def first_from(found: int, slots: int) -> tuple[int, ...]:
    """For each slot, and for the end, the first slot of ``found`` that is not before it, or NEVER."""
    firsts: list[int] = []
    for start, end in runs(found):
        firsts += [start] * (start - len(firsts))
        firsts += range(start, end)
    return (*firsts, *[NEVER] * (slots + 1 - len(firsts)))


def runs(found: int) -> Iterator[tuple[int, int]]:
    """The runs of slots in a set, in order: the first slot of each, and the one after its last."""
    while found:
        start = (found & -found).bit_length() - 1
        past = found + (1 << start)
        end = (past & -past).bit_length() - 1
        yield start, end
        found = found >> end << end
