"""What a message may enclose: how each file is made.

All of this runs off the loop, on a look at the desk that nobody waits for, and
only here is anything imported that draws or writes files.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from bot.actions.agenda import agenda
from bot.actions.pictures import hours_view, week_view
from bot.actions.timesheets import timesheet_file
from bot.language.meaning import Show, What
from bot.language.wire import from_json
from bot.voice.manners import manners_of
from storage.desk import Desk
from storage.records import Horizon

MOST_BYTES = 45_000_000
"""What a file may hold. Source: Telegram Bot API, a bot sends files of up to 50 MB."""


class NothingEnclosed(Exception):
    """A parcel says that it encloses what no file is made of."""


class TooLarge(Exception):
    """The file is larger than a chat carries."""


def file_of(desk: Desk, encloses: str) -> bytes:
    """The content of the file. Raises NothingEnclosed, UnreadableMeaning, TooLarge, and what the making of it raises."""
    asked = from_json(encloses)
    if not isinstance(asked, Show) or asked.what not in MAKERS:
        raise NothingEnclosed(encloses)
    made = MAKERS[asked.what](desk, asked)
    if len(made) > MOST_BYTES:
        raise TooLarge
    return made


def _week_picture(desk: Desk, asked: Show) -> bytes:
    from bot.pictures.week_picture import week_picture

    return week_picture(week_view(desk, _span(asked)[0]), manners_of(desk.person, desk.now), desk.person.look)


def _hours_picture(desk: Desk, asked: Show) -> bytes:
    from bot.pictures.hours_picture import hours_picture

    return hours_picture(hours_view(desk, *_span(asked), asked.category), manners_of(desk.person, desk.now), desk.person.look)


def _week_page(desk: Desk, asked: Show) -> bytes:
    from bot.pictures.paper import PaperSize
    from bot.pictures.week_page import week_page

    first, last = _span(asked)
    goals = [goal.title for goal in desk.goals.open_for(Horizon.WEEK, first)]
    size = PaperSize.LETTER if asked.form == "letter" else PaperSize.A4
    return week_page(first, agenda(desk, first, last), manners_of(desk.person, desk.now), goals, size)


def _export(desk: Desk, asked: Show) -> bytes:
    from bot.exporting.files import open_files, zipped

    return zipped(open_files(desk))


def _span(asked: Show) -> tuple[date, date]:
    if asked.first is None or asked.last is None:
        raise NothingEnclosed(asked.what)
    return asked.first, asked.last


MAKERS: dict[What, Callable[[Desk, Show], bytes]] = {
    "week_picture": _week_picture,
    "hours_picture": _hours_picture,
    "week_page": _week_page,
    "export": _export,
    "timesheet": timesheet_file,
}
