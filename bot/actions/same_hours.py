"""Hours told by those of a day before: they are logged for today as they were then."""

from __future__ import annotations

from bot.actions.hours import log
from bot.actions.naming import category_id, category_name
from bot.actions.refused import refused
from bot.actions.today import today
from bot.language.meaning import Log, SaidStint
from bot.language.plan_meaning import SameHours
from bot.rules.local_time import local
from bot.voice.manners import manners_of, title_text
from bot.voice.replies import Reply
from storage.desk import Desk
from storage.records import Stint


def same_hours(desk: Desk, said: SameHours) -> Reply:
    """Logs today what was noted of that day, of one category where it is named: at the same times, with the same breaks and notes."""
    category = category_id(desk, said.category)
    noted = [each for each in desk.stints.on(said.day) if category in (None, each.category_id)]
    if not noted:
        about = f"{title_text(said.category)}, " if said.category else ""
        raise refused("no such hours", f"{about}{manners_of(desk.person, desk.now).near_day(said.day)}")
    return log(desk, Log(tuple(_as_said(desk, each) for each in noted)))


def _as_said(desk: Desk, noted: Stint) -> SaidStint:
    """The stint as if it was told of today."""
    zone = desk.person.zone
    start, end = (local(at, zone).time() if at is not None else None for at in (noted.starts, noted.ends))
    name = category_name(desk, noted.category_id)
    return SaidStint(name, today(desk), noted.minutes, start, end, noted.break_minutes, note=noted.note)
