"""Hours that were noted are taken out."""

from __future__ import annotations

from bot.actions.amending import LOOK_BACK
from bot.actions.naming import category_named
from bot.actions.refused import refused
from bot.actions.today import today
from bot.language.meaning import TakeOut
from bot.voice.manners import hours_text, manners_of, title_text
from bot.voice.replies import TakenOut
from storage.desk import Desk


def take_out(desk: Desk, said: TakeOut) -> TakenOut:
    """Takes out the hours of that category and length, of several as long those noted last. Raises Stopped where there are none."""
    category = category_named(desk, said.category)
    noted = desk.stints.between(said.day or today(desk) - LOOK_BACK, said.day or today(desk))
    there = [each for each in noted if each.category_id == category.id]
    fitting = [each for each in there if each.minutes == said.minutes]
    if not fitting:
        day = f", {manners_of(desk.person, desk.now).near_day(said.day)}" if said.day else ""
        raise refused("no such hours", f"{title_text(category.name)}{day}, {hours_text(said.minutes)}")
    gone = max(fitting, key=lambda each: (each.day, each.id))
    desk.stints.remove(gone.id)
    return TakenOut(category.name, gone, sum(each.minutes for each in there if each.day == gone.day) - gone.minutes)
