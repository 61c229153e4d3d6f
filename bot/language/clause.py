"""One clause, one meaning.

clause   := [courtesy] [request] order [face] | question "?"
order    := [day [","]] (ordered | behind | shaped)     (``kinds``)
question := [request] clause                            only to see something, unless it begins with "can you"
"""

from __future__ import annotations

from dataclasses import replace

from bot.language.adding import GOAL, TASK
from bot.language.cancel_said import CANCEL
from bot.language.earnings_said import read_earnings
from bot.language.edges import without_courtesy, without_faces
from bot.language.kinds import readers_of
from bot.language.meaning import Meaning
from bot.language.phrase import Phrase, opened_by
from bot.language.planned_or_spent import planned_or_spent
from bot.language.showing import read_help, read_show
from bot.language.slots import day_ahead
from bot.language.tasks_said import PUSH
from bot.language.times_asked import read_times
from bot.language.tokens import is_glued, is_number

REQUEST = opened_by(
    "can you | could you | would you | will you | can you please | could you please | would you please | can we | let's | lets"
)

BEHIND_A_DAY = (TASK, GOAL, PUSH, CANCEL, opened_by("appt | appointment"))
"""Orders that may also follow the day they are for: tomorrow task call bank."""
ORDERED = frozenset(word for opening in BEHIND_A_DAY for word in opening.calls)


def read_clause(phrase: Phrase) -> Meaning | None:
    """What the whole of ``phrase`` means, or None."""
    phrase = without_faces(without_courtesy(phrase))
    if not phrase.tokens or _is_negative(phrase):
        return None
    if phrase.tokens[-1].text == "?":
        return _read_question(phrase)
    return _read_order(phrase)


def _is_negative(phrase: Phrase) -> bool:
    """-2h would take hours away, which no reply does; "- 2h" is an item of a list."""
    return phrase.word(0) == "-" and is_number(phrase.tokens, 1) and is_glued(phrase.tokens, 1)


def _read_question(phrase: Phrase) -> Meaning | None:
    """A question asks to see something; only "can you …?" asks for something to be done."""
    asked = REQUEST(phrase)
    if asked:
        return _read_order(phrase.part(asked, -1))
    return None if phrase.piece else read_help(phrase) or read_earnings(phrase) or read_times(phrase) or read_show(phrase)


def _read_order(phrase: Phrase) -> Meaning | None:
    asked = REQUEST(phrase)
    phrase = phrase.part(asked) if asked else phrase
    if not ORDERED.isdisjoint([token.text for token in phrase.tokens[1:]]):
        phrase = _with_day_behind(phrase)
    for reader in readers_of(phrase):
        found = reader(phrase)
        if found is not None:
            return planned_or_spent(phrase, found)
    return None


def _with_day_behind(phrase: Phrase) -> Phrase:
    """An order with the day behind it that was said before it; any other phrase as it is."""
    day = day_ahead(phrase, 0)
    if day is None:
        return phrase
    at = day.end + 1 if phrase.word(day.end) in (",", ":", "-") else day.end
    opens = any(opening(phrase, at) for opening in BEHIND_A_DAY)
    return replace(phrase, tokens=phrase.tokens[at:] + phrase.tokens[: day.end]) if opens else phrase
