"""A shift that the other side called off: the place of work is closed, or there is none that day.

closed := category [shift] ["is"] ("closed" | "called off" | "shut") (day | days) | "no" category [shift] (day | days)

Only with a category and a day to come, or today where it is "closed": "museum was closed", "no, museum" and "closed at five" say
other things. Days are said as behind "cancel".
"""

from __future__ import annotations

from bot.language.cancel_said import days_to_end
from bot.language.meaning import Cancel
from bot.language.names import read_names
from bot.language.phrase import Phrase, opened_by
from bot.language.slots import day_ahead
from bot.language.words import AFTER_A_CATEGORY, CLOSERS
from bot.rules.local_time import ONE_DAY

CLOSED = opened_by("closed | is closed | will be closed | called off | is called off | shut | is shut | closes")
WORDS = frozenset({"closed", "called", "shut", "closes", "no"})


def read_closed(phrase: Phrase) -> Cancel | None:
    """The commitment of that name that does not take place on the day; None where anything else is said, or of a day that is over."""
    start = int(phrase.word(0) == "no")
    call = read_names(phrase.tokens, start, phrase.names)
    if call is None or len(call.value) != 1:
        return None
    named = call.end + (phrase.word(call.end) in AFTER_A_CATEGORY)
    closed = 0 if start else CLOSED(phrase, named)
    if not start and not closed:
        return None
    days = days_to_end(phrase, named + closed)
    if days is not None:
        return Cancel(call.value[0], days[0], last=days[1]) if days[1] > phrase.context.now.date() else None
    day = day_ahead(phrase, named + closed)
    # "no museum today" may as well set right what was just said.
    if day is None or day.value < phrase.context.now.date() + start * ONE_DAY:
        return None
    return Cancel(call.value[0], day.value) if all(token.text in CLOSERS for token in phrase.tokens[day.end :]) else None
