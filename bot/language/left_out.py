"""Which category hours are for when the reply names none."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from typing import Literal

from bot.language.context import Context, Planned


@dataclass(frozen=True, slots=True)
class Guess:
    """A category, ``why`` it was taken when it was not said, and what the hours were planned for."""

    category: str
    why: Literal["clocked in", "planned"] | None = None
    planned: Planned | None = None


def guesses(context: Context, day: date, start: time | None, end: time | None) -> tuple[Guess, ...]:
    """The one category that is sure: planned at those hours, else clocked in, else planned now. Otherwise all of them, jobs first."""
    sure = _sure(context, start, end) if day == context.now.date() else None
    if sure is not None:
        return (sure,)
    jobs_first = sorted(context.categories, key=lambda category: not category.is_job)
    return tuple(Guess(category.name) for category in jobs_first)


def _sure(context: Context, start: time | None, end: time | None) -> Guess | None:
    every = (*context.planned, *context.blocks)
    if start is not None and end is not None:
        blocks = [block for block in every if _overlap(block, start, end)]
    else:
        now = context.now.time()
        blocks = [block for block in every if block.start <= now < block.end] or [block for block in context.planned if block.end <= now]
    if context.clocked_in is not None and start is None:
        return Guess(context.clocked_in, "clocked in")
    planned = {block.category for block in blocks}
    if len(planned) == 1:
        return Guess(planned.pop(), "planned", blocks[0] if len(blocks) == 1 else None)
    return Guess(context.clocked_in, "clocked in") if context.clocked_in is not None else None


def _overlap(block: Planned, start: time, end: time) -> bool:
    return block.start < end and start < block.end if start < end else start < block.end or block.start < end
