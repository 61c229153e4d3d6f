"""Tasks closed, dropped, opened again, or pushed to another day.

close  := ("done" | "close" | "finished" | …) [day] pick [took] | [day] pick [day] ["is" | "are"] ("done" | …) [took]     (``took_said``)
drop   := ("drop" | "skip" | …) pick | pick ("drop" | …)
reopen := ("reopen" | "not done" | …) pick
push   := ("push" | "postpone" | …) pick [("to" | "until" | "by" | …) target] | pick "push" | ("pull" | "bring in") pick     (``pushed_to``)
        | words ["in" | "for"] "this week"

A push without a target is to tomorrow, and what is pulled comes into this week.
Words alone before "this week" are a goal of the month. Of the verbs, those that people also
tell stories with ("finished", "dropped", "pushed") take words only when these
fit an open task of today, and so does a push without a target.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from bot.language.goals_named import goal_named, goal_titled
from bot.language.meaning import Ask, Close, Drop, Meaning, Push, Reopen, Show
from bot.language.phrase import Phrase, opened_by
from bot.language.pick import Pick
from bot.language.picks import fits_a_goal, read_numbers, words_naming
from bot.language.pushed_to import THIS_WEEK, TOWARDS, target, tomorrow
from bot.language.slots import day_back
from bot.language.tokens import Found
from bot.language.took_said import is_over, read_took, without_day
from bot.language.words import UNDONE

CLOSE = opened_by(
    "done with | done | close | closed | finish | finished | finished with | complete | completed | did | i did | i finished | i "
    "have done | i've done | i closed | i've finished | mark done"
)
DROP = opened_by("drop | dropped | skip | skipped | scrap | delete | remove | forget about | forget | i dropped")
REOPEN = opened_by("reopen | reopened | re - open | open again | undone | not done | un - close | open")
PUSH = opened_by(
    "push back | push | pushed | postpone | postponed | defer | delay | put off | move | moved | reschedule | shift | bump "
    "| carry over | carry | i pushed"
)
PULL = opened_by("pull | pull in | bring in | pull up")
FREE_WORDS = frozenset({"done", "close", "finish", "complete", "drop", "reopen", "push", "postpone", "defer", "carry"})
"""Verbs that are orders: words may follow them that no open task is known by."""
ALONE = frozenset({"done", "drop", "reopen", "push", "postpone"})
"""Verbs that are orders even without a word behind them."""
TOO_WIDE = frozenset({"delete", "remove", "forget", "cancel", "move"})
"""Of these "everything" may be said of more than the tasks of today."""
CLOSED = opened_by("is done | are done | done | finished | is finished | are finished | closed | complete | completed | ready | is closed")
DROPPED = opened_by("drop | dropped | skip | is off")
PUSHED = opened_by("push")
MOST_GUESSED = 9
RANGE_WORDS = frozenset({"to", "through", "till", "until"})


def read_close(phrase: Phrase) -> Close | None:
    """Tasks that are done."""
    start = CLOSE(phrase)
    if not start:
        return None
    if _is_alone(phrase, start):
        return Close(Pick())
    pick = read_numbers(phrase, start)
    if pick is not None and not (pick.value.all and phrase.word(start) != "all"):
        took = read_took(phrase, pick.end)
        return took.of(pick.value) if took else None
    return _close_by_words(phrase, start)


def _close_by_words(phrase: Phrase, start: int) -> Close | None:
    known_only = phrase.word(0) not in FREE_WORDS
    for at in range(start + 1, len(phrase.tokens)):
        took = read_took(phrase, at)
        if took is not None and (took.minutes or took.day):
            named = _naming_done(phrase.part(start, at), known_only=known_only)
            return took.of(named) if named else None
    said, day = without_day(phrase.part(start))
    named = _naming_done(said, known_only=known_only)
    return Close(named, day=day) if named else None


def _naming_done(phrase: Phrase, *, known_only: bool) -> Pick | None:
    """The same of what is done, a routine too; None where it is said to be done in part."""
    return None if _is_undone(phrase) else _naming(phrase, known_only=known_only, routines=True)


def _is_undone(phrase: Phrase) -> bool:
    """Whether it tells that something is not done, or not all of it: essay half done. A title may have the word."""
    words = UNDONE.intersection(token.text for token in phrase.tokens)
    known = (*(title for _, title in phrase.context.tasks), *phrase.context.routines, *phrase.context.week_goals, *phrase.context.goals)
    return bool(words) and not any(words <= set(title.lower().split()) for title in known)


def _naming(phrase: Phrase, *, known_only: bool, routines: bool = False) -> Pick | None:
    """What the whole phrase names: a goal that is named as one, a task, a routine where ``routines``, or a goal by its very title."""
    return (
        goal_named(phrase, known_only=known_only) or words_naming(phrase, known_only=known_only, routines=routines) or goal_titled(phrase)
    )


def read_drop(phrase: Phrase) -> Drop | None:
    """Tasks given up for good."""
    named = _named(phrase, DROP(phrase))
    return Drop(named) if named else None


def read_reopen(phrase: Phrase) -> Reopen | None:
    """Tasks that are open after all."""
    named = _named(phrase, REOPEN(phrase))
    return Reopen(named) if named else None


def _named(phrase: Phrase, start: int) -> Pick | None:
    if not start:
        return None
    if _is_alone(phrase, start):
        return Pick()
    pick = read_numbers(phrase, start)
    if pick is not None and pick.value.all and phrase.word(0) in TOO_WIDE:
        return None
    if pick is not None and is_over(phrase, pick.end):
        return pick.value
    return _naming(phrase.part(start), known_only=phrase.word(0) not in FREE_WORDS)


def read_push(phrase: Phrase) -> Push | Ask | None:
    """Tasks for another day, for next week's goals or for the month's.

    "1 to 3" may be tasks, or a task and a day: then both are choices.
    """
    start = PUSH(phrase)
    if not start:
        return None
    plain = _carried(phrase, start) if phrase.word(0) == "carry" else _alone_to(phrase, start)
    if plain is not None:
        return plain
    pick = read_numbers(phrase, start, with_to=False)
    if pick is not None and pick.value.all and phrase.word(0) in TOO_WIDE:
        return None
    push = _push(phrase, pick)
    ranged = pick is not None and phrase.word(pick.end) in RANGE_WORDS and phrase.word(pick.end + 1).isdigit()
    wide = read_numbers(phrase, start) if ranged else None
    other = _push(phrase, wide) if wide is not None and pick is not None and wide.end > pick.end else None
    if push is None:
        return other or _push_by_words(phrase, start)
    return push if other in (None, push) or not _may_be(other, phrase) else Ask((push, other))


def _carried(phrase: Phrase, start: int) -> Push | None:
    """Goals are carried, and to next week where nothing else is said; of numbers only tasks have any."""
    every = read_numbers(phrase, start)
    if every is not None:
        return Push(Pick(all=True, goals=True), "week") if every.value.all and is_over(phrase, every.end) else None
    if any(token.text in TOWARDS for token in phrase.tokens[start:]):
        return None
    named = _naming(phrase.part(start), known_only=False)
    return Push(named, "week") if named else None


def _alone_to(phrase: Phrase, start: int) -> Push | None:
    """A push of the one thing that is open, perhaps to another day than tomorrow."""
    alone = phrase.word(0) in ALONE and start == 1 and not phrase.piece and read_numbers(phrase, start) is None
    to = target(phrase, start) if alone else None
    return Push(Pick(), to) if to is not None else None


def _is_alone(phrase: Phrase, at: int) -> bool:
    """Whether a verb is the whole reply: then the one thing that is open is meant."""
    return at == 1 and not phrase.piece and phrase.word(0) in ALONE and is_over(phrase, at)


def _push(phrase: Phrase, pick: Found[Pick] | None) -> Push | None:
    to = target(phrase, pick.end) if pick is not None else None
    return Push(pick.value, to) if pick is not None and to is not None else None


def _may_be(push: Push, phrase: Phrase) -> bool:
    """Whether there are such tasks; where no tasks are known there may be any few."""
    known = [number for number, _ in phrase.context.tasks]
    return len(push.tasks.numbers) <= (max(known) if known else MOST_GUESSED)


def _push_by_words(phrase: Phrase, start: int) -> Push | None:
    if phrase.word(0) not in FREE_WORDS and phrase.word(0) != "move":
        return None
    for at in range(start + 1, len(phrase.tokens)):
        if phrase.word(at) in TOWARDS:
            to = target(phrase, at)
            named = _naming(phrase.part(start, at), known_only=False) if to else None
            if to is not None and named is not None and (phrase.word(0) != "move" or to in ("this week", "month", "next month")):
                return Push(named, to)
    if phrase.word(0) == "move":
        return None
    named = _naming(phrase.part(start), known_only=True)
    return Push(named, tomorrow(phrase)) if named else None


def read_pull(phrase: Phrase) -> Push | None:
    """A goal of the month for this week; with a target as any push."""
    start = PULL(phrase)
    if not start:
        return None
    for at in range(start + 1, len(phrase.tokens)):
        to = target(phrase, at) if phrase.word(at) in TOWARDS else None
        named = _naming(phrase.part(start, at), known_only=False) if to else None
        if to is not None and named is not None:
            return Push(named, to)
    named = _naming(phrase.part(start), known_only=False)
    return Push(named, "this week") if named else None


def read_for_this_week(phrase: Phrase) -> Push | None:
    """The words of one of the month's goals, and the week that it is for: read 2 books this week."""
    for at in range(1, len(phrase.tokens)):
        week = THIS_WEEK(phrase, at)
        if week and is_over(phrase, at + week):
            end = at - 1 if phrase.word(at - 1) in ("in", "for", "into") else at
            words = [token.text for token in phrase.tokens[:end]]
            return Push(Pick(words=phrase.original(0, end)), "this week") if fits_a_goal(words, phrase) else None
    return None


