"""Words about calendars of others: what was read, what changed, what only they can change."""

from __future__ import annotations

from datetime import date, datetime, time

from bot.language.calendar_meaning import ChangeCalendar
from bot.language.meaning import Cancel, Move
from bot.rules.calendar_changes import CalendarChanges
from bot.rules.calendar_events import CalendarEvent
from bot.voice.manners import Manners, count_text, listed, title_text
from bot.voice.message import Message, Page, Tap, clipped, one_line, rows_of
from bot.voice.plans_said import occurrence_words, too_many_words, way_words
from bot.voice.replies import (
    CalendarChanged,
    CalendarFault,
    CalendarKept,
    CalendarLine,
    CalendarsChanged,
    CalendarSought,
    CalendarsView,
    CalendarUnread,
    EventsMarked,
    FileBeingRead,
    FullDay,
    OnlyThere,
)

MOST_AHEAD = 5
MOST_CHANGES = 8
"""Events named in one message; what there is beyond them is counted."""

UNREAD: dict[CalendarFault, str] = {
    "not reached": "I cannot reach {} just now. Nothing changed; please send it again later.",
    "no calendar": "I find no calendar in {}, so nothing changed.",
    "too large": "{} is too large for me to read, so nothing changed.",
    "not secure": "I read calendars over a secure connection only, and {} has none that I trust. Nothing changed.",
    "private address": "{} leads to a private address, where I do not go. Nothing changed.",
    "refused": "{} refused to give me its calendar. Nothing changed.",
    "no link": "{} is no link that I can follow. Nothing changed.",
}


def calendar_kept(reply: CalendarKept, manners: Manners) -> Message:
    """How much was read, and what lies in the next two weeks."""
    page = Page()
    words = f"Read {reply.calendar.name}: {_counted(reply.entries, reply.events)}"
    page.line(f"{words}; {reply.unreadable} more I could not read." if reply.unreadable else f"{words}.")
    if reply.cut_short:
        page.line("There was more than I take; the rest was left out.")
    page.line("In the next two weeks:" if reply.ahead else "Nothing in the next two weeks.")
    page.lines([f"{manners.day(each.day)}, {occurrence_words(each, manners)}" for each in reply.ahead[:MOST_AHEAD]])
    if len(reply.ahead) > MOST_AHEAD:
        page.line(f"and {len(reply.ahead) - MOST_AHEAD} more")
    return _with_full_days(page, reply.full, manners)


def _counted(entries: int, events: int) -> str:
    """ "3 events", or "5 entries, 403 events in all" where some of them come again."""
    return count_text(events, "event") if entries >= events else f"{count_text(entries, 'entry', 'entries')}, {events} events in all"


def calendars_changed(reply: CalendarsChanged, manners: Manners) -> Message:
    """What is new, moved or gone in the next two weeks."""
    page = Page()
    if not reply.changes:
        page.line("Read again: nothing changed in the next two weeks.")
    else:
        page.line(f"Changed in {listed([name for name, _ in reply.changes])}:")
    lines = [line for _, changes in reply.changes for line in _change_lines(changes, manners)]
    page.lines(lines[:MOST_CHANGES])
    if len(lines) > MOST_CHANGES:
        page.line(f"and {len(lines) - MOST_CHANGES} more")
    return _with_full_days(page, reply.full, manners)


def _change_lines(changes: CalendarChanges, manners: Manners) -> list[str]:
    return [
        *(f"New: {_event_words(event, manners)}" for event in changes.new),
        *(f"Moved: {_event_words(pair.before, manners)}, now {_when(pair.after, manners)}" for pair in changes.moved),
        *(f"Gone: {_event_words(event, manners)}" for event in changes.gone),
    ]


def _event_words(event: CalendarEvent, manners: Manners) -> str:
    return f"{_when(event, manners)} {event.title}"


def _when(event: CalendarEvent, manners: Manners) -> str:
    day = manners.day(manners.local(event.starts).date())
    return f"{day}, all day" if event.all_day else f"{day}, {manners.span(event.starts, event.ends)}"


def _with_full_days(page: Page, full: tuple[FullDay, ...], manners: Manners) -> Message:
    """The days that hold too much now, and buttons that draft a request to move what came last."""
    taps = []
    for each in full:
        page.line(too_many_words(each.occurrence.day, each.majors, each.lighter, manners))
        title = each.occurrence.title
        label = f"Ask to move {clipped(title, 20)} to"
        taps += [Tap(f"{label} {manners.day(day)}", Move(title, day, from_day=each.occurrence.day)) for day in each.lighter]
    return page.message(rows_of(taps, 1))


def calendar_sought(reply: CalendarSought, manners: Manners) -> Message:
    """That the link is being read."""
    return one_line(f"Reading {_short(reply.link)}.")


