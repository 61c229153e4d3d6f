"""When something takes place, or when the person works."""

from __future__ import annotations

from datetime import date

from bot.actions.agenda import agenda
from bot.actions.coming_days import SIX_DAYS
from bot.actions.commitments import LOOK_AHEAD
from bot.actions.matching import best_match
from bot.actions.naming import category_named
from bot.actions.refused import refused
from bot.actions.today import today
from bot.language.meaning import Show
from bot.voice.replies import TimesView
from storage.desk import Desk
from storage.records import Occurrence


def show_times(desk: Desk, said: Show) -> TimesView:
    """The times in the span asked for; else the next of what is named, or those of a week; and the next one where there is none."""
    meant = _meant(desk, said)
    first = said.first or today(desk)
    last = said.last or (first + SIX_DAYS if said.topic is None else _day_of_the_next(desk, meant))
    there = tuple(each for each in meant if first <= each.day <= last and (each.ends > desk.now or each.day < today(desk)))
    after = next((each for each in meant if each.starts > desk.now), None) if not there else None
    return TimesView(said.category if said.topic is None else meant[0].title, (first, last), there, after)


def _meant(desk: Desk, said: Show) -> list[Occurrence]:
    """All that is named, from the first day asked for on, as far as one looks ahead. Raises Stopped where nothing of that title is."""
    first = min(said.first or today(desk), today(desk))
    around = agenda(desk, first, max(said.last or first, today(desk) + LOOK_AHEAD))
    if said.topic is not None:
        found = best_match(said.topic, [(each.title, each) for each in around if each.ends > desk.now or each.day == said.first])
        if found is None:
            raise refused("no such commitment", said.topic)
        return [each for each in around if each.title.lower() == found.title.lower()]
    jobs = {job.category_id for job in desk.jobs.all()} if said.category is None else {category_named(desk, said.category).id}
    return [each for each in around if each.category_id in jobs]


def _day_of_the_next(desk: Desk, meant: list[Occurrence]) -> date:
    return next((each.day for each in meant if each.ends > desk.now), today(desk))
