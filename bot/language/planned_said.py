"""Hours told by the plan: as planned, museum as planned, yesterday museum as planned.

as_planned := (category | title) "done"
            | ["log" | "worked" | …] [day] [category | title] ("as planned" | "by the plan" | …) [day] [break]

They are today's planned hours, of commitments and of the plan that was
accepted, or those of one category, commitment, task or routine that is named:
the ones that no hours tell of yet, of what is named its commitments before the
rest. Where nothing waits, or nothing is planned for the category that is named,
they are no time at all, and the answer says so; else it is no reply, and a
break is one of a single stretch. Hours of another day, those that ran in from
the day before, those that are not over, and all of a day of which some are told are ``AsPlanned``: what they are is
for the person's plan to tell.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime

from bot.language.context import Context, Planned
from bot.language.elapsed import elapsed_minutes
from bot.language.hours_said import without_opening
from bot.language.meaning import ClockOut, Log, SaidStint
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.plan_meaning import AsPlanned
from bot.language.slots import Break, Called, break_said, called, day_back
from bot.language.words import ARTICLES, CLOSERS

AS_PLANNED = opened_by("as planned | like planned | according to plan | by the plan | per plan | as in the plan | the plan")
MARKS = frozenset({",", "-", ":", "it", "all", "everything"})
MOST_WORDS = 4
"""Of what is called by words of its title; common practice, no source."""
SAID_OF_A_DAY = frozenset({"it", "went", "was", "were", "not", "is", "day", "did", "nothing", "n't"})
"""Words that tell how a day was, and name nothing that was planned."""


def read_as_planned(phrase: Phrase) -> Log | AsPlanned | ClockOut | None:
    """The hours that were planned for today, or for a day that is named."""
    at = next((at for at in range(len(phrase.tokens)) if AS_PLANNED(phrase, at)), None)
    if at is None or (at == 0 and phrase.word(0) == "the"):
        return _read_done(phrase)
    day, before = _without_day(phrase.part(0, at))
    later, behind = _without_day(phrase.part(at + AS_PLANNED(phrase, at)))
    pause, core = _break_behind(behind), without_opening(before) if before.tokens else before
    if core is None or pause is None or (day and later):
        return None
    day, today = day or later or phrase.day or phrase.context.now.date(), phrase.context.now.date()
    return _of_today(phrase, core, pause) if day == today else _of(core, day, pause) if day < today else None


def _read_done(phrase: Phrase) -> Log | AsPlanned | ClockOut | None:
    """A category or title that is done: its clock stops, else what today's plan has of it went as planned.

    Where nothing of a category waits, the answer says so.
    """
    core, context = phrase.part(0, -1), phrase.context
    if phrase.piece or len(core.tokens) < 1 or phrase.word(len(core.tokens)) != "done":
        return None
    if context.clocked_in is not None and context.clocked_in == _named_alone(core):
        return ClockOut(context.clocked_in)
    if _is_bare(core):
        return None
    silent = [block for block in _waiting(core, context) if not block.told]
    waits = any(not block.routine for block in silent)
    return _of_today(phrase, core, 0) if waits or (not silent and _named_alone(core)) else None


def _without_day(phrase: Phrase) -> tuple[date | None, Phrase]:
    """The day that stands at either end, looking back, and what is left: monday the bakery, carer on wed 21 oct."""
    for at in range(len(phrase.tokens)):
        found = day_back(phrase, at)
        if found is not None and (at == 0 or found.end == len(phrase.tokens)):
            return found.value, replace(phrase, tokens=phrase.tokens[:at] + phrase.tokens[found.end :])
    return None, phrase


def _of(core: Phrase, day: date, pause: int) -> AsPlanned | None:
    """The hours of another day: of a category, of what a few words may name, or all of them."""
    name = _named_alone(core)
    words = [token.text for token in core.tokens if token.text not in MARKS | ARTICLES]
    if name is not None or not words:
        return AsPlanned(day, name, None, pause)
    named = len(words) <= MOST_WORDS and SAID_OF_A_DAY.isdisjoint(words)
    return AsPlanned(day, None, " ".join(words), pause) if named else None


def _of_today(phrase: Phrase, core: Phrase, pause: int) -> Log | AsPlanned | None:
    context, today = phrase.context, phrase.context.now.date()
    ran_in = context.ran_in if _is_bare(core) else _named(core, context.ran_in)
    blocks = _waiting(core, context)
    told = _is_bare(core) and any(block.told for block in (*context.planned, *context.blocks))
    if ran_in or (told and blocks) or not all(_is_over(block, context.now) for block in blocks):
        titles = {block.title for block in (*ran_in, *blocks)}
        return AsPlanned(today, name := _named_alone(core), None if name or not core.tokens else _words(core, titles), pause)
    if not blocks and not phrase.piece and (_is_bare(core) or _named_alone(core)):
        return Log((SaidStint(_named_alone(core), today, 0, began="planned"),))
    if not blocks and not phrase.piece and _is_known(core, context.titles):
        return _of(core, today, pause)
    if not blocks or (pause and len(blocks) > 1):
        return None
    stints = tuple(_stint(phrase, block, pause) for block in blocks)
    return Log(stints) if all(stint.minutes > 0 for stint in stints) else None


def _is_known(core: Phrase, titles: Sequence[str]) -> bool:
    """Whether the words are of the title of something that is fixed, which may have no category of its own."""
    words = {token.text for token in core.tokens} - ARTICLES
    return any(words <= set(title.lower().split()) for title in titles)


def _words(core: Phrase, titles: set[str]) -> str | None:
    words = [token.text for token in core.tokens if token.text not in MARKS | ARTICLES]
    return titles.pop() if len(titles) == 1 else " ".join(words) or None


def _is_over(block: Planned, now: datetime) -> bool:
    return block.start < block.end <= now.time()


def _break_behind(behind: Phrase) -> int | None:
    """The minutes of the break that ends the reply, 0 where there is none; None where anything else is said."""
    said = explain(behind, (break_said,))
    over = all(said.phrase.word(at) in CLOSERS | MARKS for at in said.left) and not said.twice(Break)
    return sum(pause.minutes for pause in said.all(Break)) if over else None


def _waiting(core: Phrase, context: Context) -> tuple[Planned, ...]:
    """What is named and waits to be told, commitments before the day's plan; else what is named although hours tell of it."""
    if _is_bare(core):
        return tuple(block for block in (*context.planned, *context.blocks) if not block.told)
    fixed, blocks = _named(core, context.planned), _named(core, context.blocks)
    silent = (tuple(block for block in each if not block.told) for each in (fixed, blocks))
    return next((each for each in silent if each), (*fixed, *blocks))


