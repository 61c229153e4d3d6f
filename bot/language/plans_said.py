"""The day plan: made, accepted, changed.

make   := ("plan" | "make a plan for" | …) ["my" | "the"] ("day" | "week" | day) | "replan"
accept := "accept" ["the" "plan"] | "ok plan" | …
later  := "later" pick | pick "later"
not    := "not today" pick | pick "not today"
swap   := "swap" number ("and" | "with" | ",") number
place  := hours pick | pick ["at" | "from"] hours | ("put" | "do") pick ["at"] hours

Words name a task here only when they fit an open one of today; they may name a routine as well.
"""

from __future__ import annotations

from datetime import date

from bot.language.hours import Hours, read_hours
from bot.language.phrase import Phrase, opened_by
from bot.language.pick import Pick
from bot.language.picks import read_numbers, words_naming
from bot.language.plan_meaning import AcceptPlan, Later, MakePlan, NotToday, Place, Swap
from bot.language.slots import day_ahead
from bot.language.tokens import Found

MAKE = opened_by(
    "plan | plan my | plan the | plan out | plan out my | plan again | replan | re - plan | make a plan | make a plan for | "
    "make the plan for | make my plan for | make me a plan | make me a plan for"
)
ACCEPT = opened_by(
    "accept | accept the plan | accept plan | accept my plan | ok plan | take the plan | use the plan | accept it | accept that"
)
LATER = opened_by("later")
NOT_TODAY = opened_by("not today")
SWAP = opened_by("swap | switch | exchange | swap tasks | swap task")
PUT = opened_by("put | do | place | schedule")
WEEKS = opened_by("week | this week | the week")
NEXT_WEEK = opened_by("next week | the next week")
DAYS = opened_by("day | today")
ENDINGS = frozenset({".", "!", ",", "please", "again", "anew"})


def read_make_plan(phrase: Phrase) -> MakePlan | None:
    """A plan wanted for a day or a week; for today when neither is said."""
    start = MAKE(phrase)
    if not start or (_is_over(phrase, start) and phrase.word(start - 1) in ("my", "the", "for")):
        return None
    if _is_over(phrase, start) or _ends(phrase, start, DAYS(phrase, start)):
        return MakePlan()
    if _ends(phrase, start, WEEKS(phrase, start)):
        return MakePlan("week")
    day = day_ahead(phrase, start)
    if day is None or not _is_over(phrase, day.end):
        return None
    return MakePlan("week" if NEXT_WEEK(phrase, start) else "day", day.value)


def read_accept_plan(phrase: Phrase) -> AcceptPlan | None:
    """The plan as proposed is taken."""
    start = ACCEPT(phrase)
    if not start:
        return None
    day = day_ahead(phrase, start + 1 if phrase.word(start) == "for" else start)
    end = day.end if day is not None else start
    return AcceptPlan(_said(day)) if _is_over(phrase, end) else None


def _said(day: Found[date] | None) -> date | None:
    return day.value if day is not None else None


def read_later(phrase: Phrase) -> Later | None:
    """To a later hour of today."""
    pick = _picked_behind(phrase, LATER(phrase))
    return Later(pick) if pick else None


def read_not_today(phrase: Phrase) -> NotToday | None:
    """Out of today's plan."""
    pick = _picked_behind(phrase, NOT_TODAY(phrase))
    return NotToday(pick) if pick else None


def read_plan_verb_behind(phrase: Phrase) -> Later | NotToday | None:
    """Numbers with the verb behind them: 2 later; 1 and 3 not today."""
    pick = read_numbers(phrase, 0)
    if pick is None:
        return None
    if _ends(phrase, pick.end, LATER(phrase, pick.end)):
        return Later(pick.value)
    return NotToday(pick.value) if _ends(phrase, pick.end, NOT_TODAY(phrase, pick.end)) else None


def _picked_behind(phrase: Phrase, start: int) -> Pick | None:
    if not start:
        return None
    pick = read_numbers(phrase, start)
    if pick is not None:
        return pick.value if _is_over(phrase, pick.end) else None
    return words_naming(phrase.part(start), known_only=True, routines=True)


def read_swap(phrase: Phrase) -> Swap | None:
    """Two tasks, by their numbers."""
    start = SWAP(phrase)
    first = read_numbers(phrase, start, with_to=False) if start else None
    if first is None:
        return None
    numbers, end = first.value.numbers, first.end
    if len(numbers) == 1 and phrase.word(end) in ("with", "for"):
        second = read_numbers(phrase, end + 1, with_to=False)
        numbers, end = (*numbers, *(second.value.numbers if second else ())), second.end if second else end
    return Swap(*numbers) if len(numbers) == 2 and _is_over(phrase, end) else None


def read_place(phrase: Phrase) -> Place | None:
    """Hours of today for a task: 9-11 spokes; 2 at 14-15; put 2 at 14-15."""
    start = PUT(phrase)
    core = phrase.part(start) if start else phrase
    hours = _both_ends(core, 0)
    if hours is not None:
        return _placed(core.part(hours.end), hours.value)
    for at in range(1, len(core.tokens)):
        hours = _both_ends(core, at)
        if hours is not None and _is_over(core, hours.end):
            return _placed(core.part(0, at - 1 if core.word(at - 1) in ("at", "from", ":") else at), hours.value)
    return None


def _both_ends(phrase: Phrase, at: int) -> Found[Hours] | None:
    found = read_hours(phrase.tokens, at, phrase.context, "forward")
    return found if found is not None and found.value.start is not None and found.value.end is not None else None


def _placed(phrase: Phrase, hours: Hours) -> Place | None:
    pick = read_numbers(phrase, 0)
    named = pick.value if pick is not None and _is_over(phrase, pick.end) and not pick.value.all else None
    named = named or words_naming(phrase, known_only=True, routines=True)
    if named is None or hours.start is None or hours.end is None or hours.break_minutes:
        return None
    return Place(named, hours.start, hours.end)


def _ends(phrase: Phrase, at: int, taken: int) -> bool:
    return taken > 0 and _is_over(phrase, at + taken)


def _is_over(phrase: Phrase, at: int) -> bool:
    return all(token.text in ENDINGS for token in phrase.tokens[at:])
