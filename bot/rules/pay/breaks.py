"""Unpaid breaks that an employer takes off whether or not they were noted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from bot.rules.local_time import elapsed_minutes
from bot.rules.spans import Span, merged
from storage.records import BreakRule, Stint


def break_due(worked: int, rules: Iterable[BreakRule]) -> int:
    """Minutes of unpaid break that a day of ``worked`` minutes is due: the longest of the rules that it is over."""
    return max((rule.minutes for rule in rules if worked > rule.after_minutes), default=0)


def break_taken(stints: Iterable[Stint]) -> int:
    """Minutes of break in one day's work: what its stints note, and the time between those that have times."""
    noted, spans = 0, []
    for stint in stints:
        noted += stint.break_minutes
        if stint.starts is not None and stint.ends is not None:
            spans.append(Span(stint.starts, stint.ends))
    apart = merged(spans)
    return noted + sum(elapsed_minutes(one.ends, other.starts) for one, other in pairwise(apart))


def break_to_take_off(stints: Sequence[Stint], rules: Iterable[BreakRule]) -> int:
    """Minutes still to be taken off one day's work: what is due beyond what was taken, never more than was worked."""
    worked = sum(stint.minutes for stint in stints)
    return min(worked, max(0, break_due(worked, rules) - break_taken(stints)))
