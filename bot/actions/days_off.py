"""A day on which the person is sick or off: what it holds, to be cancelled or put off with a tap. By itself only a sick day is noted."""

from __future__ import annotations

from bot.actions.agenda import agenda
from bot.actions.today import today
from bot.language.plan_meaning import DayOff
from bot.rules.calendar_commitments import CalendarCommitment
from bot.rules.local_time import ONE_DAY
from bot.rules.unlogged import unlogged
from bot.voice.replies import DayOffOffered, Reply
from storage.desk import Desk
from storage.records import SickDay


def day_off(desk: Desk, said: DayOff) -> Reply:
    """The day's commitments that are not over, the paid work of it that is and has no hours first, and its open tasks."""
    paid = {job.category_id for job in desk.jobs.all()}
    held = agenda(desk, said.day, said.day)
    stints = desk.stints.between(said.day - ONE_DAY, said.day + ONE_DAY)
    silent = unlogged((each for each in held if each.category_id in paid), stints, desk.now)
    waiting = [each for each in held if each.ends > desk.now or each in silent]
    own = [each for each in waiting if not isinstance(each.commitment, CalendarCommitment)]
    if said.sick and not desk.sick_days.on(said.day):
        desk.sick_days.add(SickDay(0, said.day))
    return DayOffOffered(
        said.day,
        said.sick,
        tuple(each for each in own if each.category_id in paid),
        tuple(each for each in own if each.category_id not in paid),
        tuple(each for each in waiting if each not in own),
        desk.tasks.open_on(said.day) if said.day >= today(desk) else (),
        over=said.day < today(desk),
    )
