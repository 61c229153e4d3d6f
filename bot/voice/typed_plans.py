"""As ``typed``, for the plan of a day and days off. Importing it makes ``as_reply`` know them."""

from __future__ import annotations

from bot.language.plan_meaning import AcceptPlan, DayOff, Later, MakePlan, NotToday, Place, SameHours, Swap
from bot.voice.spelling import Spelling
from bot.voice.typed import as_reply, pick_words, words

__all__ = ["as_reply"]


@as_reply.register
def _(meaning: MakePlan, spelling: Spelling) -> str:
    day = spelling.day(meaning.day) if meaning.day else None
    if meaning.over == "week":
        return "plan next week" if day else "plan week"
    return words("plan", day or "day")


@as_reply.register
def _(meaning: AcceptPlan, spelling: Spelling) -> str:
    return words("accept plan", f"for {spelling.day(meaning.day)}" if meaning.day else None)


@as_reply.register
def _(meaning: Later, spelling: Spelling) -> str:
    return words("later", pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: NotToday, spelling: Spelling) -> str:
    return words("not today", pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: Swap, spelling: Spelling) -> str:
    return f"swap {meaning.first} and {meaning.second}"


@as_reply.register
def _(meaning: Place, spelling: Spelling) -> str:
    return words(spelling.hours(meaning.start, meaning.end), pick_words(meaning.tasks, spelling))


@as_reply.register
def _(meaning: SameHours, spelling: Spelling) -> str:
    return words(meaning.category, "same as", spelling.day(meaning.day))


@as_reply.register
def _(meaning: DayOff, spelling: Spelling) -> str:
    return f"{'sick' if meaning.sick else 'day off'} {spelling.day(meaning.day)}"
