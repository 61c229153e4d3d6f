"""A reply to one of the bot's messages is about what that message was about."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.actions.knowing import context_of
from bot.actions.today import today
from bot.language.calendar_meaning import MarkEvents
from bot.language.meaning import Amend, Close, Drop, Meaning, Move, Push, Reopen, Several, Undo
from bot.language.moved_said import read_new_time
from bot.language.pick import Pick
from bot.language.standing_meaning import AllowTravel
from bot.language.wire import from_json
from storage.desk import Desk

LOOKED_THROUGH = 12
"""Messages that are looked through for the numbered list shown last; common practice, no source."""
THIS = frozenset({"this", "it", "that", "this one", "that one"})


def moved_to(desk: Desk, text: str) -> Move | None:
    """The move that a day, perhaps with a time, asks for, when the last thing the person was told is the question where to."""
    latest = desk.outbox.latest()
    if latest is None or latest.answers is None or desk.journal.changes(latest.answers):
        return None
    offered = (from_json(button.does) for row in latest.buttons for button in row)
    asked = next((meaning for meaning in offered if isinstance(meaning, Move) and meaning.id is not None), None)
    to = read_new_time(text, context_of(desk)) if asked is not None else None
    return None if asked is None or to is None else replace(asked, day=to.day, start=to.start, end=to.end)


def by_list_shown(desk: Desk, meaning: Meaning) -> Meaning:
    """``meaning`` with the goals that its numbers have in a recap, where that is the numbered list that was shown last."""
    if isinstance(meaning, Several):
        return Several(tuple(by_list_shown(desk, part) for part in meaning.parts))
    if not isinstance(meaning, Close | Drop | Reopen | Push) or not meaning.tasks.numbers or isinstance(getattr(meaning, "to", None), date):
        return meaning
    goals = _goals_shown_last(desk)
    if not all(0 < number <= len(goals) for number in meaning.tasks.numbers):
        return meaning
    return replace(meaning, tasks=Pick(goal_ids=tuple(goals[number - 1] for number in meaning.tasks.numbers)))


def _goals_shown_last(desk: Desk) -> tuple[int, ...]:
    """The goals of a recap in their order, a row of buttons each; none where a list with a task of today was shown since."""
    tasks = [words for task in desk.tasks.on(today(desk)) for words in (f"{task.number} {task.title}", f"Task {task.number} ")]
    for parcel in desk.outbox.newest(LOOKED_THROUGH):
        rows = [from_json(row[0].does) for row in parcel.buttons]
        goals = [each.tasks.goal_ids for each in rows if isinstance(each, Push) and each.tasks.goal_ids]
        if goals:
            return tuple(ids[0] for ids in goals if len(ids) == 1)
        if any(named in parcel.text for named in tasks):
            return ()
    return ()


def _names_nothing(meaning: Amend) -> bool:
    return (meaning.entry, meaning.id, meaning.of_category, meaning.of_day) == (None, None, None, None)


def aimed(desk: Desk, meaning: Meaning, entry: int | None) -> Meaning:
    """``meaning``, pointed at what the journal entry touched where the reply itself names nothing."""
    if entry is None:
        return meaning
    if isinstance(meaning, Several):
        return Several(tuple(aimed(desk, part, entry) for part in meaning.parts))
    if (isinstance(meaning, Amend) and _names_nothing(meaning)) or (isinstance(meaning, Undo) and meaning.entry is None):
        return replace(meaning, entry=entry)
    if isinstance(meaning, Close | Drop | Reopen | Push) and meaning.tasks == Pick():
        pick = Pick(ids=desk.journal.find_rows(entry, "tasks"), goal_ids=desk.journal.find_rows(entry, "goals"))
        return replace(meaning, tasks=pick) if pick != Pick() else meaning
    if isinstance(meaning, MarkEvents) and meaning.words.lower() in THIS:
        titles = {event.title for id in desk.journal.find_rows(entry, "calendar_events") if (event := desk.calendar_events.find(id))}
        return replace(meaning, words=titles.pop()) if len(titles) == 1 else meaning
    if isinstance(meaning, AllowTravel) and meaning.words is None:
        return replace(meaning, id=next(iter(desk.journal.find_rows(entry, "commitments")), None))
    return meaning
