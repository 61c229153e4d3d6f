"""As ``typed``, for calendars of others and what stands from week to week. Importing it makes ``as_reply`` know them."""

from __future__ import annotations

from bot.language.calendar_meaning import AddCalendar, ChangeCalendar, MarkEvents
from bot.language.plan_meaning import AsPlanned
from bot.language.standing_meaning import AllowTravel, DropCategory, DropRoutine, DropTarget, RenameCategory, TakesPlace
from bot.voice.spelling import Spelling, amount_words, travel_words
from bot.voice.typed_plans import as_reply

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
    way = travel_words(meaning.minutes_before, meaning.minutes_after)
    said = (meaning.category, minor, outdoors, way)
    return " ".join(("mark", spelling.title(meaning.words), *(word for word in said if word)))


@as_reply.register
def _(meaning: AllowTravel, spelling: Spelling) -> str:
    way = travel_words(meaning.minutes_before, meaning.minutes_after)
    return f"allow {way} for {spelling.title(meaning.words)}" if meaning.words else f"allow {way}"


@as_reply.register
def _(meaning: TakesPlace, spelling: Spelling) -> str:
    said = ("uncancel", spelling.title(meaning.words), spelling.day(meaning.day) if meaning.day else None)
    return " ".join(word for word in said if word)


@as_reply.register
def _(meaning: DropRoutine, spelling: Spelling) -> str:
    return f"drop routine {spelling.title(meaning.words) if meaning.words else meaning.number}"


@as_reply.register
def _(meaning: DropTarget, spelling: Spelling) -> str:
    return f"no target {meaning.category}"


@as_reply.register
def _(meaning: DropCategory, spelling: Spelling) -> str:
    return f"drop category {meaning.category}"


@as_reply.register
def _(meaning: RenameCategory, spelling: Spelling) -> str:
    return f"rename {meaning.category} to {meaning.name}"


@as_reply.register
def _(meaning: AsPlanned, spelling: Spelling) -> str:
    pause = f"less {amount_words(meaning.break_minutes)}" if meaning.break_minutes else None
    said = (spelling.day(meaning.day), meaning.category, meaning.words, "as planned", pause)
    return " ".join(word for word in said if word)
