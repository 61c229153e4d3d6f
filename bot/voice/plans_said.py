"""Answers about what is fixed in time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.language.meaning import AddCommitment, Cancel, Move, Several, Undo
from bot.rules.clock_went import clock_went
from bot.rules.local_time import elapsed_minutes
from bot.voice.manners import Manners, hours_text, listed, title_text
from bot.voice.message import Message, Page, Rows, Tap, rows_of
from bot.voice.recurrence_words import rule_words
from bot.voice.replies import (
    CommitmentCancelled,
    CommitmentKept,
    OneOrAll,
    OnOtherDays,
    Reply,
    ThereAlready,
    TravelAllowed,
    WhereTo,
    WhichToMove,
)
from storage.records import Occurrence

MOST_NAMED = 2
"""Days that a button has room to name."""

MOST_DAYS_NAMED = 7
"""More days than this are counted; the week shows which."""


def occurrence_words(occurrence: Occurrence, manners: Manners) -> str:
    """ "13:00–17:00 Museum shift", with "minor", "outdoors" and the way there and back where it is so."""
    commitment = occurrence.commitment
    extras = [] if commitment.major or commitment.all_day else ["minor"]
    if commitment.outdoors:
        extras.append("outdoors")
    if commitment.blocks_hours:
        extras += way_words(commitment.minutes_before, commitment.minutes_after)
    hours = "all day" if commitment.all_day else manners.span(occurrence.starts, occurrence.ends)
    return f"{hours} {commitment.title}" + (f" ({', '.join(extras)})" if extras else "")


def way_words(before: int | None, after: int | None) -> list[str]:
    """ "20 min each way", or "20 min before" and "10 min after", or "no travel"; nothing where nothing was said."""
    if before == after:
        return [] if before is None else [f"{hours_text(before)} each way" if before else "no travel"]
    return [f"{hours_text(minutes)} {side}" for minutes, side in ((before, "before"), (after, "after")) if minutes is not None]


def commitment_kept(reply: CommitmentKept, manners: Manners) -> Message:
    """The commitment in exact terms, and what it crowds or crosses."""
    page = Page()
    verb = f"Moved from {_began(reply.moved_from, manners)} to" if reply.moved_from else "On again:" if reply.again else "Added:"
    page.line(f"{verb} {_when_and_what(reply, manners)}.")
    page.lines(_remarks(reply, manners))
    beside = ((Tap("Add it beside", Several((Undo(), reply.beside)), True),),) if reply.beside else ()
    return page.message((*beside, *_only_rows(reply, manners), *_move_rows(reply, manners)))


def _began(occurrence: Occurrence, manners: Manners) -> str:
    """The day and the time at which it begins: "Wed 28 Oct, 17:00"."""
    day = manners.day(occurrence.day)
    return day if occurrence.commitment.all_day else f"{day}, {manners.clock(occurrence.starts)}"


def _only_rows(reply: CommitmentKept, manners: Manners) -> Rows:
    """One tap for the coming days alone, in place of every week's."""
    days = [manners.day(day) for day in reply.only]
    label = f"Only {listed(days)}" if len(days) <= MOST_NAMED else f"Only the coming {len(days)} days"
    instead = Several((Cancel(None, id=reply.commitment.id), *(_on(reply, day, manners) for day in reply.only)))
    return ((Tap(label, instead, True),),) if days else ()


def _on(reply: CommitmentKept, day: date, manners: Manners) -> AddCommitment:
    """The same once, on that day."""
    kept = reply.commitment
    starts, ends = (None, None) if kept.all_day else (manners.local(kept.starts).time(), manners.local(kept.ends).time())
    return AddCommitment(
        kept.title,
        day,
        starts,
        ends,
        reply.category,
        None,
        kept.major,
        kept.outdoors,
        kept.minutes_before,
        kept.minutes_after,
    )


def _when_and_what(reply: CommitmentKept, manners: Manners) -> str:
    words = f"{manners.day(reply.occurrence.day)}, {occurrence_words(reply.occurrence, manners)}"
    if reply.commitment.rule:
        words += f", {rule_words(reply.commitment.rule, manners.date_order)}"
    return f"{words}, {title_text(reply.category)}" if reply.category and not _is_its_title(reply) else words


def _is_its_title(reply: CommitmentKept) -> bool:
    """Whether the commitment is called as its category is, which then goes without saying."""
    return reply.category is not None and reply.category.casefold() == reply.commitment.title.casefold()


def _remarks(reply: CommitmentKept, manners: Manners) -> list[str]:
    lines = []
    went = clock_went(reply.occurrence.starts, reply.occurrence.ends, manners.zone)
    if went and not reply.commitment.all_day:
        lines.append(f"The clock goes {went} meanwhile: {hours_text(elapsed_minutes(reply.occurrence.starts, reply.occurrence.ends))}.")
    if reply.end_assumed:
        lines.append("An hour long, as no end was said.")
    if reply.clashes:
        lines.append(f"At the same time: {listed(list(reply.clashes))}.")
    if reply.outside_waking:
        lines.append("It lies outside your waking hours.")
    if reply.too_many:
        lines.append(too_many_words(reply.occurrence.day, reply.majors, reply.lighter, manners))
    return lines


