"""What a message may enclose: how each file is made, in two steps.

The first reads at the desk what the file is made of, and is short. It gives
the second, which touches no database and may take its time: it is run off the
loop, and only then is anything imported that draws.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import TypeAlias

from bot.actions.agenda import agenda
from bot.actions.pictures import hours_view, week_view
from bot.language.meaning import Show, What
from bot.language.wire import from_json
from bot.voice.manners import manners_of
from storage.desk import Desk
from storage.records import Horizon

Making: TypeAlias = Callable[[], bytes]


class NothingEnclosed(Exception):
    """A parcel says that it encloses what no file is made of."""


def making(desk: Desk, encloses: str) -> Making:
    """Reads what the file is made of; what it gives makes the file. Raises NothingEnclosed and UnreadableMeaning."""
    asked = from_json(encloses)
    if not isinstance(asked, Show) or asked.what not in MAKERS or asked.first is None or asked.last is None:
        raise NothingEnclosed(encloses)
    return MAKERS[asked.what](desk, asked, asked.first, asked.last)


def _week_picture(desk: Desk, asked: Show, first: date, last: date) -> Making:
    view, manners, look = week_view(desk, first), manners_of(desk.person, desk.now), desk.person.look

    def make() -> bytes:
        from bot.pictures.week_picture import week_picture

        return week_picture(view, manners, look)

    return make


def _hours_picture(desk: Desk, asked: Show, first: date, last: date) -> Making:
    view = hours_view(desk, first, last, asked.category)
    manners, look = manners_of(desk.person, desk.now), desk.person.look

    def make() -> bytes:
        from bot.pictures.hours_picture import hours_picture

        return hours_picture(view, manners, look)

    return make


def _week_page(desk: Desk, asked: Show, first: date, last: date) -> Making:
    manners = manners_of(desk.person, desk.now)
    occurrences = agenda(desk, first, last)
    goals = [goal.title for goal in desk.goals.open_for(Horizon.WEEK, first)]

    def make() -> bytes:
        from bot.pictures.paper import PaperSize
        from bot.pictures.week_page import week_page

        return week_page(first, occurrences, manners, goals, PaperSize.LETTER if asked.form == "letter" else PaperSize.A4)

    return make


MAKERS: dict[What, Callable[[Desk, Show, date, date], Making]] = {
    "week_picture": _week_picture,
    "hours_picture": _hours_picture,
    "week_page": _week_page,
}
