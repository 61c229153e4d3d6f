"""Hours told by the plan: as planned, museum as planned.

as_planned := ["log" | "worked" | …] [category] ("as planned" | "by the plan" | …)

They are today's planned hours, those of one category where it is named. Where
nothing was planned for it today, it is no reply.
"""

from __future__ import annotations

from bot.language.context import Planned
from bot.language.elapsed import elapsed_minutes
from bot.language.hours_said import without_opening
from bot.language.meaning import Log, SaidStint
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.slots import Called, called
from bot.language.words import CLOSERS

AS_PLANNED = opened_by("as planned | like planned | according to plan | by the plan | per plan | as in the plan | the plan")
MARKS = frozenset({",", "-", ":", "it", "all", "everything"})


def read_as_planned(phrase: Phrase) -> Log | None:
    """The hours that were planned for today."""
    at = next((at for at in range(len(phrase.tokens)) if AS_PLANNED(phrase, at)), None)
    if at is None or (at == 0 and phrase.word(0) == "the"):
        return None
    before, behind = phrase.part(0, at), phrase.part(at + AS_PLANNED(phrase, at))
    core = without_opening(before) if before.tokens else before
    said = explain(core, (called,)) if core is not None else None
    if said is None or any(token.text not in CLOSERS for token in behind.tokens) or said.twice(Called):
        return None
    if any(said.phrase.word(at) not in MARKS for at in said.left):
        return None
    call = said.one(Called)
    stints = tuple(_stint(phrase, block) for block in phrase.context.planned if call is None or block.category in call.names)
    return Log(stints) if stints else None


def _stint(phrase: Phrase, block: Planned) -> SaidStint:
    now = phrase.context.now
    return SaidStint(block.category, now.date(), elapsed_minutes(now.date(), block.start, block.end, now.tzinfo), block.start, block.end)
