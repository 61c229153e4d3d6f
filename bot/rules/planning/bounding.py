"""At least what placing what is left costs: two bounds, of which the higher holds.

Both are optima of easier problems, in which every quarter of an hour of an
item is on its own. Lateness outweighs all else, so it is bounded first.

``one by one``: each may lie in any free slot from the first in which its item
could start: unit jobs with weights and release dates, of which the most
valuable takes the earliest slots. ``class by class``: an item of which nothing
but its value and whether it is outdoors is asked. All that are worth at least
so much lie together in the earliest slots that will do, as the greedy choice
from a matroid is best (Rado, 1957; Edmonds, 1971); and in no other slots, if
they are not later than that. So outdoor ones are at best in the driest of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from itertools import accumulate
from operator import or_
from typing import Final

from bot.rules.planning.board import NEVER, Board, Item, first_from, runs, starts_of

Rest = tuple[int, ...]
"""How many slots of each item are still to be placed."""

DEAD: Final = -1
"""The bound of a state from which what is left cannot be placed."""


class Bounding:
    """The bounds on one board, whose items are in order of value, the highest first. ``per_lateness`` is what a slot later costs.

    Here the free slots alone are counted, from 0, and sets of them are sets of
    these numbers: so the earliest of them are mostly one stretch.
    """

    def __init__(self, board: Board, per_lateness: int) -> None:
        self._per_lateness = per_lateness
        free, self._before = _counted(board.free, board.slots)
        self._sums = list(accumulate(free, initial=0))
        self._room = (1 << len(free)) - 1
        firsts: dict[tuple[int, int], tuple[int, ...]] = {}
        for item in board.items:
            if (item.allowed, item.shortest) not in firsts:
                firsts[item.allowed, item.shortest] = first_from(starts_of(item.allowed, item.shortest), board.slots)
        self._prospects = [(item.value, firsts[item.allowed, item.shortest]) for item in board.items]
        self._outdoors = [index for index, item in enumerate(board.items) if item.outdoors]
        if self._outdoors:
            dry = reduce(or_, (board.items[index].allowed for index in self._outdoors))
            self._dry = sum(1 << number for number, slot in enumerate(free) if dry >> slot & 1)
            self._by_wetness = _by_wetness([board.wet[slot] for slot in free])
            self._classes = [_class(value, board.items) for value in sorted({item.value for item in board.items}, reverse=True)]

    def least(self, slot: int, rest: Rest) -> int:
        """At least what placing ``rest`` from ``slot`` on costs, or DEAD."""
        one = self._one_by_one(slot, rest)
        if one == DEAD or not self._outdoors or not any(rest[index] for index in self._outdoors):
            return one
        other = self._class_by_class(slot, rest)
        return DEAD if other == DEAD else max(one, other)

    def _one_by_one(self, slot: int, rest: Rest) -> int:
        room, before, sums = self._room, self._before, self._sums
        late = 0
        for left, (value, firsts) in zip(rest, self._prospects, strict=True):
            if not left:
                continue
            start = firsts[slot]
            if start == NEVER:
                return DEAD
            start = before[start]
            taken, slots_sum = earliest(room >> start << start, left, sums)
            if not taken:
                return DEAD
            room ^= taken
            late += value * slots_sum
        return late * self._per_lateness

    def _class_by_class(self, slot: int, rest: Rest) -> int:
        start = self._before[slot]
        room, dry = self._room >> start << start, self._dry >> start << start
        before = sum_before = outdoors = indoors = late = wet = 0
        for value, outside, inside in self._classes:
            here = sum([rest[index] for index in outside])
            outdoors, indoors = outdoors + here, indoors + sum([rest[index] for index in inside])
            in_dry, sum_in_dry = earliest(dry, outdoors, self._sums)
            others, sum_of_others = earliest(room & ~in_dry, indoors, self._sums)
            if (outdoors and not in_dry) or (indoors and not others):
                return DEAD
            wet += self._driest((in_dry | others) & ~before & dry, here)
            late += value * (sum_in_dry + sum_of_others - sum_before)
            before, sum_before = in_dry | others, sum_in_dry + sum_of_others
        return late * self._per_lateness + wet

    def _driest(self, slots: int, wanted: int) -> int:
        """How wet the ``wanted`` driest of ``slots`` are together; of fewer, how wet those are."""
        total = 0
        for level, of_level in self._by_wetness:
            if not wanted:
                break
            here = min(wanted, (slots & of_level).bit_count())
            total += level * here
            wanted -= here
        return total


def earliest(room: int, wanted: int, sums: Sequence[int]) -> tuple[int, int]:
    """The ``wanted`` earliest slots of ``room`` and the sum of their numbers; none when there are fewer.

    ``sums`` has, for each number of slots from the first on, the sum of theirs.
    """
    taken = total = 0
    while room and wanted:
        start = (room & -room).bit_length() - 1
        run, length, stretch = room >> start, wanted, (1 << wanted) - 1
        if run & stretch != stretch:
            length = (~run & run + 1).bit_length() - 1
            stretch = (1 << length) - 1
        stretch <<= start
        taken |= stretch
        total += sums[start + length] - sums[start]
        if length == wanted:
            return taken, total
        wanted -= length
        room ^= stretch
    return 0, 0


def _counted(free: int, slots: int) -> tuple[list[int], list[int]]:
    """The free slots, and for each slot, and for the end, how many of them are before it."""
    found: list[int] = []
    before: list[int] = []
    for start, end in runs(free):
        before += [len(found)] * (start - len(before))
        before += range(len(found), len(found) + end - start)
        found += range(start, end)
    return found, before + [len(found)] * (slots + 1 - len(before))


def _class(value: int, items: Sequence[Item]) -> tuple[int, tuple[int, ...], tuple[int, ...]]:
    """A value, and the indexes of its items: those outdoors and the others."""
    indexes = [index for index, item in enumerate(items) if item.value == value]
    return value, tuple(each for each in indexes if items[each].outdoors), tuple(each for each in indexes if not items[each].outdoors)


def _by_wetness(wet: Iterable[int]) -> tuple[tuple[int, int], ...]:
    """The slots of each wetness, the driest first."""
    levels: dict[int, int] = {}
    for slot, wetness in enumerate(wet):
        levels[wetness] = levels.get(wetness, 0) | 1 << slot
    return tuple(sorted(levels.items()))
