"""``weekwright understand``: how replies would be understood. Never opens a database."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable
from datetime import UTC, datetime
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.commands.given import settings_given
from bot.faults import CommandError
from bot.language.context import Context, Named
from bot.language.understand import understand
from bot.language.wire import to_wire
from bot.settings import Settings
from bot.voice.written import written


def main(given: argparse.Namespace) -> int:
    """Prints exactly one line a reply, in order."""
    settings = settings_given(given.settings)
    context = _context(settings, given.now, given.zone or settings.person.zone)
    for text in [" ".join(given.text)] if given.text else _lines():
        meaning = understand(text, context)
        if given.json:
            print(json.dumps({"text": text, **to_wire(meaning)}))
        else:
            words = written(meaning, context, settings.person.clock) or "not understood"
            print(f"{to_wire(meaning)['kind']}: {' '.join(words.split())}")
    return 0


def _lines() -> Iterable[str]:
    """Each line of standard input. Only a line feed ends one; bytes that are no UTF-8 are shown as such."""
    for raw in sys.stdin.buffer:
        yield raw.removesuffix(b"\n").removesuffix(b"\r").decode("utf-8", "replace")


def _context(settings: Settings, now: str | None, zone: str) -> Context:
    try:
        tz = ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError) as fault:
        raise CommandError(f"{zone} is not a time zone; expected a name like Europe/Brussels") from fault
    jobs = {job.category for job in settings.jobs}
    return Context(
        now=_moment(now, tz),
        categories=tuple(Named(each.name, each.aliases, each.section, each.name in jobs) for each in settings.categories),
        sections=settings.sections,
        waking_start=settings.person.waking_start,
        waking_end=settings.person.waking_end,
        week_starts=settings.person.week_starts,
        date_order=settings.person.dates,
    )


def _moment(now: str | None, tz: ZoneInfo) -> datetime:
    if now is None:
        return datetime.now(UTC).astimezone(tz)
    try:
        return datetime.fromisoformat(now).replace(tzinfo=tz)
    except ValueError as fault:
        raise CommandError(f"{now} is not a time; expected one like 2026-03-02T09:00") from fault
