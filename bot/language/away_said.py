"""What is fixed and the person will not go to, in other words than "cancel".

away := ("skip" | "can't make" | "not going to" | "forget" | …) title [day | days] | "no" title (day | days)

The title must be one that the person has, by words that stand in it: "no rain this week" and "skip lunch" are talk. Days are said
as behind "cancel".
"""

from __future__ import annotations

from bot.language.cancel_said import what_is_off
from bot.language.meaning import Ask, Cancel
from bot.language.phrase import Phrase, opened_by
from bot.language.picks import fits_a_task, fits_what_is_fixed

_NOT_GOING = (
    "can't make | can't make it to | can't do | can't go to | can't come to | can't attend | cannot make | cannot do | cannot go to | "
    "won't make | won't make it to | won't go to | won't come to | will miss | not going to | not doing | have to skip | have to miss"
)
_SAID_BY = ("", "i ", "we ", "i'm ", "i am ", "we're ", "we are ", "i'll ")
AWAY = opened_by(
    "|".join(f"{who}{way.strip()}" for way in _NOT_GOING.split("|") for who in _SAID_BY)
    + "| skip | skipping | i skip | i'm skipping | i am skipping | i'll skip | i'll miss | i miss | miss | missing | leave out | drop"
    + "| scrap | forget | forget about | remove"
)
NO = opened_by("no")


def read_away(phrase: Phrase) -> Cancel | Ask | None:
    """The commitment that is given up; None where no title is known by these words, or an open task is."""
    start, no = AWAY(phrase), NO(phrase)
    found = what_is_off(phrase, start or no) if start or no else None
    choices = found.choices if isinstance(found, Ask) else (found,)
    are_sure = all(isinstance(each, Cancel) and _is_known(phrase, each) and (start or each.day) for each in choices)
    return found if are_sure else None


def _is_known(phrase: Phrase, cancel: Cancel) -> bool:
    words = (cancel.words or "").lower().split()
    return bool(words) and fits_what_is_fixed(words, phrase) and not fits_a_task(words, phrase)
