"""Commitments moved: with the verb before or behind what moves, or in words of an exchange.

move    := ("move" | "reschedule" | …) (words [day] ("to" | "until") moment | [words ["from" day]])
behind  := words [day] ["is" | "was" | "has been" | …] ("moved" | "rescheduled" | …) ["from" day] ("to" | "until") moment
instead := words moment "instead of" day
swapped := ("swap" | "switch" | "exchange") words day ("with" | "for" | "to") moment
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.language.context import Context
from bot.language.meaning import Move
from bot.language.moments import Moment, read_moment
from bot.language.phrase import QUOTED, Phrase, opened_by, phrase_of
from bot.language.plans_said import SWAP
from bot.language.tokens import Tokens
from bot.language.weekdays import WEEKDAYS
from bot.language.words import ARTICLES, FUNCTION_WORDS

MOVE = opened_by("move | moved | reschedule | rescheduled | shift | bring forward | postpone | push back | push | change | delay | put off")
MOVED = opened_by(
    "|".join(
        f"{was} {moved}"
        for was in ("", "is", "was", "got", "has been", "is now", "is being", "gets", "will be")
        for moved in ("moved", "rescheduled", "postponed", "pushed back", "pushed", "brought forward", "put off", "delayed", "shifted")
    )
)
MOVED_WORDS = frozenset({"moved", "rescheduled", "postponed", "pushed", "brought", "put", "delayed", "shifted"})
INSTEAD = frozenset({"instead"})
TO = frozenset({"to", "until", "till", "for", "on", "onto"})
UNTIL = frozenset({"to", "until", "till"})
EXCHANGED = frozenset({"with", "for", "to"})
MOST_WORDS = 6
MOST_WORDS_ALONE = 3


def read_move(phrase: Phrase) -> Move | None:
    """A commitment to another day, another time, or both."""
    start = MOVE(phrase)
    if not start:
        return None
    for at in range(start + 1, len(phrase.tokens)):
        found = _from_to(phrase, phrase.tokens[start:at], at + 1) if phrase.word(at) in TO else None
        if found is not None:
            may_be_hours = phrase.word(0) in ("change", "changed") and found.day is None and found.end is not None
            return replace(found, or_hours=may_be_hours)
    return (_moved_to_time(phrase, start) or _moved_somewhere(phrase, start)) if phrase.word(0) in ("move", "reschedule") else None


def _moved_somewhere(phrase: Phrase, start: int) -> Move | None:
    """Where to is not said, and is for the answer to ask: move, move dentist, move dentist from thu."""
    if start == len(phrase.tokens) == 1:
        return Move(None, None)
    words, from_day = _words_and_day(phrase.part(start))
    sure = from_day is not None or any(token.text == QUOTED for token in phrase.tokens)
    return Move(words, None, from_day=from_day) if words is not None and (sure or len(words.split()) <= MOST_WORDS_ALONE) else None


def read_moved_behind(phrase: Phrase) -> Move | None:
    """As people pass on what others moved: dentist moved to thursday 3pm, choir tuesday has been moved to friday."""
    for at in range(1, min(len(phrase.tokens), MOST_WORDS + 2)):
        behind = at + MOVED(phrase, at)
        to = next((to for to in range(behind, len(phrase.tokens)) if phrase.word(to) in UNTIL), None) if behind > at else None
        if to is not None:
            return _from_to(phrase, phrase.tokens[:at] + phrase.tokens[behind:to], to + 1)
    return None


def read_instead_of(phrase: Phrase) -> Move | None:
    """museum saturday instead of thursday; museum sat 10-14 instead of thu."""
    at = next((at for at in range(2, len(phrase.tokens)) if phrase.word(at) == "instead" and phrase.word(at + 1) == "of"), None)
    for start in range(1, at or 0):
        swapped = phrase.tokens[start:at]
        if moment_to_end(phrase.part(0, at), start) is not None:
            turned = replace(phrase, tokens=(*phrase.tokens[:start], *phrase.tokens[(at or 0) + 2 :], *swapped))
            return _from_to(turned, turned.tokens[: -len(swapped)], len(turned.tokens) - len(swapped))
    return None


def read_swapped(phrase: Phrase) -> Move | None:
    """swap museum thursday with saturday: one day takes the place of the other."""
    start = SWAP(phrase)
    at = next((at for at in range(start + 2, len(phrase.tokens)) if phrase.word(at) in EXCHANGED), None) if start else None
    return _from_to(phrase, phrase.tokens[start:at], at + 1) if at is not None else None


def _from_to(phrase: Phrase, what: Tokens, at: int) -> Move | None:
    """What the tokens ``what`` name, on its day where that is said, moves to the moment that fills the phrase from ``at`` on."""
    to = moment_to_end(phrase, at)
    words, from_day = _words_and_day(replace(phrase, tokens=what)) if to is not None else (None, None)
    if to is None or words is None:
        return None
    to = to if to.day else _on_any_day(phrase, at) or to
    return Move(words, to.day, to.start, to.end, from_day=from_day)


def read_new_time(text: str, context: Context) -> Moment | None:
    """The day, perhaps with a time, that answers where something is to move; None when anything else is said, or no day."""
    phrase = phrase_of(text, context)
    found = moment_to_end(phrase, 0) if phrase.tokens else None
    return found if found is not None and found.day is not None else None


def _on_any_day(phrase: Phrase, at: int) -> Moment | None:
    """A new time alone, as if none of its day had passed: whose day it is of is not known here, and seldom today's."""
    midnight = phrase.context.now.replace(hour=0, minute=0)
    return moment_to_end(replace(phrase, context=replace(phrase.context, now=midnight)), at)