def _named(core: Phrase, planned: tuple[Planned, ...]) -> tuple[Planned, ...]:
    """Those that the words before "as planned" name: by title, by category, by words of a title."""
    words = {token.text for token in core.tokens} - ARTICLES
    by_title = tuple(block for block in planned if words == words_of_title(block))
    if by_title:
        return by_title
    said = explain(core, (called,))
    if said.twice(Called):
        return ()
    if all(said.phrase.word(at) in MARKS for at in said.left):
        call = said.one(Called)
        return tuple(block for block in planned if call is not None and block.category in call.names)
    return tuple(block for block in planned if words <= words_of_title(block))


def _is_bare(core: Phrase) -> bool:
    return all(token.text in MARKS for token in core.tokens)


def _named_alone(core: Phrase) -> str | None:
    """The one category that the words name, and nothing beside it."""
    said = explain(core, (called,))
    names = [name for call in said.all(Called) for name in call.names]
    return names[0] if len(names) == 1 and all(said.phrase.word(at) in MARKS for at in said.left) else None


def words_of_title(block: Planned) -> set[str]:
    """What a commitment is called, word by word, without the marks around them."""
    return {word.strip("().,:;") for word in block.title.lower().replace("’", "'").split()}


def _stint(phrase: Phrase, block: Planned, pause: int) -> SaidStint:
    now = phrase.context.now
    minutes = elapsed_minutes(now.date(), block.start, block.end, now.tzinfo) - pause
    return SaidStint(
        block.category,
        now.date(),
        minutes,
        block.start,
        block.end,
        pause,
        note=block.title if block.routine else None,
        task_ids=(block.task_id,) if block.task_id else (),
    )
