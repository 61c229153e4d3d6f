"""What is fixed in time: added, cancelled, found by its words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time, timedelta

from bot.actions.agenda import agenda
from bot.actions.coming_days import coming_days
from bot.actions.matching import best_match
from bot.actions.naming import category_id, category_name
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.language.meaning import AddCommitment, Cancel, Meaning
from bot.rules.calendar_commitments import CalendarCommitment
from bot.rules.load import clashing, lighter_days, load_of, outside_waking
from bot.rules.local_time import day_bounds, instant_of, local
from bot.rules.occurrences import own_day
from bot.rules.weeks import days_from, last_of_week, week_days
from bot.voice.manners import manners_of
from bot.voice.replies import CommitmentCancelled, CommitmentKept, OneOrAll, OnlyThere, OnOtherDays, Question, Reply
from storage.desk import Desk
from storage.records import Commitment, Occurrence

USUAL_LENGTH = timedelta(hours=1)
"""Length of a commitment whose end is not said; common practice, no source."""

MOST_LIGHTER = 3
"""Lighter days offered at once, the fewest commitments first."""

MOST_OTHERS = 3
LOOK_AHEAD = timedelta(days=120)
"""How far ahead a commitment is looked for by its words."""


def add_commitment(desk: Desk, said: AddCommitment) -> Reply:
    """Keeps a commitment. Without a start it is for all of the day; without an end it is an hour long."""
    starts, ends = instants_of(desk, said.day, said.start, said.end)
    commitment = desk.commitments.add(
        Commitment(
            0,
            said.title,
            starts,
            ends,
            desk.person.zone,
            category_id(desk, said.category),
            said.rule,
            said.major and said.start is not None,
            said.outdoors,
            said.start is None,
            minutes_before=said.minutes_before,
            minutes_after=said.minutes_after,
        )
    )
    kept = kept_words(desk, commitment, said.day, end_assumed=said.start is not None and said.end is None)
    return replace(kept, only=coming_days(desk, commitment, said.day)) if said.loose else kept


def instants_of(desk: Desk, day: date, start: time | None, end: time | None) -> tuple[datetime, datetime]:
    """UTC start and end; an end that is not after the start is on the next day."""
    zone = desk.person.zone
    if start is None:
        return day_bounds(day, zone)
    starts = instant_of(day, start, zone)
    if end is None:
        return starts, starts + USUAL_LENGTH
    return starts, instant_of(day if end > start else day + timedelta(days=1), end, zone)


def kept_words(
    desk: Desk, commitment: Commitment, day: date, *, moved_from: Occurrence | None = None, end_assumed: bool = False
) -> CommitmentKept:
    """What to say of a commitment on the day it first takes place from ``day`` on: load, clashes, lighter days."""
    zone = desk.person.zone
    week = week_days(day, desk.person.week_starts)
    around = agenda(desk, week[0], max(week[-1], day + LOOK_AHEAD) if commitment.rule else week[-1])
    mine = next((each for each in around if each.commitment.id == commitment.id and each.day >= day), None)
    if mine is None:
        mine = Occurrence(commitment, day, commitment.starts, commitment.ends)
    load = load_of(mine.day, around)
    too_many = commitment.major and load.too_much
    ahead = days_from(max(today(desk), week[0]), last_of_week(mine.day, desk.person.week_starts))
    lighter = lighter_days(mine, around, [each for each in ahead if starts_later(desk, mine, each)], zone)
    others = [each for each in around if each.day == mine.day and each.commitment.blocks_hours]
    return CommitmentKept(
        commitment,
        mine,
        category_name(desk, commitment.category_id),
        moved_from,
        end_assumed,
        load.majors,
        too_many,
        lighter[:MOST_LIGHTER] if too_many else (),
        () if commitment.all_day else tuple(each.commitment.title for each in clashing(mine, others)),
        not commitment.all_day and outside_waking(mine, desk.person.waking_start, desk.person.waking_end, zone),
    )


def starts_later(desk: Desk, occurrence: Occurrence, day: date) -> bool:
    """Whether the occurrence's time of day is still to come on ``day``."""
    zone = desk.person.zone
    return instant_of(day, local(occurrence.starts, zone).time(), zone) > desk.now


def leave_out(desk: Desk, occurrence: Occurrence) -> None:
    """Takes one occurrence out of a recurring commitment."""
    commitment, day = occurrence.commitment, own_day(occurrence)
    if day not in commitment.except_days:
        desk.commitments.change(replace(commitment, except_days=(*commitment.except_days, day)))


