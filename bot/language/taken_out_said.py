"""Hours that were noted and are to go: delete 2h course thu.

taken out := ("delete" | "remove" | "take out" | …) {amount | category | day}, the amount and the category once
"""

from __future__ import annotations

from datetime import date

from bot.language.meaning import Ask, TakeOut
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.slots import Amount, Called, amount_said, called, day_back
from bot.language.words import ARTICLES, AT_A_CATEGORY, CLOSERS

TAKE_OUT = opened_by("delete | remove | take out | take away | erase | strike | delete the | delete my | remove the | remove my")
SMALL = ARTICLES | AT_A_CATEGORY | CLOSERS | {"entry", "hours", ":"}


def read_taken_out(phrase: Phrase) -> TakeOut | Ask | None:
    """An amount of a category, of the day said or the latest that has it."""
    start = TAKE_OUT(phrase)
    if not start:
        return None
    said = explain(phrase.part(start), (amount_said, called, day_back))
    amount, call = said.one(Amount), said.one(Called)
    strange = any(said.phrase.word(at) not in SMALL for at in said.left) or said.twice(Amount, Called, date)
    if strange or amount is None or call is None or not amount.minutes:
        return None
    choices = tuple(TakeOut(name, amount.minutes, said.one(date)) for name in call.names)
    return choices[0] if len(choices) == 1 else Ask(choices)
