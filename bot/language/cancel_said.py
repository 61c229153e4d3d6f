"""Commitments cancelled, on a day, or on all days of a week or from one day to another; and those that take place after all.

cancel := ("cancel" | "call off" | …) words [moment | days] | words [moment] ["is"] "cancelled" [moment]
days   := ["for" | "all" | …] week | ["from"] day to day | ["from"] number to day | month day to number
to     := "-" | "to" | "until" | "through"
back   := ("uncancel" | "reinstate" | …) words [day] | words [day] ("is" "on") ("after all" | "again") [day]
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.language.meaning import Ask, Cancel, Drop
from bot.language.moments import Moment
from bot.language.moved_said import MOST_WORDS, moment_to_end, title_words, today_by_name
from bot.language.numbers import digits_at
from bot.language.partial_days import day_or_none
from bot.language.phrase import Phrase, opened_by
from bot.language.picks import fits_what_is_fixed, read_numbers
from bot.language.slots import day_ahead
from bot.language.standing_meaning import TakesPlace
from bot.language.standpoint import standpoint
from bot.language.tokens import Found
from bot.language.weekdays import nearest, read_week

CANCEL = opened_by("cancel | cancelled | canceled | call off | called off | delete")
OF_MANY = frozenset({"every", "each", "from", "until", "till", "since", "all"})
TO = frozenset({"-", "to", "until", "till", "through"})
BEFORE_DAYS = frozenset({"from", "for", "in", "on", "all", "of"})
CLOSING = frozenset({".", "!", "please", ","})

UNCANCEL = opened_by("uncancel | un - cancel | don't cancel | do not cancel | reinstate | restore | call back on | put back on")
AFTER_ALL = opened_by(
    "is on after all | is on again | is back on | on after all | on again | back on | takes place after all | is not cancelled | "
    "isn't cancelled | not cancelled | is happening after all"
)

CANCELLED = frozenset({"cancelled", "canceled"})
IS = opened_by("is | are | gets | will be | is now")
NOT = frozenset({"not", "isn't", "aren't"})
OF_TALK = frozenset("was were got has had have been they we i he she it who my our".split())
"""Words of a story about something that was cancelled."""
MOST_BEFORE = 4
"""Words of what was cancelled and when, before it is said that it was; common practice, no source."""


def read_cancel(phrase: Phrase) -> Cancel | Drop | Ask | None:
    """A commitment that will not take place, by its words or as the one of a day; numbers after "cancel" are tasks."""
    start = CANCEL(phrase)
    if not start:
        return None
    pick = read_numbers(phrase, start)
    if pick is not None and pick.end == len(phrase.tokens):
        return None if pick.value.all else Drop(pick.value)
    return what_is_off(phrase, start)


def what_is_off(phrase: Phrase, start: int) -> Cancel | Ask | None:
    """The commitment, and when, that is said from ``start`` on not to take place."""
    several = _on_several_days(phrase, start)
    if several is not None:
        return several
    for at in range(start, len(phrase.tokens)):
        moment = moment_to_end(phrase, at)
        words = _named_once(phrase.part(start, at)) if moment and at > start else None
        if moment is not None and (words is not None or (at == start and moment.day is not None)):
            return _cancelled(phrase, at, words, moment)
    words = _named_once(phrase.part(start))
    return Cancel(words) if words else None


def read_cancelled_behind(phrase: Phrase) -> Cancel | Ask | None:
    """The same with the word behind, as people pass on what others called off: visit tomorrow cancelled, visit is cancelled thursday."""
    at = next((at for at in range(1, len(phrase.tokens)) if phrase.word(at) in CANCELLED), None)
    if at is None:
        return None
    named = next((before for before in range(1, at) if IS(phrase, before) == at - before), at)
    if named > MOST_BEFORE or any(phrase.word(before) in OF_TALK | NOT for before in range(named)):
        return None
    found = read_cancel(replace(phrase, tokens=(phrase.tokens[at], *phrase.tokens[:named], *phrase.tokens[at + 1 :])))
    is_told = named == at or (isinstance(found, Cancel) and found.day is not None) or fits_what_is_fixed(_words(phrase, named), phrase)
    return found if isinstance(found, Cancel | Ask) and is_told else None


def _words(phrase: Phrase, end: int) -> list[str]:
    return [token.text for token in phrase.tokens[:end]]


def _cancelled(phrase: Phrase, at: int, words: str | None, moment: Moment) -> Cancel | Ask:
    """What is cancelled at the moment that is said from ``at`` on; where that may be one of two, both are choices."""
    either = (moment, *(other for other in moment.others if (other.start is None) != (moment.start is None)))
    choices = tuple(Cancel(words, today_by_name(phrase, at, each.day), each.start, each.end) for each in either)
    return choices[0] if len(choices) == 1 else Ask(choices)


def _on_several_days(phrase: Phrase, start: int) -> Cancel | None:
    """What is cancelled on every day of a stretch that ends the reply."""
    for at in range(start + 1, len(phrase.tokens)):
        days = days_to_end(phrase, at)
        words = title_words(phrase.part(start, at)) if days else None
        if days is not None and words is not None:
            return Cancel(words, days[0], last=days[1])
    return None


def days_to_end(phrase: Phrase, at: int) -> tuple[date, date] | None:
    """The first and the last of several days that are said from ``at`` on, and nothing else."""
    first = at
    while phrase.word(first) in BEFORE_DAYS and first < at + 2:
        first += 1
    days = _week(phrase, first) or _from_to(phrase, first)
    return days.value if days is not None and all(token.text in CLOSING for token in phrase.tokens[days.end :]) else None


def _week(phrase: Phrase, at: int) -> Found[tuple[date, date]] | None:
    """next week, this week."""
    week = read_week(phrase.tokens, at, standpoint(phrase.context, "forward"))
    return Found((week.value, week.value + timedelta(days=6)), week.end) if week is not None else None


def _from_to(phrase: Phrase, at: int) -> Found[tuple[date, date]] | None:
    """mon to wed, 16-20 march, march 16-20, 16 march to 3 april."""
    if digits_at(phrase.tokens, at - 1) is not None and at:
        return None  # It begins inside a date: 4 march 10-12.
    day, bare = day_ahead(phrase, at), digits_at(phrase.tokens, at)
    joint = day.end if day is not None else at + 1
    if phrase.word(joint) not in TO or (day is None and bare is None):
        return None
    last = day_ahead(phrase, joint + 1)
    last_bare = digits_at(phrase.tokens, joint + 1)
    if day is None:
        first = day_or_none(last.value.year, last.value.month, bare or 0) if last else None
        return Found((first, last.value), last.end) if first and last and first < last.value else None
    begins = today_by_name(phrase, at, day.value) or day.value
    if last is None:
        ends = day_or_none(begins.year, begins.month, last_bare or 0)
        return Found((begins, ends), joint + 2) if ends and begins < ends else None
    ends = last.value if last.value > begins else nearest(last.value.weekday(), begins, "forward")
    return Found((begins, ends), last.end)


def _named_once(phrase: Phrase) -> str | None:
    """Words for one commitment on one day: "every friday" and "until april" name more, which one reply does not cancel."""
    return None if any(token.text in OF_MANY for token in phrase.tokens) else title_words(phrase)


def read_uncancel(phrase: Phrase) -> TakesPlace | None:
    """What takes place after all: uncancel dentist, reinstate choir on thursday."""
    start = UNCANCEL(phrase)
    return _after_all(phrase.part(start)) if start else None


def read_after_all(phrase: Phrase) -> TakesPlace | None:
    """The same with its words first: dentist is on after all, choir thursday is back on."""
    for at in range(1, min(len(phrase.tokens), MOST_WORDS)):
        behind = AFTER_ALL(phrase, at)
        if behind and phrase.word(0) not in OF_TALK:
            return _after_all(replace(phrase, tokens=phrase.tokens[:at] + phrase.tokens[at + behind :]))
    return None


def _after_all(phrase: Phrase) -> TakesPlace | None:
    for at in range(1, len(phrase.tokens)):
        moment = moment_to_end(phrase, at)
        words = _named_once(phrase.part(0, at)) if moment and moment.day and not moment.start else None
        if words is not None and moment is not None:
            return TakesPlace(words, today_by_name(phrase, at, moment.day))
    words = _named_once(phrase)
    return TakesPlace(words) if words else None
