"""A meaning as the short reply that would be understood as exactly that meaning.

There is a friendly way to write each thing ("dentist fri 16:00") and an exact
one (quotes around titles, ISO days, 09:00, and where even that might be taken
for the evening, am and pm; to who lives by a 12-hour clock these from the
first). The friendliest that reads back as the meaning is taken, so what a
button or an example says is always true.
"""

from __future__ import annotations

from datetime import date
from typing import TypeAlias

from bot.language.context import Context
from bot.language.meaning import Ask, Log, Meaning, Several, Unknown
from bot.language.understand import understand
from bot.voice.spelling import Clocks, Spelling
from bot.voice.typed import stint_words
from bot.voice.typed_pay import as_reply
from storage.records import ClockStyle

Ways: TypeAlias = tuple[tuple[bool, bool, Clocks], ...]

BY_24_HOURS: Ways = (
    (False, False, "short"),
    (False, False, "full"),
    (False, True, "full"),
    (True, False, "short"),
    (True, True, "full"),
    (False, False, "halves"),
    (False, True, "halves"),
    (True, True, "halves"),
)
BY_12_HOURS: Ways = (
    (False, False, "brief"),
    (False, True, "brief"),
    (True, False, "brief"),
    (True, True, "brief"),
    (False, False, "halves"),
    (False, True, "halves"),
    (True, True, "halves"),
)
IN_HALVES: Ways = tuple(way for way in BY_24_HOURS if way[2] == "halves")
"""Whether titles are quoted, whether days are exact, and how times are written: from the friendliest to the surest."""


def written(meaning: Meaning, context: Context, style: ClockStyle = ClockStyle.TWENTY_FOUR) -> str:
    """The reply, friendly if that is clear enough and exact if not. Of an open question the likeliest choice; empty for nothing."""
    if isinstance(meaning, Ask):
        return written(meaning.choices[0], context, style) if meaning.choices else ""
    if isinstance(meaning, Unknown):
        return meaning.near[0] if meaning.near else ""
    ways = _in_ways(meaning, context, BY_24_HOURS if style is ClockStyle.TWENTY_FOUR else BY_12_HOURS)
    return next((text for text in dict.fromkeys(ways) if understand(text, context) == meaning), ways[0])


def labelled(meaning: Meaning, context: Context, style: ClockStyle = ClockStyle.TWENTY_FOUR) -> str:
    """The reply as a button says it: by the person's clock, as every answer is; what the button does, it says to us itself."""
    text = written(meaning, context, style)
    if isinstance(meaning, Ask | Unknown):
        return text
    today = context.now.date()
    if style is ClockStyle.TWENTY_FOUR and text in _in_ways(meaning, context, IN_HALVES):
        return as_reply(meaning, Spelling(today, False, False, "full", dated=_looks_back(meaning, today)))
    ways = BY_24_HOURS if style is ClockStyle.TWENTY_FOUR else BY_12_HOURS
    dated = (Spelling(today, *way, dated=True) for way in ways if as_reply(meaning, Spelling(today, *way)) == text)
    return next((as_reply(meaning, spelling) for spelling in dated), text) if _looks_back(meaning, today) else text


def _looks_back(meaning: Meaning, today: date) -> bool:
    """Whether it tells of hours of an earlier day, whose weekday alone may be taken for the next."""
    return isinstance(meaning, Log) and any(stint.day < today for stint in meaning.stints)


def _in_ways(meaning: Meaning, context: Context, ways_of_writing: Ways) -> list[str]:
    spellings = [Spelling(context.now.date(), *way) for way in ways_of_writing]
    ways = [as_reply(meaning, spelling) for spelling in spellings]
    return ways + [_in_lines(meaning, spelling) for spelling in spellings] if isinstance(meaning, Several | Log) else ways


def _in_lines(meaning: Several | Log, spelling: Spelling) -> str:
    """Each part on a line of its own, where commas would not part them clearly."""
    if isinstance(meaning, Log):
        return "\n".join(stint_words(stint, spelling, spelling.today) for stint in meaning.stints)
    return "\n".join(_in_lines(part, spelling) if isinstance(part, Log) else as_reply(part, spelling) for part in meaning.parts)
