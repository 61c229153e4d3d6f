"""Whether the person wants to be left alone."""

from __future__ import annotations

from datetime import date, time

from storage.records import Person


def is_quiet(person: Person, day: date) -> bool:
    """Whether nothing may come unasked on the local ``day``; on the day that ends the quiet, all comes again."""
    return person.quiet_until is not None and day < person.quiet_until


def is_asleep(person: Person, at: time) -> bool:
    """Whether the local time ``at`` lies outside the waking window, so that what comes then comes without a sound."""
    start, end = person.waking_start, person.waking_end
    return not start <= at < end if start < end else end <= at < start
