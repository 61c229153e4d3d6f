"""Hours that were only asked about, set right before they are noted: "no, until 1" behind "… is still under way"."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from bot.actions.amending import FRESH, amend, amended, is_named, ways_of
from bot.actions.hours import clashes_of, log, stint_of
from bot.actions.last_answer import choices_of, without_effect
from bot.actions.naming import category_name
from bot.actions.spent_on import in_categories
from bot.language.meaning import AddCommitment, Amend, Log, Meaning
from bot.voice.replies import Question, Reply, WhichHours
from storage.desk import Desk
from storage.records import Stint


def correct_asked(desk: Desk, said: Amend) -> Reply | None:
    """Corrects what the last message asked about. None where that was not about hours, or others are named."""
    asked = _asked(desk, said)
    choices = tuple(dict.fromkeys(_set_right(desk, asked, said)))
    noted = _noted_already(desk, asked, said) if any(map(_is_length, choices)) else ()
    if len(noted) > 1:
        return WhichHours(said, category_name(desk, noted[0].category_id) or "", noted[0].day, noted)
    if noted:
        return amend(desk, replace(said, entry=None, id=noted[0].id))
    if len(choices) > 1:
        return Question(choices)
    return log(desk, choices[0]) if choices and isinstance(choices[0], Log) else None


def _asked(desk: Desk, said: Amend) -> tuple[Meaning, ...]:
    """The hours that the last message asked about: as they were told, or what else they may be. Nothing where it asked of anything else."""
    latest = without_effect(desk)
    if latest is None or desk.now - latest.written > FRESH:
        return ()
    if is_named(replace(said, entry=None)) or said.entry not in (None, latest.answers):
        return ()
    choices = choices_of(latest)
    told = next((each for each in choices if isinstance(each, Log) and each.despite is not None), None)
    if told is not None:
        return (replace(told, despite=None),)
    return choices if all(isinstance(each, AddCommitment | Log) for each in choices) else ()


def _is_length(choice: Meaning) -> bool:
    return isinstance(choice, Log) and choice.stints[-1].start is None


def _noted_already(desk: Desk, asked: tuple[Meaning, ...], said: Amend) -> tuple[Stint, ...]:
    """The hours of its own category that what was asked about overlaps: a length that is told then is theirs."""
    told = asked[0] if len(asked) == 1 else None
    if not isinstance(told, Log) or told.corrects is not None or (said.category or said.day):
        return ()
    stint = stint_of(desk, in_categories(desk, told).stints[-1])
    return tuple(each for each in clashes_of(desk, [stint]) if each.id and each.category_id == stint.category_id)


def _set_right(desk: Desk, asked: tuple[Meaning, ...], said: Amend) -> Iterator[AddCommitment | Log]:
    """Each of them as it would have been told; what may still be planned only where its times are all that changes."""
    told = [in_categories(desk, each) for each in asked if isinstance(each, Log)]
    logs = [right for each in told for right in _logs(desk, each, said)]
    planned = [each for each in asked if isinstance(each, AddCommitment)]
    only_times = said == Amend(start=said.start, end=said.end, either=said.either, entry=said.entry)
    if only_times:
        yield from (replace(each, start=log.stints[-1].start, end=log.stints[-1].end) for each in planned for log in logs)
    yield from logs


def _logs(desk: Desk, told: Log, said: Amend) -> Iterator[Log]:
    """The hours with the last of them corrected, in each way in which that may be meant."""
    *others, last = told.stints
    stint = stint_of(desk, last)
    for way in ways_of(desk, stint, said):
        right = replace(amended(desk, stint, way), tasks=last.tasks, task_ids=stint.task_ids)
        yield replace(told, stints=(*others, right))
