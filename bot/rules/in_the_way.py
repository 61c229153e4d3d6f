"""What came between the person and their plan."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import datetime

from bot.rules.spans import overlap, shared
from bot.rules.unlogged import unlogged
from storage.records import Block, Occurrence, Stint


@dataclass(frozen=True, slots=True)
class InTheWay:
    """A commitment, the titles of the blocks it took, each once, and how many minutes of them."""

    title: str
    took_from: tuple[str, ...]
    minutes: int


def contested(blocks: Iterable[Block], occurrences: Sequence[Occurrence]) -> tuple[Block, ...]:
    """The accepted blocks that share time with a commitment: if there are none, nothing was in the way."""
    return tuple(block for block in blocks if block.accepted and any(_takes(each, block) for each in occurrences))


def in_the_way(
    blocks: Iterable[Block], occurrences: Iterable[Occurrence], stints: Sequence[Stint], done: AbstractSet[int], until: datetime
) -> tuple[InTheWay, ...]:
    """The commitments that took hours of accepted blocks, those that took most first.

    A plan puts nothing into hours that are taken. So a commitment that shares
    time with an accepted block came, or was moved there, after the plan. It
    took the block where the block was over by ``until``, no hours tell of it,
    and its task is not among the ids in ``done``. Source: common practice, no source.
    """
    accepted = [block for block in blocks if block.accepted and block.ends <= until and block.task_id not in done]
    # A block without a category cannot be told of by hours: what tells of it is its task.
    lost = [*unlogged(accepted, stints, until), *(block for block in accepted if block.category_id is None)]
    minutes: defaultdict[str, int] = defaultdict(int)
    took_from: defaultdict[str, list[str]] = defaultdict(list)
    for each in occurrences:
        for block in lost:
            part = shared(each, block)
            if part is not None and _takes(each, block):
                minutes[each.title] += part.minutes
                took_from[each.title].append(block.title)
    found = (InTheWay(title, tuple(dict.fromkeys(took_from[title])), minutes[title]) for title in minutes)
    return tuple(sorted(found, key=lambda one: (-one.minutes, one.title)))


def _takes(occurrence: Occurrence, block: Block) -> bool:
    return occurrence.commitment.blocks_hours and overlap(occurrence, block)
