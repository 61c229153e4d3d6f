"""Hours that are told of several days at once.

days := day {("," | "and" | "&" | "+") day}        two days or more, none of them to come
      | weekday ("to" | "-" | "until") weekday     none of them to come
      | day {day}                                  told as spent, or all of them in this week until now
each := "each" ["day"] | "per" "day" | "both" ["days"]

Hours with a start and an end were spent on each of the days. A length may be
that of each day or of all together (3h museum mon and tue): unless "each" says
so, both are choices.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.language.phrase import Explained, Phrase, Piece
from bot.language.relative_days import DAY_WORDS
from bot.language.slots import Amount, day_back
from bot.language.spent import Spent, all_spent
from bot.language.tokens import Found
from bot.language.weekdays import WEEKDAYS, week_of

_NAMES = frozenset(WEEKDAYS) | DAY_WORDS
_JOINTS = frozenset({",", "and", "&", "+"})
_EACH = (("each", "day"), ("on", "each"), ("each",), ("per", "day"), ("both", "days"), ("both",))
_TO = frozenset({"to", "-", "until", "till", "through"})
_MOST_DAYS = 7


@dataclass(frozen=True, slots=True)
class Days:
    """Two days or more, in the order in which they were said. ``apart``: nothing joins them, so they may be days to come as well."""

    days: tuple[date, ...]
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Each:
    """That a length is that of each day."""


def names_days(phrase: Phrase) -> bool:
    """A glance that spares the reading: whether days are named twice."""
    return sum(token.text in _NAMES for token in phrase.tokens) > 1


def days_back(phrase: Phrase, at: int) -> Found[Days] | None:
    """mon and tue; yesterday and today; monday, tuesday and friday; on a friday also mon tue thu."""
    found = _span(phrase, at) or _days(phrase, at)
    if found is None or not found.value.apart:
        return found
    monday = week_of(phrase.context.now.date(), phrase.context.week_starts)
    return found if min(found.value.days) >= monday else None


def days_told(phrase: Phrase, at: int) -> Found[Days] | None:
    """The same where they are told as spent, so that none is to come: worked mon tue thu."""
    found = _span(phrase, at) or _days(phrase, at)
    return Found(Days(found.value.days), found.end) if found else None


def _days(phrase: Phrase, at: int) -> Found[Days] | None:
    days: list[date] = []
    end = at
    apart = False
    while (found := day_back(phrase, at)) is not None and len(days) < _MOST_DAYS:
        apart = apart or bool(days and at == end)
        days.append(found.value)
        at = end = found.end
        while phrase.word(at) in _JOINTS and at < end + 2:
            at += 1
        if at == end and phrase.word(at) not in WEEKDAYS:
            break
    told = len(days) > 1 and len(set(days)) == len(days) and max(days) <= phrase.context.now.date()
    return Found(Days(tuple(days), apart), end) if told else None


def _span(phrase: Phrase, at: int) -> Found[Days] | None:
    """mon to thu, monday - thursday: each day from the first to the last."""
    first = day_back(phrase, at)
    if first is None or phrase.word(at) not in WEEKDAYS or phrase.word(first.end) not in _TO or phrase.word(first.end + 1) not in WEEKDAYS:
        return None
    last = day_back(phrase, first.end + 1)
    if last is None or not timedelta(0) < last.value - first.value < timedelta(days=_MOST_DAYS):
        return None
    days = tuple(first.value + timedelta(days=ahead) for ahead in range((last.value - first.value).days + 1))
    return Found(Days(days), last.end) if last.value <= phrase.context.now.date() else None


def each_said(phrase: Phrase, at: int) -> Found[Each] | None:
    """each, per day, both days."""
    for words in _EACH:
        if tuple(token.text for token in phrase.tokens[at : at + len(words)]) == words:
            return Found(Each(), at + len(words))
    return None


def spent_on(said: Explained, days: Days) -> list[list[tuple[Spent, ...]]]:
    """The stretches on all the days, once for each way in which they may be meant; the likeliest way first."""
    ways = [[stretch for day in days.days for stretch in all_spent(said, day)]]
    amount = said.one(Amount)
    if amount is not None and len(ways[0]) == len(days.days) and said.one(Each) is None and ways[0][0][0].start is None:
        parts = shares(amount.minutes, len(days.days))
        ways.append([stretch for day, share in zip(days.days, parts, strict=True) for stretch in all_spent(_with(said, share), day)])
    return [way for way in ways if len(way) >= len(days.days)]


def shares(minutes: int, days: int) -> list[int]:
    """Equal parts in whole minutes; what is over goes to the first ones."""
    share, over = divmod(minutes, days)
    return [share + (place < over) for place in range(days)]


def _with(said: Explained, minutes: int) -> Explained:
    """The same with another length."""
    pieces = (replace(piece, value=Amount(minutes)) if isinstance(piece.value, Amount) else piece for piece in said.pieces)
    return replace(said, pieces=tuple[Piece, ...](pieces))
