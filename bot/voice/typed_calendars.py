"""What is said of calendars as a reply: ``as_reply`` with these kinds as well."""

from __future__ import annotations

from bot.language.calendar_meaning import AddCalendar, ChangeCalendar, MarkEvents
from bot.voice.spelling import Spelling
from bot.voice.typed import as_reply, words

__all__ = ["as_reply"]


@as_reply.register
def _(meaning: AddCalendar, spelling: Spelling) -> str:
    return f"calendar {spelling.title(meaning.name)} {meaning.link}" if meaning.name else meaning.link


@as_reply.register
def _(meaning: ChangeCalendar, spelling: Spelling) -> str:
    return f"{meaning.how} calendar {spelling.title(meaning.name)}"


@as_reply.register
def _(meaning: MarkEvents, spelling: Spelling) -> str:
    minor = None if meaning.minor is None else "minor" if meaning.minor else "major"
    outdoors = None if meaning.outdoors is None else "outdoors" if meaning.outdoors else "indoors"
    return words("mark", spelling.title(meaning.words), meaning.category, minor, outdoors)
