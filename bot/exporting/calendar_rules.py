"""How a recurring commitment says when it comes again, and when not. Source: RFC 5545, sections 3.3.10 and 3.8.5.1."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time

from bot.exporting.calendar_lines import instant, wall
from bot.rules.local_time import instant_of, local
from bot.rules.occurrences import occurrences
from storage.records import Commitment, Occurrence

END_OF_DAY = time(23, 59, 59)


def rule_lines(commitment: Commitment) -> Iterator[str]:
    """The rule and its exceptions; none for a commitment of one time."""
    if commitment.rule is None:
        return
    parts = (part.partition("=") for part in commitment.rule.strip().upper().rstrip(";").split(";"))
    said = [(name, _until(value, commitment) if name == "UNTIL" else value) for name, _, value in parts]
    yield f"RRULE:{';'.join(f'{name}={value}' for name, value in said)}"
    left_out = [each.starts for day in sorted(commitment.except_days) for each in _on(commitment, day)]
    for starts in left_out:
        shown = local(starts, commitment.zone)
        yield f"EXDATE;VALUE=DATE:{shown:%Y%m%d}" if commitment.all_day else f"EXDATE;TZID={commitment.zone}:{wall(shown)}"


def _until(value: str, commitment: Commitment) -> str:
    """The last moment as the RFC wants it beside this start: a day beside a day, else an instant in UTC.

    A day alone means all of that day on the commitment's own clocks.
    """
    day = datetime.strptime(value[:8], "%Y%m%d").date()
    if commitment.all_day and not value.endswith("Z"):
        return value[:8]
    at = datetime.strptime(value[9:15], "%H%M%S").time() if "T" in value else END_OF_DAY
    last = datetime.combine(day, at, UTC) if value.endswith("Z") else instant_of(day, at, commitment.zone)
    return f"{local(last, commitment.zone):%Y%m%d}" if commitment.all_day else instant(last)


def _on(commitment: Commitment, day: date) -> tuple[Occurrence, ...]:
    return occurrences((replace(commitment, except_days=()),), day, day)
