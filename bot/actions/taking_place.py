"""What was called off and takes place after all."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.actions.agenda import agenda
from bot.actions.called_off import called_off
from bot.actions.commitments import LOOK_AHEAD, kept_words
from bot.actions.events import events_between
from bot.actions.matching import best_match
from bot.actions.refused import Stopped, refused
from bot.actions.today import today
from bot.language.standing_meaning import TakesPlace
from bot.rules.local_time import day_bounds, local_day
from bot.rules.occurrences import own_day
from bot.voice.manners import manners_of
from bot.voice.replies import CommitmentKept, Question, Reply
from storage.desk import Desk
from storage.records import Commitment, Occurrence


def take_place(desk: Desk, said: TakesPlace) -> Reply:
    """Brings back what was called off; of several days asks which. Raises Stopped where nothing of that name was."""
    first, last = said.day or today(desk), said.day or today(desk) + LOOK_AHEAD
    off = (*called_off(desk, first, last), *_left_out_of_calendars(desk, first, last))
    found = best_match(said.words, [(each.title, each) for each in off])
    if found is None:
        return _every_time(desk, said, first, last)
    days = sorted({each.day for each in off if each.title == found.title})
    if len(days) > 1:
        raise Stopped(Question(tuple(TakesPlace(found.title, day) for day in days)))
    return _once(desk, found)


def _left_out_of_calendars(desk: Desk, first: date, last: date) -> list[Occurrence]:
    """The events of calendars that do not take place, each as the cancelled commitment that says so."""
    zone = desk.person.zone
    opens, closes = day_bounds(first, zone)[0], day_bounds(last, zone)[1]
    events = {(each.title, each.starts) for each in events_between(desk, first, last)}
    off = (each for each in desk.commitments.singles_between(opens, closes) if each.cancelled and (each.title, each.starts) in events)
    return [Occurrence(each, local_day(each.starts, zone), each.starts, each.ends) for each in off]


def _once(desk: Desk, off: Occurrence) -> Reply:
    """That time takes place; of a series the others stay as they are."""
    commitment = off.commitment
    if commitment.rule is not None:
        left_out = tuple(day for day in commitment.except_days if day != own_day(off))
        kept = desk.commitments.change(replace(commitment, except_days=left_out))
        told = _told(desk, kept, off.day)
        return replace(told, commitment=replace(kept, rule=None))
    if off not in _left_out_of_calendars(desk, off.day, off.day):
        return _told(desk, desk.commitments.change(replace(commitment, cancelled=False)), off.day)
    desk.commitments.remove(commitment.id)
    event = next(each for each in agenda(desk, off.day, off.day) if (each.title, each.starts) == (off.title, off.starts))
    return _told(desk, event.commitment, off.day)


def _every_time(desk: Desk, said: TakesPlace, first: date, last: date) -> Reply:
    """The series of that name that was cancelled as a whole. Raises Stopped where there is none."""
    series = [each for each in desk.commitments.recurring(day_bounds(last, desk.person.zone)[1]) if each.cancelled]
    found = best_match(said.words, [(each.title, each) for each in reversed(series)])
    if found is not None:
        return _told(desk, desk.commitments.change(replace(found, cancelled=False)), first)
    there = best_match(said.words, [(each.title, each) for each in agenda(desk, first, last)])
    if there is None:
        raise refused("nothing called off", said.words)
    raise refused("not called off", f"{there.title}, {manners_of(desk.person, desk.now).day(there.day)}")


def _told(desk: Desk, commitment: Commitment, day: date) -> CommitmentKept:
    return replace(kept_words(desk, commitment, day), again=True)
