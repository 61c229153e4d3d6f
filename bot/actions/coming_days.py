"""What is fixed in the days to come."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.refused import refused
from bot.actions.today import today
from bot.language.meaning import Move
from bot.rules.occurrences import occurrences
from bot.voice.replies import Question
from storage.desk import Desk
from storage.records import Commitment

A_WEEK = timedelta(days=7)
SIX_DAYS = timedelta(days=6)
MOST_TO_MOVE = 5


def coming_days(desk: Desk, commitment: Commitment, first: date) -> tuple[date, ...]:
    """The days on which it takes place within a week that begins with ``first``."""
    return tuple(each.day for each in occurrences((commitment,), first, first + SIX_DAYS, desk.person.zone))


def which_to_move(desk: Desk) -> Question:
    """The next commitments of a week, each as a choice. Raises Stopped where there is none."""
    first = today(desk)
    ahead = [each for each in agenda(desk, first, first + A_WEEK) if each.starts > desk.now][:MOST_TO_MOVE]
    if not ahead:
        raise refused("nothing that day", "the week ahead")
    return Question(tuple(Move(each.commitment.title, None, from_day=each.day) for each in ahead))
