"""Hours of any span and category, beside those of the span before."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from bot.actions.naming import category_name, category_named
from bot.actions.tally import hours_between, minutes_before
from bot.actions.today import this_week, today
from bot.language.meaning import Show
from bot.rules.hours import added
from bot.rules.span_before import parts_of
from bot.rules.weeks import last_of_week
from bot.voice.replies import HoursView
from storage.desk import Desk
from storage.records import Stint


def show_hours(desk: Desk, said: Show) -> HoursView:
    """Hours of the span asked for, by default of this week so far; a long one by its months or years, too. A day stands alone."""
    first, last = _asked(desk, said)
    shown = last if said.first or said.day else today(desk)
    only = category_named(desk, said.category) if said.category else None
    before = minutes_before(desk, first, last) if first != last else None
    parts = [(begins, desk.stints.minutes_by_category(begins, ends)) for begins, ends in parts_of(first, shown)]
    spent = added(minutes for _, minutes in parts) if parts else desk.stints.minutes_by_category(first, shown)
    hours = hours_between(desk, first, shown, spent, before=before[1] if before else None)
    return HoursView(
        first,
        shown,
        tuple(item for item in hours if only is None or item.category == only.name),
        only.name if only else None,
        before[0] if before else None,
        _totals(parts, only.id if only else None),
        _entries(desk, first, only.id if only else None) if first == shown else (),
    )


def _entries(desk: Desk, day: date, category_id: int | None) -> tuple[tuple[str, Stint], ...]:
    """The hours of a day as they were noted; none where they tell no more than their sums do."""
    there = [each for each in desk.stints.on(day) if category_id is None or each.category_id == category_id]
    plain = not any(each.starts or each.note for each in there) and len({each.category_id for each in there}) == len(there)
    return () if plain else tuple((category_name(desk, each.category_id) or "", each) for each in there)


def _asked(desk: Desk, said: Show) -> tuple[date, date]:
    """First and last day of what was asked for."""
    first = said.first or said.day
    if first is None:
        return this_week(desk), last_of_week(today(desk), desk.person.week_starts)
    return first, said.last or first


def _totals(parts: list[tuple[date, Mapping[int, int]]], category_id: int | None) -> tuple[tuple[date, int], ...]:
    """The parts that have hours: their first day, and the minutes of one category or of all."""
    totals = [(begins, sum(of.values()) if category_id is None else of.get(category_id, 0)) for begins, of in parts]
    return tuple(each for each in totals if each[1])
