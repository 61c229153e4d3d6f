"""A meaning as the short reply that would be understood as exactly that meaning.

There is a friendly way to write each thing ("dentist fri 16:00") and an exact
one (quotes around titles, ISO days, 09:00, and where even that might be taken
for the evening, am and pm). The friendliest that reads back as the meaning is
taken, so what a button or an example says is always true.
"""

from __future__ import annotations

from typing import Literal

from bot.language.context import Context
from bot.language.meaning import Ask, Log, Meaning, Several, Unknown
from bot.language.understand import understand
from bot.voice.spelling import Spelling
from bot.voice.typed import stint_words
from bot.voice.typed_pay import as_reply

WAYS: tuple[tuple[bool, bool, Literal["short", "full", "halves"]], ...] = (
    (False, False, "short"),
    (False, False, "full"),
    (False, True, "full"),
    (True, False, "short"),
    (True, True, "full"),
    (False, False, "halves"),
    (False, True, "halves"),
    (True, True, "halves"),
)
"""Whether titles are quoted, whether days are exact, and how times are written: from the friendliest to the surest."""


def written(meaning: Meaning, context: Context) -> str:
    """The reply, friendly if that is clear enough and exact if not. Of an open question the likeliest choice; empty for nothing."""
    if isinstance(meaning, Ask):
        return written(meaning.choices[0], context) if meaning.choices else ""
    if isinstance(meaning, Unknown):
        return meaning.near[0] if meaning.near else ""
    ways = _ways(meaning, context)
    return next((text for text in dict.fromkeys(ways) if understand(text, context) == meaning), ways[0])


def labelled(meaning: Meaning, context: Context) -> str:
    """The reply as a button says it: by the 24-hour clock, as every answer is; what the button does, it says to us itself."""
    text = written(meaning, context)
    if isinstance(meaning, Ask | Unknown) or text not in _ways(meaning, context, halves=True):
        return text
    return as_reply(meaning, Spelling(context.now.date(), False, False, "full"))


def _ways(meaning: Meaning, context: Context, *, halves: bool = False) -> list[str]:
    """Every way to write it, or only those with am and pm."""
    spellings = [Spelling(context.now.date(), *way) for way in WAYS if not halves or way[2] == "halves"]
    ways = [as_reply(meaning, spelling) for spelling in spellings]
    return ways + [_in_lines(meaning, spelling) for spelling in spellings] if isinstance(meaning, Several | Log) else ways


def _in_lines(meaning: Several | Log, spelling: Spelling) -> str:
    """Each part on a line of its own, where commas would not part them clearly."""
    if isinstance(meaning, Log):
        return "\n".join(stint_words(stint, spelling, spelling.today) for stint in meaning.stints)
    return "\n".join(_in_lines(part, spelling) if isinstance(part, Log) else as_reply(part, spelling) for part in meaning.parts)
