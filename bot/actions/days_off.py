"""A day on which the person is sick or off: what it holds, to be cancelled or put off with a tap. By itself nothing is changed."""

from __future__ import annotations

from bot.actions.agenda import agenda
from bot.language.plan_meaning import DayOff
from bot.rules.calendar_commitments import CalendarCommitment
from bot.voice.replies import DayOffOffered, Reply
from storage.desk import Desk


def day_off(desk: Desk, said: DayOff) -> Reply:
    """The day's commitments that are not over, paid work first, and its open tasks."""
    paid = {job.category_id for job in desk.jobs.all()}
    ahead = [each for each in agenda(desk, said.day, said.day) if each.ends > desk.now]
    own = [each for each in ahead if not isinstance(each.commitment, CalendarCommitment)]
    return DayOffOffered(
        said.day,
        said.sick,
        tuple(each for each in own if each.category_id in paid),
        tuple(each for each in own if each.category_id not in paid),
        tuple(each for each in ahead if each not in own),
        desk.tasks.open_on(said.day),
    )
