"""What changed in a calendar from one reading to the next."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bot.rules.calendar_events import CalendarEvent, in_order
from bot.rules.local_time import local_day
from bot.rules.spans import Span
from bot.rules.weeks import iso_week


@dataclass(frozen=True, slots=True)
class Moved:
    """An event that is at another time than it was."""

    before: CalendarEvent
    after: CalendarEvent


@dataclass(frozen=True, slots=True)
class CalendarChanges:
    """What is new, moved or gone, each earliest first; moved events by their new times."""

    new: tuple[CalendarEvent, ...] = ()
    moved: tuple[Moved, ...] = ()
    gone: tuple[CalendarEvent, ...] = ()

    def __bool__(self) -> bool:
        """Whether there is anything to tell."""
        return bool(self.new or self.moved or self.gone)


def calendar_changes(before: Iterable[CalendarEvent], after: Iterable[CalendarEvent], window: Span, zone: str) -> CalendarChanges:
    """What changed between two readings, as far as it touches ``window``, to whose weeks both should reach in full.

    An event is moved if its times differ under the same key, and moved into or
    out of the window counts. A cancelled one counts as gone. Where a whole
    series was moved its keys change, too; what is left of it on both sides is
    paired in order, week by week in ``zone``, rather than told of twice.
    """
    old, new = ({event.key: event for event in reading if not event.cancelled} for reading in (before, after))
    kept = [Moved(event, new[key]) for key, event in old.items() if key in new]
    vanished = in_order(event for key, event in old.items() if key not in new)
    appeared = in_order(event for key, event in new.items() if key not in old)
    paired = _paired(vanished, appeared, zone)
    told = {event.key for pair in paired for event in (pair.before, pair.after)}
    return CalendarChanges(
        new=tuple(event for event in appeared if event.key not in told and _is_in(window, event)),
        moved=_by_new_time(
            pair for pair in kept + paired if _differs(pair) and (_is_in(window, pair.before) or _is_in(window, pair.after))
        ),
        gone=tuple(event for event in vanished if event.key not in told and _is_in(window, event)),
    )


def _paired(vanished: Sequence[CalendarEvent], appeared: Sequence[CalendarEvent], zone: str) -> list[Moved]:
    """The first of an event's times that vanished in a week with the first that appeared in it, and so on."""
    waiting: defaultdict[tuple[str, int, int], list[CalendarEvent]] = defaultdict(list)
    for event in reversed(appeared):
        waiting[_week_of(event, zone)].append(event)
    return [Moved(event, same.pop()) for event in vanished if (same := waiting[_week_of(event, zone)])]


def _week_of(event: CalendarEvent, zone: str) -> tuple[str, int, int]:
    return event.uid, *iso_week(local_day(event.starts, zone))


def _differs(pair: Moved) -> bool:
    return (pair.before.starts, pair.before.ends, pair.before.all_day) != (pair.after.starts, pair.after.ends, pair.after.all_day)


def _is_in(window: Span, event: CalendarEvent) -> bool:
    """Whether the event shares time with the window, or starts in it and takes no time."""
    return event.starts < window.ends and (window.starts < event.ends or window.starts <= event.starts)


def _by_new_time(pairs: Iterable[Moved]) -> tuple[Moved, ...]:
    return tuple(sorted(pairs, key=lambda pair: (pair.after.starts, pair.after.ends, pair.after.title, pair.after.key)))
