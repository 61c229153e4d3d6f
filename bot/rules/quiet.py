"""Whether the person wants to be left alone."""

from __future__ import annotations

from datetime import date

from storage.records import Person


def is_quiet(person: Person, day: date) -> bool:
    """Whether nothing may come unasked on the local ``day``; on the day that ends the quiet, all comes again."""
    return person.quiet_until is not None and day < person.quiet_until