def file_being_read(reply: FileBeingRead, manners: Manners) -> Message:
    """How far the reading of a long file has come."""
    return one_line(f"Reading {reply.name}: {reply.events} of about {reply.of} events." if reply.of else f"Reading {reply.name}.")


def calendar_unread(reply: CalendarUnread, manners: Manners) -> Message:
    """Why there is no calendar, in one sentence."""
    return one_line(UNREAD[reply.fault].format(_short(reply.about)))


def _short(link: str) -> str:
    """The host of a link: what stands behind it is often a key that opens the calendar."""
    return link.split("://", 1)[1].split("/", 1)[0] if "://" in link else link


def calendars_view(reply: CalendarsView, manners: Manners) -> Message:
    """One line a calendar, with buttons that pause and resume those with a link."""
    page = Page()
    if not reply.lines:
        page.line("No calendar yet. Send me an .ics file, or a link that begins with https:// or webcal://.")
        return page.message()
    page.heading("Calendars")
    page.lines([_calendar_line(line, manners) for line in reply.lines])
    taps = [_pause_tap(line) for line in reply.lines if line.calendar.link is not None]
    return page.message(rows_of(taps, 1))


def _calendar_line(line: CalendarLine, manners: Manners) -> str:
    words = f"{line.calendar.name}: {_counted(line.entries, line.events)}"
    if line.calendar.link is None:
        return f"{words}, from a file"
    words += f", from {_short(line.calendar.link)}"
    if line.read is not None:
        words += f", read {_moment(line.read, manners)}"
    return f"{words}, paused" if line.calendar.paused else words


def _moment(at: datetime, manners: Manners) -> str:
    return f"{manners.near_day(manners.local(at).date())} {manners.clock(at)}"


def _pause_tap(line: CalendarLine) -> Tap:
    name = line.calendar.name
    if line.calendar.paused:
        return Tap(f"Resume {clipped(name, 30)}", ChangeCalendar(name, "resume"))
    return Tap(f"Pause {clipped(name, 30)}", ChangeCalendar(name, "pause"))


def calendar_changed(reply: CalendarChanged, manners: Manners) -> Message:
    """What became of a calendar."""
    page = Page()
    name = reply.calendar.name
    sentences = {
        "pause": f"Paused: {name}. Its events stay as they are.",
        "resume": f"Resumed: {name}. I am reading it again.",
        "remove": f"Removed: {name}, with {_counted(reply.entries, reply.events)}.",
    }
    page.line(sentences[reply.how])
    return page.message()


def events_marked(reply: EventsMarked, manners: Manners) -> Message:
    """What holds from now on, and for how many events ahead."""
    marking = reply.marking
    words = [title_text(reply.category)] if reply.category else []
    if marking.minor is not None:
        words.append("minor" if marking.minor else "major")
    if marking.outdoors is not None:
        words.append("outdoors" if marking.outdoors else "indoors")
    way = way_words(marking.minutes_before, marking.minutes_after)
    said = [f"count as {listed(words)}"] if words else []
    said += [f"have {listed(way)}"] if way else []
    return one_line(f"Marked: events with “{marking.words}” {' and '.join(said)}; ahead: {_counted(reply.entries, reply.events)}.")


def only_there(reply: OnlyThere, manners: Manners) -> Message:
    """That only the calendar can do it, and a message to the other party to copy."""
    title, at = reply.occurrence.title, _time_of(reply, manners)
    page = Page()
    if reply.day is None:
        page.line(f"{title} comes from the calendar {reply.calendar}. If it was called off, a tap takes it out of your week.")
        page.line("If it is you who cannot come, a message to copy:")
        page.gap()
        page.line(f"Hello, I am sorry, but I cannot come to “{title}” on {at}.")
        off = Cancel(None, reply.occurrence.day, id=reply.occurrence.commitment.id, called_off=True)
        return page.message(((Tap("It was called off", off),),))
    page.line(f"{title} comes from the calendar {reply.calendar}, so it must be moved there. A message to copy:")
    page.gap()
    page.line(f"Hello, could we move “{title}” from {at} to {_wanted(reply, reply.day, manners)}?")
    return page.message()


def _time_of(reply: OnlyThere, manners: Manners) -> str:
    occurrence = reply.occurrence
    day = manners.long_day(occurrence.day)
    return day if occurrence.commitment.all_day else f"{day}, {manners.span(occurrence.starts, occurrence.ends)}"


def _wanted(reply: OnlyThere, day: date, manners: Manners) -> str:
    """The day, and the hours where any were said."""
    return ", ".join((manners.long_day(day), *_hours(reply.start, reply.end, manners)))


def _hours(start: time | None, end: time | None, manners: Manners) -> tuple[str, ...]:
    return () if start is None else (manners.times(start, end),)