def _moved_to_time(phrase: Phrase, start: int) -> Move | None:
    """Without "to" the new time must be figures with a colon: move haircut 18:15."""
    for at in range(start + 1, len(phrase.tokens)):
        to = moment_to_end(phrase, at) if phrase.word(at + 1) == ":" else None
        words = title_words(phrase.part(start, at)) if to is not None else None
        if to is not None and words is not None and not TO & set(words.split()):
            return Move(words, to.day, to.start, to.end)
    return None


def moment_to_end(phrase: Phrase, at: int) -> Moment | None:
    """The moment that the phrase says from ``at`` on, and nothing else."""
    found = read_moment(phrase.tokens, at, phrase.context, "forward")
    if found is None or any(token.text not in (".", "!", "please", ",") for token in phrase.tokens[found.end :]):
        return None
    return found.value if found.value.day_said else replace(found.value, day=None)


def _words_and_day(phrase: Phrase) -> tuple[str | None, date | None]:
    """The words that name a commitment, and the day it is moved from where that stands behind them."""
    for at in range(1, len(phrase.tokens)):
        start = at + 1 if phrase.word(at) in ("from", "of") else at
        found = read_moment(phrase.tokens, start, phrase.context, "forward")
        if found is not None and found.end == len(phrase.tokens) and found.value.day is not None:
            return title_words(phrase.part(0, at)), today_by_name(phrase, start, found.value.day)
    return title_words(phrase), None


def today_by_name(phrase: Phrase, at: int, day: date | None) -> date | None:
    """The day from which something moves or at which it is cancelled: today, where that is the weekday named."""
    today = phrase.context.now.date()
    start = at + 1 if phrase.word(at) == "on" else at
    return today if phrase.word(start) in WEEKDAYS and day == today + timedelta(days=7) else day


def title_words(phrase: Phrase) -> str | None:
    """The whole phrase as words that name something, without an article before it."""
    start, end = 0, len(phrase.tokens)
    while start < end and phrase.word(start) in ARTICLES:
        start += 1
    while start < end and phrase.word(end - 1) in (",", ".", "!", "please"):
        end -= 1
    words = [phrase.word(at) for at in range(start, end)]
    if not words or len(words) > MOST_WORDS or words[0] in FUNCTION_WORDS or words[-1] in FUNCTION_WORDS:
        return None
    if not any(word.isalpha() or word == QUOTED for word in words):
        return None
    return phrase.original(start, end)
