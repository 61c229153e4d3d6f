"""The way to a commitment and back: time that is as little free as its own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from bot.rules.spans import Span
from storage.records import Commitment, Occurrence


@dataclass(frozen=True, slots=True)
class Travel:
    """Minutes on the way there and on the way back; None where nothing was said of it."""

    before: int | None = None
    after: int | None = None

    def __bool__(self) -> bool:
        """Whether anything was said."""
        return self.before is not None or self.after is not None


NONE_SAID = Travel()


def travel_of(commitment: Commitment, usual: int) -> tuple[int, int]:
    """Minutes before and after ``commitment``: its own where they were said, else the ``usual``; none for all of a day."""
    if not commitment.blocks_hours:
        return 0, 0
    before, after = commitment.minutes_before, commitment.minutes_after
    return usual if before is None else before, usual if after is None else after


def taken(occurrence: Occurrence, usual: int) -> Span:
    """All the time that is not free because of ``occurrence``: itself, and the way there and back."""
    before, after = travel_of(occurrence.commitment, usual)
    return Span(occurrence.starts - timedelta(minutes=before), occurrence.ends + timedelta(minutes=after))
