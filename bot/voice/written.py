"""A meaning as the short reply that would be understood as exactly that meaning.

There is a friendly way to write each thing ("dentist fri 16:00") and an exact
one (quotes around titles, ISO days, am and pm). The friendliest that reads back
as the meaning is taken, so what a button or an example says is always true.
"""

from __future__ import annotations

from bot.language.context import Context
from bot.language.meaning import Ask, Log, Meaning, Several, Unknown
from bot.language.understand import understand
from bot.voice import typed_standing as typed_standing
from bot.voice.spelling import Spelling
from bot.voice.typed import as_reply, stint_words

WAYS = ((False, False), (False, True), (True, False), (True, True))
"""Whether titles are quoted, and whether days and times are exact: from the friendliest to the surest."""


def written(meaning: Meaning, context: Context) -> str:
    """The reply, friendly if that is clear enough and exact if not. Of an open question the likeliest choice; empty for nothing."""
    if isinstance(meaning, Ask):
        return written(meaning.choices[0], context) if meaning.choices else ""
    if isinstance(meaning, Unknown):
        return meaning.near[0] if meaning.near else ""
    ways = [as_reply(meaning, Spelling(context.now.date(), quoted, exact)) for quoted, exact in WAYS]
    if isinstance(meaning, Several | Log):
        ways += [_in_lines(meaning, Spelling(context.now.date(), quoted, exact)) for quoted, exact in WAYS]
    return next((text for text in dict.fromkeys(ways) if understand(text, context) == meaning), ways[0])


def _in_lines(meaning: Several | Log, spelling: Spelling) -> str:
    """Each part on a line of its own, where commas would not part them clearly."""
    if isinstance(meaning, Log):
        return "\n".join(stint_words(stint, spelling, spelling.today) for stint in meaning.stints)
    return "\n".join(_in_lines(part, spelling) if isinstance(part, Log) else as_reply(part, spelling) for part in meaning.parts)
