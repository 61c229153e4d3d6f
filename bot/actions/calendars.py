"""Calendars of others: kept when they are read, told of when they change, paused and removed."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from datetime import date, timedelta
from typing import TypeAlias

from bot.actions.agenda import agenda
from bot.actions.crowding import full_days
from bot.actions.matching import best_match
from bot.actions.naming import category_id, category_name
from bot.actions.refused import refused
from bot.actions.today import today
from bot.language.calendar_meaning import AddCalendar, ChangeCalendar, MarkEvents
from bot.language.meaning import Show
from bot.rules.calendar_changes import CalendarChanges, calendar_changes
from bot.rules.calendar_commitments import CalendarCommitment, event_of
from bot.rules.calendar_events import CalendarEvent, EventKey, ReadCalendar
from bot.rules.marks import Mark, MarkRule, mark
from bot.rules.spans import Span
from bot.voice.replies import (
    CalendarChanged,
    CalendarKept,
    CalendarLine,
    CalendarsChanged,
    CalendarSought,
    CalendarsView,
    EventsMarked,
    FullDay,
    Reply,
)
from storage.desk import Desk
from storage.records import Calendar, KeptEvent, Marking, Occurrence, RoundKind, Visit

KEPT_BACK = timedelta(days=35)
KEPT_AHEAD = timedelta(days=400)
"""How much of a calendar is kept: enough for the month behind us and a year of planning."""

MOST_KEPT = 5_000
"""Events kept of one calendar, the earliest first: some two seconds of writing."""

UNNAMED = "calendar"
"""What a calendar is called whose file has no name, or one of which nothing can be seen."""

TOLD_AHEAD = timedelta(days=14)
"""How far ahead changes are told."""


def kept_days(desk: Desk) -> tuple[date, date]:
    """The first and the last local day of which calendars are kept."""
    return today(desk) - KEPT_BACK, today(desk) + KEPT_AHEAD


def keep_file(desk: Desk, name: str, read: ReadCalendar) -> Reply:
    """Keeps what a file says. One whose calendar is known already brings that up to date, and what changed is told."""
    read = _within_measure(read)
    called = read.name or name or UNNAMED
    known = next((each for each in desk.calendars.all() if each.link is None and each.name == called), None) or _holding(desk, read)
    return keep_new(desk, Calendar(0, called), read) if known is None else CalendarsChanged(*_told(desk, ((known, read),)))


def keep_new(desk: Desk, calendar: Calendar, read: ReadCalendar) -> CalendarKept:
    """Keeps a calendar that was read for the first time."""
    read = _within_measure(read)
    kept = desk.calendars.add(replace(calendar, name=_free_name(desk, calendar.name)))
    known = {EventKey(event.uid, event.recurrence) for each in desk.calendars.all() for event in desk.calendar_events.of(each.id)}
    _bring_up_to_date(desk, kept, read)
    ahead = tuple(each for each in agenda(desk, today(desk), today(desk) + TOLD_AHEAD) if _is_of(each, kept) and each.ends > desk.now)
    arrived = [event for event in read.events if event.key not in known]
    return CalendarKept(kept, *_counted(read.events), ahead, full_days(desk, arrived), read.unreadable, read.cut_short)


def _holding(desk: Desk, read: ReadCalendar) -> Calendar | None:
    """The calendar that holds more than half of the entries already, under whatever name."""
    said = {event.uid for event in read.events}
    held = {each: len(said & {event.uid for event in desk.calendar_events.of(each.id)}) for each in desk.calendars.all()}
    fullest = max(held, key=lambda each: held[each], default=None)
    return fullest if fullest is not None and 2 * held[fullest] > len(said) else None


def _within_measure(read: ReadCalendar) -> ReadCalendar:
    return read if len(read.events) <= MOST_KEPT else replace(read, events=read.events[:MOST_KEPT], cut_short=True)


def _free_name(desk: Desk, name: str) -> str:
    """The name, with a number behind it where another calendar has it already."""
    taken = {each.name.lower() for each in desk.calendars.all()}
    return next(free for free in (name, *(f"{name} {number}" for number in range(2, len(taken) + 3))) if free.lower() not in taken)


def _is_of(occurrence: Occurrence, calendar: Calendar) -> bool:
    commitment = occurrence.commitment
    return isinstance(commitment, CalendarCommitment) and commitment.calendar == calendar.name


Reading: TypeAlias = tuple[Calendar, ReadCalendar | None, Visit]
"""A calendar, what it says now unless it is as it was, and the visit that told so."""


def refresh(desk: Desk, readings: Iterable[Reading]) -> CalendarsChanged | None:
    """Brings calendars up to date; tells what changed in the next two weeks, or None when nothing did."""
    still_there = []
    for calendar, read, visit in readings:
        if desk.calendars.find(calendar.id) is not None:
            desk.visits.put(calendar.id, visit)
            if read is not None:
                still_there.append((calendar, _within_measure(read)))
    changes, full = _told(desk, still_there)
    return CalendarsChanged(changes, full) if changes else None


Told: TypeAlias = tuple[tuple[tuple[str, CalendarChanges], ...], tuple[FullDay, ...]]
"""What changed in each calendar, by its name, and the days that hold too much for it."""


def _told(desk: Desk, readings: Iterable[tuple[Calendar, ReadCalendar]]) -> Told:
    """Brings calendars up to date; gives what changed in each, and the days that hold too much for it."""
    window = Span(desk.now, desk.now + TOLD_AHEAD)
    told, arrived = [], []
    for calendar, read in readings:
        before = map(event_of, desk.calendar_events.of(calendar.id))
        changes = calendar_changes(tuple(before), read.events, window, desk.person.zone)
        _bring_up_to_date(desk, calendar, read)
        if changes:
            told.append((calendar.name, changes))
            arrived += [*changes.new, *(pair.after for pair in changes.moved)]
    return tuple(told), full_days(desk, arrived)


def _bring_up_to_date(desk: Desk, calendar: Calendar, read: ReadCalendar) -> None:
    """Writes only what differs, so that the journal holds what changed and no more. Of a reading cut short nothing is taken for gone."""
    kept = {EventKey(event.uid, event.recurrence): event for event in desk.calendar_events.of(calendar.id)}
    for event in read.events:
        known = kept.pop(event.key, None)
        row = _row(known.id if known else 0, calendar, event)
        if known is None:
            desk.calendar_events.add(row)
        elif known != row:
            desk.calendar_events.change(row)
    if not read.cut_short:
        for gone in kept.values():
            desk.calendar_events.remove(gone.id)


def _row(id: int, calendar: Calendar, event: CalendarEvent) -> KeptEvent:
    return KeptEvent(
        id,
        calendar.id,
        event.uid,
        event.recurrence,
        event.title,
        event.starts,
        event.ends,
        event.all_day,
        event.busy,
        event.cancelled,
        event.place,
    )


def add_calendar(desk: Desk, said: AddCalendar) -> Reply:
    """Has the link read soon; the calendar is kept once it has been."""
    known = next((each for each in desk.calendars.all() if each.link == said.link), None)
    if known is not None:
        raise refused("calendar there", known.name)
    desk.rounds.plan(RoundKind.SUBSCRIBE, f"{desk.now.isoformat()} {said.link}", desk.now, f"{said.link} {said.name or ''}")
    return CalendarSought(said.link)


def change_calendar(desk: Desk, said: ChangeCalendar) -> Reply:
    """Pauses a calendar, goes on with it, or removes it and its events."""
    calendar = _named(desk, said.name)
    if said.how == "remove":
        return remove_calendar(desk, calendar)
    if calendar.link is None:
        raise refused("no link", calendar.name)
    if said.how == "resume":
        desk.rounds.replan(RoundKind.CALENDARS, desk.now.isoformat(), desk.now)
    return CalendarChanged(desk.calendars.change(replace(calendar, paused=said.how == "pause")), said.how)


def remove_calendar(desk: Desk, calendar: Calendar) -> Reply:
    """Removes a calendar and its events."""
    events = desk.calendar_events.of(calendar.id)
    for event in events:
        desk.calendar_events.remove(event.id)
    desk.calendars.remove(calendar.id)
    return CalendarChanged(calendar, "remove", *_counted(events))


def _named(desk: Desk, name: str) -> Calendar:
    calendars = desk.calendars.all()
    found = best_match(name, [(each.name, each) for each in calendars])
    if found is None:
        raise refused("no such calendar", name, tuple(each.name for each in calendars))
    return found


def show_calendars(desk: Desk, said: Show) -> Reply:
    """Every calendar with how many events it holds and when it was read."""
    lines = []
    for calendar in desk.calendars.all():
        visit = desk.visits.get(calendar.id)
        lines.append(CalendarLine(calendar, *_counted(desk.calendar_events.of(calendar.id)), visit.at if visit else None))
    return CalendarsView(tuple(lines))


def mark_events(desk: Desk, said: MarkEvents) -> Reply:
    """Keeps what holds for events with these words; what was said of the same words before and is not said now stays."""
    words = _words_meant(desk, said.words)
    known = next((each for each in desk.marks.all() if each.words.lower() == words.lower()), None)
    old = known or Marking(0, words)
    marking = replace(
        old,
        category_id=category_id(desk, said.category) or old.category_id,
        minor=old.minor if said.minor is None else said.minor,
        outdoors=old.outdoors if said.outdoors is None else said.outdoors,
        minutes_before=old.minutes_before if said.minutes_before is None else said.minutes_before,
        minutes_after=old.minutes_after if said.minutes_after is None else said.minutes_after,
    )
    kept = desk.marks.change(marking) if known else desk.marks.add(marking)
    return EventsMarked(kept, category_name(desk, kept.category_id), *_counted(_events_with(desk, kept.words)))


def _words_meant(desk: Desk, words: str) -> str:
    """The words as said; without the "s" of several where only so there are events with them: lectures is lecture."""
    one = words.removesuffix("s")
    return one if one and not _events_with(desk, words) and _events_with(desk, one) else words


def _events_with(desk: Desk, words: str) -> tuple[KeptEvent, ...]:
    """The events ahead that hold the words in their title."""
    rule = MarkRule(words, Mark(minor=True))
    ahead = desk.calendar_events.between(desk.now, desk.now + KEPT_AHEAD)
    return tuple(event for event in ahead if mark(event.title, (rule,)).minor is True)


def _counted(events: Collection[CalendarEvent | KeptEvent]) -> tuple[int, int]:
    """How many entries there are, and how many events they make."""
    return len({event.uid for event in events}), len(events)
