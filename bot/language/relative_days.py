"""Days by a word of their own: today, tomorrow, the day before yesterday, the next day.

relative := [("later" | "earlier" | "early" | "late")] word ["week" | "fortnight"] | ["the"] "day" ("after" | "before") word
        | ["the"] ("next" | "previous" | "this" | …) "day" | now
now      := "now" | "right now" | "at the moment" | "asap" | …
"""

from __future__ import annotations

from datetime import date

from bot.language.partial_days import day_shifted
from bot.language.standpoint import Standpoint
from bot.language.tokens import Found, Tokens, after_words, text_at

_BY_WORD = {
    word: days
    for days, words in (
        (-1, "yesterday yesterday's yesterdays yday yest yesturday"),
        (0, "today today's todays tonight tonight's"),
        (1, "tomorrow tomorrow's tomorrows tmrw tmr tmw tmrrw tomorow tommorow tommorrow"),
        (2, "overmorrow"),
    )
    for word in words.split()
}
_BESIDE = {"after": 1, "before": -1}
_BY_ADJECTIVE = {"next": 1, "following": 1, "previous": -1, "this": 0, "current": 0, "same": 0}
_NOW = (
    ("now",),
    ("asap",),
    ("immediately",),
    ("right", "now"),
    ("just", "now"),
    ("at", "once"),
    ("at", "the", "moment"),
    ("at", "this", "moment"),
    ("at", "this", "time"),
    ("at", "the", "present", "time"),
    ("as", "soon", "as", "possible"),
)
_WITHIN_A_DAY = frozenset({"later", "earlier", "early", "late"})
WEEKS_BEHIND = {"week": 1, "fortnight": 2}
"""Behind a day, as in Britain: tomorrow week, tuesday fortnight."""
_NOW_WORDS = frozenset(words[0] for words in _NOW)
DAY_WORDS = frozenset(_BY_WORD)
RELATIVE_WORDS = DAY_WORDS | _NOW_WORDS | frozenset(_BY_ADJECTIVE) | _WITHIN_A_DAY | {"the", "day"}


def read_relative(tokens: Tokens, at: int, stand: Standpoint) -> Found[date] | None:
    """today, the day after tomorrow, the next day, right now."""
    shift = _read_shift(tokens, at)
    day = day_shifted(stand.today, shift.value) if shift else None
    if shift is None or day is None:
        return None
    return Found(day, shift.end)


def read_now(tokens: Tokens, at: int) -> int | None:
    """The index after words that mean this very moment: right now, at the moment, as soon as possible."""
    if text_at(tokens, at) not in _NOW_WORDS:
        return None
    return next((end for words in _NOW if (end := after_words(tokens, at, *words)) is not None), None)


def _read_shift(tokens: Tokens, at: int) -> Found[int] | None:
    """How many days from today."""
    at = at + 1 if text_at(tokens, at) in _WITHIN_A_DAY and text_at(tokens, at + 1) in _BY_WORD else at
    shift = _BY_WORD.get(text_at(tokens, at))
    if shift is not None:
        weeks = WEEKS_BEHIND.get(text_at(tokens, at + 1), 0) if shift >= 0 else 0
        return Found(shift + 7 * weeks, at + 2 if weeks else at + 1)
    now = read_now(tokens, at)
    if now is not None:
        return Found(0, now)
    at = at + 1 if text_at(tokens, at) == "the" else at
    if text_at(tokens, at) == "day":
        side, shift = _BESIDE.get(text_at(tokens, at + 1)), _BY_WORD.get(text_at(tokens, at + 2))
        return None if side is None or shift is None else Found(shift + side, at + 3)
    shift = _BY_ADJECTIVE.get(text_at(tokens, at))
    return None if shift is None or text_at(tokens, at + 1) != "day" else Found(shift, at + 2)
