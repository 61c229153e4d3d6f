"""A person's commitments and stints as a calendar that other programs read. Source: RFC 5545 and, for COLOR, RFC 7986."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

from bot.exporting.calendar_lines import content, instant, quoted, wall
from bot.exporting.calendar_rules import rule_lines
from bot.exporting.calendar_zones import zone_lines
from bot.rules.local_time import ONE_DAY, local, local_day
from bot.rules.occurrences import occurrences
from bot.voice.export_words import stint_description, stint_summary
from storage.records import Category, Commitment, Occurrence, Stint

LOOKING_DAYS = (1, 8, 32, 367, 5 * 366)
"""How far ahead a rule's first time is looked for, step by step: nearly always it is the start itself."""


def as_calendar(
    commitments: Sequence[Commitment], stints: Iterable[Stint], categories: Iterable[Category], person_id: int, now: datetime
) -> bytes:
    """The file's content. ``now`` is when it is written. Commitments that were cancelled for good are left out."""
    stamp = instant(now)
    known, held = {each.id: each for each in categories}, [each for each in commitments if not each.cancelled]
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Weekwright//export//EN", "CALSCALE:GREGORIAN"]
    lines += _zones([each for each in held if each.rule and not each.all_day], now)
    for commitment in held:
        first = _first_time(commitment)
        if first is not None:
            category = known.get(commitment.category_id or 0)
            lines += _event(f"commitment-{commitment.id}", person_id, stamp, _commitment(commitment, first), category)
    for stint in stints:
        lines += _event(f"stint-{stint.id}", person_id, stamp, _stint(stint, known[stint.category_id]), known[stint.category_id])
    return content([*lines, "END:VCALENDAR"])


def _zones(recurring: list[Commitment], now: datetime) -> list[str]:
    """The zones that recurring commitments follow, each from its earliest start on."""
    earliest: dict[str, datetime] = {}
    for each in recurring:
        earliest[each.zone] = min(each.starts, earliest.get(each.zone, each.starts))
    return [line for zone, since in sorted(earliest.items()) for line in zone_lines(zone, since, now)]


def _event(name: str, person_id: int, stamp: str, lines: Iterable[str], category: Category | None) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{name}-of-{person_id}@weekwright"
    yield f"DTSTAMP:{stamp}"
    yield from lines
    if category is not None:
        yield f"CATEGORIES:{quoted(category.name)}"
        yield f"COLOR:{quoted(category.colour)}"
    yield "END:VEVENT"


def _first_time(commitment: Commitment) -> Occurrence | None:
    """Its first time, which with a rule need not be its start; None when its rule never comes true."""
    day = local_day(commitment.starts, commitment.zone)
    # What is left out of a rule is said beside it; a commitment of one time that is left out is none.
    bare = replace(commitment, except_days=()) if commitment.rule else commitment
    found = (occurrences((bare,), day, day + days * ONE_DAY) for days in LOOKING_DAYS)
    return next((times[0] for times in found if times), None)


def _commitment(commitment: Commitment, first: Occurrence) -> Iterator[str]:
    yield f"SUMMARY:{quoted(commitment.title)}"
    if commitment.all_day:
        yield f"DTSTART;VALUE=DATE:{first.day:%Y%m%d}"
        yield f"DTEND;VALUE=DATE:{_day_after(first, commitment.zone):%Y%m%d}"
        yield "TRANSP:TRANSPARENT"
    elif commitment.rule is None:
        # One time is an instant, clear also in an hour that the clocks repeat.
        yield f"DTSTART:{instant(first.starts)}"
        yield f"DTEND:{instant(first.ends)}"
    else:
        yield f"DTSTART;TZID={commitment.zone}:{wall(local(first.starts, commitment.zone))}"
        yield f"DTEND;TZID={commitment.zone}:{wall(local(first.ends, commitment.zone))}"
    yield from rule_lines(commitment)


def _day_after(first: Occurrence, zone: str) -> date:
    """The day after the last one that it takes."""
    return max(local_day(first.ends - timedelta(microseconds=1), zone), first.day) + ONE_DAY


def _stint(stint: Stint, category: Category) -> Iterator[str]:
    yield f"SUMMARY:{quoted(stint_summary(category.name, stint.minutes))}"
    if stint.starts is None:
        yield f"DTSTART;VALUE=DATE:{stint.day:%Y%m%d}"
    else:
        ends = stint.ends or stint.starts + timedelta(minutes=stint.minutes + stint.break_minutes)
        yield f"DTSTART:{instant(stint.starts.astimezone(UTC))}"
        yield f"DTEND:{instant(ends.astimezone(UTC))}"
    said = stint_description(stint.note, stint.break_minutes)
    if said:
        yield f"DESCRIPTION:{quoted(said)}"
    yield "TRANSP:TRANSPARENT"