def read_verb_behind(phrase: Phrase) -> Meaning | None:
    """Numbers, or words that fit an open task, with the verb behind them: 1 done; 2 drop; glazier done."""
    pick, day = read_numbers(phrase, 0), None
    if pick is None or day_back(phrase, pick.end):
        pick, day = _before_done(phrase)
    if pick is None:
        return None
    verb = phrase.part(pick.end)
    if CLOSED(verb) and _is_undone(phrase.part(0, pick.end)):
        return None
    if CLOSED(verb):
        took = read_took(verb, CLOSED(verb))
        if took is None or (day and took.day):
            return None
        return _closed(phrase, replace(took, day=took.day or day).of(pick.value))
    if DROPPED(verb) and is_over(verb, DROPPED(verb)):
        return Drop(pick.value)
    to = target(verb, PUSHED(verb)) if PUSHED(verb) else None
    return Push(pick.value, to) if to else None


def read_goal_done(phrase: Phrase) -> Meaning | None:
    """A goal with the verb behind it: goal call the bank done. It tells of one there is, unless it goes "goal get … done"."""
    told = read_verb_behind(phrase)
    if told is not None or phrase.word(0) != "goal" or phrase.word(1) in ("get", "have") or phrase.piece:
        return told
    for at in range(2, len(phrase.tokens)):
        took = read_took(phrase, at + CLOSED(phrase, at)) if CLOSED(phrase, at) else None
        named = goal_named(phrase.part(0, at), known_only=False) if took is not None and not _is_undone(phrase.part(0, at)) else None
        if took is not None and named is not None:
            return took.of(named)
    return None


def _closed(phrase: Phrase, close: Close) -> Meaning:
    """Of "all done" nobody can say whether it asks for anything, so a button does."""
    return Ask((close, Show("day", phrase.context.now.date()))) if close.tasks.all and not close.tasks.goals else close


def _before_done(phrase: Phrase) -> tuple[Found[Pick] | None, date | None]:
    """What stands before the verb, and the day beside it: walk yesterday done, yesterday 1 done."""
    at = next((at for at in range(1, len(phrase.tokens)) if CLOSED(phrase, at)), None)
    if at is None:
        return None, None
    said, day = without_day(phrase.part(0, at))
    numbers = read_numbers(said, 0)
    if numbers is not None and numbers.end == len(said.tokens):
        return Found(numbers.value, at), day
    named = _naming(said, known_only=True, routines=True)
    return (Found(named, at) if named else None), day