def cancel(desk: Desk, said: Cancel) -> Reply:
    """Cancels a commitment; of a recurring one, that day's, or all when a button said so; else asks which. On several days all there."""
    if said.last is not None and said.day is not None and said.words is not None:
        return _cancel_all(desk, said.words, said.day, said.last)
    found = meant(desk, said.words, said.id, said.day, said.start) if said.words or said.id else _only_one(desk, said)
    commitment = found.commitment
    if isinstance(commitment, CalendarCommitment):
        return _take_out(desk, found) if said.called_off else OnlyThere(found, commitment.calendar)
    every_time = commitment.rule is not None and said.id is not None and said.day is None
    if commitment.rule is not None and said.day is None and not every_time:
        raise Stopped(OneOrAll(found))
    if commitment.rule is not None and not every_time:
        leave_out(desk, found)
    else:
        desk.commitments.change(replace(commitment, cancelled=True))
    return CommitmentCancelled(commitment.title, found, every_time)


def _take_out(desk: Desk, event: Occurrence) -> CommitmentCancelled:
    """Keeps that an event of a calendar does not take place, as a cancelled commitment of its name and time: ``agenda`` leaves both out."""
    desk.commitments.add(
        Commitment(0, event.title, event.starts, event.ends, desk.person.zone, all_day=event.commitment.all_day, cancelled=True)
    )
    return CommitmentCancelled(event.title, event, False)


def _cancel_all(desk: Desk, words: str, first: date, last: date) -> Reply:
    """Cancels every time that is to come of what the words name, from one day to another. Raises Stopped where there is none."""
    around = [each for each in agenda(desk, max(first, today(desk)), last) if first <= each.day <= last and each.ends > desk.now]
    found = best_match(words, [(each.commitment.title, each) for each in around])
    if found is None:
        raise _not_found(desk, words, first, _cancelling, last)
    same = [each for each in around if each.commitment.title.lower() == found.commitment.title.lower()]
    own = tuple(each for each in same if not isinstance(each.commitment, CalendarCommitment))
    if not own:
        return OnlyThere(found, found.commitment.calendar if isinstance(found.commitment, CalendarCommitment) else "")
    for id in dict.fromkeys(each.commitment.id for each in own):
        times = [each for each in own if each.commitment.id == id]
        commitment = times[0].commitment
        days = (*commitment.except_days, *(own_day(each) for each in times))
        desk.commitments.change(replace(commitment, except_days=days) if commitment.rule else replace(commitment, cancelled=True))
    return CommitmentCancelled(found.commitment.title, own[0], False, own[1:])


def _only_one(desk: Desk, said: Cancel) -> Occurrence:
    """The one commitment of a day, or of an hour of it. Raises Stopped with each as a choice where there are several."""
    day = said.day or today(desk)
    there = _at_hour(desk, [each for each in agenda(desk, day, day) if each.day == day], said.start)
    if not there:
        raise refused("nothing that day", manners_of(desk.person, desk.now).near_day(day))
    if len(there) > 1:
        zone = desk.person.zone
        hours = ((each, None if each.commitment.all_day else local(each.starts, zone).time()) for each in there)
        raise Stopped(Question(tuple(Cancel(each.commitment.title, day, start) for each, start in hours)))
    return there[0]


def _at_hour(desk: Desk, around: list[Occurrence], start: time | None) -> list[Occurrence]:
    """Those that start then, where any does; all where no hour is said, or none starts at it."""
    then = [each for each in around if not each.commitment.all_day and local(each.starts, desk.person.zone).time() == start]
    return then or around


def _cancelling(there: Occurrence) -> Cancel:
    return Cancel(None, there.day, id=there.commitment.id)


def meant(
    desk: Desk,
    words: str | None,
    id: int | None,
    day: date | None,
    start: time | None = None,
    instead: Callable[[Occurrence], Meaning] = _cancelling,
) -> Occurrence:
    """The occurrence that an id and a day, or words, name: the next from today on.

    Raises Stopped when there is none; where there are some on other days, with ``instead`` for each of the next.
    """
    first = today(desk)
    around = agenda(desk, min(first, day) if id and day else first, first + LOOK_AHEAD)
    if id is not None:
        here = [each for each in around if each.commitment.id == id and (day is None or each.day == day)]
        if not here:
            raise refused("button gone")
        return here[0]
    wanted = _at_hour(desk, [each for each in around if day is None or each.day == day], start)
    found = best_match(words or "", [(each.commitment.title, each) for each in wanted])
    if found is None:
        raise _not_found(desk, words or "", day, instead)
    return found


def _not_found(desk: Desk, words: str, day: date | None, instead: Callable[[Occurrence], Meaning], last: date | None = None) -> Stopped:
    """That nothing of that name is there; where it is on other days, which ones are the next, and the same done with these."""
    around = agenda(desk, today(desk), today(desk) + LOOK_AHEAD) if day is not None else []
    found = best_match(words, [(each.commitment.title, each) for each in around if each.starts > desk.now])
    if found is None or day is None:
        return refused("no such commitment", words)
    same = [each for each in around if each.commitment.title == found.commitment.title and each.starts > desk.now]
    return Stopped(OnOtherDays(found.commitment.title, day, last or day, tuple((each, instead(each)) for each in same[:MOST_OTHERS])))