def too_many_words(day: date, majors: int, lighter: tuple[date, ...], manners: Manners) -> str:
    """That a day has more major commitments than is good, and the days to which the latest could move."""
    line = f"{manners.day(day)} now has {majors} commitments; more than three is a lot for one day."
    if not lighter:
        return f"{line} No lighter day of that week has that part of day free."
    return f"{line} Lighter, with that part of day free: {listed([manners.day(each) for each in lighter])}."


def warned_once(parts: tuple[Reply, ...]) -> tuple[Reply, ...]:
    """The parts of one reply, of which only the last that makes a day too full says so of that day."""
    last = {part.occurrence.day: number for number, part in enumerate(parts) if isinstance(part, CommitmentKept) and part.too_many}
    return tuple(
        replace(part, too_many=False, lighter=())
        if isinstance(part, CommitmentKept) and part.too_many and last[part.occurrence.day] != number
        else part
        for number, part in enumerate(parts)
    )


def _move_rows(reply: CommitmentKept, manners: Manners) -> Rows:
    taps = [Tap(f"Move to {manners.day(day)}", _move(reply, day), True) for day in reply.lighter]
    return rows_of(taps, 2)


def _move(reply: CommitmentKept, day: date) -> Move:
    return Move(None, day, id=reply.commitment.id, from_day=reply.occurrence.day)


def travel_allowed(reply: TravelAllowed, manners: Manners) -> Message:
    """The commitment with the way there and back, and what else of calendars it holds for."""
    page = Page()
    page.line(f"{manners.day(reply.occurrence.day)}, {occurrence_words(reply.occurrence, manners)}.")
    if reply.words:
        page.line(f"It holds for all events with “{reply.words}”, and the plan leaves that time free.")
    else:
        page.line("The plan leaves that time free.")
    return page.message()


def commitment_cancelled(reply: CommitmentCancelled, manners: Manners) -> Message:
    """What was cancelled."""
    page = Page()
    if reply.whole_series:
        page.line(f"Cancelled, every time: {reply.title}.")
    elif reply.more:
        days = [each.day for each in (reply.occurrence, *reply.more)]
        named = listed([manners.day(day) for day in days]) if len(days) <= MOST_DAYS_NAMED else f"{len(days)} times"
        page.line(f"Cancelled: {reply.title}, {named}.")
    else:
        page.line(f"Cancelled: {manners.day(reply.occurrence.day)}, {occurrence_words(reply.occurrence, manners)}.")
    return page.message()


def on_other_days(reply: OnOtherDays, manners: Manners) -> Message:
    """That it is not on the day named, and when it is, with a button for each."""
    page = Page()
    when = f"on {manners.day(reply.day)}" if reply.day == reply.last else f"in {manners.days(reply.day, reply.last)}"
    page.line(f"There is no “{reply.title}” to come {when}. Did you mean one of these?")
    taps = [Tap(f"{manners.day(each.day)}, {occurrence_words(each, manners)}", does, True) for each, does in reply.others]
    return page.message(rows_of(taps, 1))


def there_already(reply: ThereAlready, manners: Manners) -> Message:
    """What the day holds of that name, and a button for each of what may be meant."""
    there = reply.occurrence
    page = Page()
    page.line(f"{manners.day(there.day)} has {occurrence_words(there, manners)} already.")
    only = f" on {manners.day(there.day)} only" if there.commitment.rule and reply.adding.rule else ""
    taps = [] if (reply.starts, reply.ends) == (there.starts, there.ends) else [_moving_tap(reply, only, manners)]
    page.line("Is that one to move, or is this another?" if taps else "Is this another?")
    return page.message(rows_of([*taps, Tap("Add another", reply.adding, True)], 2))


def _moving_tap(reply: ThereAlready, only: str, manners: Manners) -> Tap:
    return Tap(f"Move it to {manners.span(reply.starts, reply.ends)}{only}", reply.moving, True)


def one_or_all(reply: OneOrAll, manners: Manners) -> Message:
    """Whether once or every time, as two buttons."""
    occurrence = reply.occurrence
    rule = rule_words(occurrence.commitment.rule or "", manners.date_order)
    page = Page()
    page.line(f"{occurrence.commitment.title} is on {rule}. Cancel it once, or every time?")
    taps = (
        Tap(f"Only {manners.day(occurrence.day)}", Cancel(None, occurrence.day, id=occurrence.commitment.id), True),
        Tap("Every time", Cancel(None, id=occurrence.commitment.id), True),
    )
    return page.message((taps,))


def which_to_move(reply: WhichToMove, manners: Manners) -> Message:
    """Each time that may be meant as a button, which says where it was called off."""
    page = Page()
    page.line("Which one is to move?")
    taps = [
        Tap(f"{_began(each, manners)} {each.commitment.title}" + (", called off" if is_off else ""), does, True)
        for each, does, is_off in reply.choices
    ]
    return page.message(rows_of(taps, 1))


def where_to(reply: WhereTo, manners: Manners) -> Message:
    """The days that are free at that time, as buttons, and how to say another."""
    occurrence = reply.occurrence
    page = Page()
    page.line(f"{manners.day(occurrence.day)}, {occurrence_words(occurrence, manners)}. Move it to which day, at the same time?")
    page.line(f"For another time, write: move {occurrence.commitment.title} to {manners.example('sat 10:00')}")
    taps = [Tap(manners.day(day), Move(None, day, id=occurrence.commitment.id, from_day=occurrence.day), True) for day in reply.days]
    return page.message(rows_of(taps, 3))
