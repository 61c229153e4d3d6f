"""Which hours a correction is about: those that were just asked about, those that were noted, or what was planned and is spent by now."""

from __future__ import annotations

from dataclasses import replace

from bot.actions.agenda import agenda
from bot.actions.amending import LOOK_BACK, amend, amended, is_named, ways_of, which_hours
from bot.actions.asked_hours import correct_asked
from bot.actions.hours import log
from bot.actions.last_answer import not_understood
from bot.actions.naming import category_id
from bot.actions.refused import Stopped
from bot.actions.today import today
from bot.language.meaning import Amend, Log, SaidStint
from bot.rules.local_time import elapsed_minutes
from bot.rules.spans import Span, overlap
from bot.voice.replies import Question, Refusal, Reply
from storage.desk import Desk
from storage.records import Occurrence, Stint


def correct(desk: Desk, said: Amend) -> Reply:
    """Corrects the hours meant; where none are noted of what was planned, they are noted as they were told to have been."""
    if said.of_title is not None:
        return _of_title(desk, said, said.of_title)
    asked = correct_asked(desk, said)
    if asked is not None:
        return asked
    if not_understood(desk) and not is_named(said):
        return _told_anew(desk, said)
    try:
        return amend(desk, said)
    except Stopped as stopped:
        missing = isinstance(stopped.reply, Refusal) and stopped.reply.reason == "no hours there"
        planned = _planned(desk, said) if missing and said.of_category is not None else None
        if planned is None:
            raise
        return _log_as_told(desk, planned, said, None)


def _told_anew(desk: Desk, said: Amend) -> Reply:
    """Right behind what was not understood it corrects no hours noted before: it tells them anew, or is asked which hours it is about."""
    if said.category is None or not (said.minutes or (said.start and said.end)):
        raise Stopped(Question(which_hours(desk, said)))
    stint = SaidStint(said.category, said.day or today(desk), said.minutes or 0, said.start, said.end, said.break_minutes or 0)
    return log(desk, Log((stint,)))


def _of_title(desk: Desk, said: Amend, title: str) -> Reply:
    """The hours of what has that title, noted already or not; what is not fixed has them on the day said, or today."""
    planned = _planned(desk, said)
    day = planned.day if planned else said.of_day or today(desk)
    noted = [each for each in desk.stints.on(day) if _tells_of(each, title, planned)]
    if noted:
        return amend(desk, replace(said, of_title=None, id=noted[-1].id))
    if planned is not None:
        return _log_as_told(desk, planned, said, planned.title)
    return log(desk, Log((SaidStint(None, day, said.minutes or 0, said.start, said.end, note=title),)))


def _planned(desk: Desk, said: Amend) -> Occurrence | None:
    """The latest commitment of the category or the title named that has begun, on the day named or in the days before today."""
    named = category_id(desk, said.of_category)
    around = agenda(desk, said.of_day or today(desk) - LOOK_BACK, said.of_day or today(desk))
    begun = [each for each in around if each.starts <= desk.now and not each.commitment.all_day]
    meant = [each for each in begun if (each.category_id == named if named is not None else each.title == said.of_title)]
    return meant[-1] if meant else None


def _tells_of(stint: Stint, title: str, planned: Occurrence | None) -> bool:
    """Whether the hours have the title for a note, or are of the category of what was planned and within it."""
    if planned is None or stint.category_id != planned.category_id:
        return stint.note is not None and stint.note.lower() == title.lower()
    return stint.starts is None or stint.ends is None or overlap(Span(stint.starts, stint.ends), Span(planned.starts, planned.ends))


def _log_as_told(desk: Desk, planned: Occurrence, said: Amend, note: str | None) -> Reply:
    """Its hours with what is said of them; a title that has no category of its own is asked for one."""
    minutes = elapsed_minutes(planned.starts, planned.ends)
    stint = Stint(0, planned.category_id or 0, planned.day, minutes, planned.starts, planned.ends, note=note)
    (way, *_) = ways_of(desk, stint, said)
    return log(desk, Log((amended(desk, stint, way),)))
