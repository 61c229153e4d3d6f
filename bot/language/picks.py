"""Which tasks a reply is about: their numbers, all of them, or words that name one.

pick := numbers | "all" [("but" | "except") numbers] | words

Words are the danger here, for "drop by the shop" and "close the door" are talk.
Words that fit an open task of today are always taken, those of talk where they are its whole title; other words only when
they could be a title: a few of them, beginning with one that carries meaning.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.language.names import mistyped
from bot.language.phrase import QUOTED, Phrase, opened_by
from bot.language.pick import Pick
from bot.language.slots import Tasks, numbers_said, numbers_without_to
from bot.language.tokens import Found
from bot.language.words import ARTICLES, FUNCTION_WORDS, NO_TITLE

MOST_WORDS = 6
ALL = opened_by("all of them | all of it | all the tasks | all the rest | all tasks | the rest | everything | the lot | all | rest")
ALL_GOALS = opened_by("all goals | all the goals | all my goals | all open goals | every goal")


def read_numbers(phrase: Phrase, at: int, *, with_to: bool = True) -> Found[Pick] | None:
    """Numbers of tasks, or all of them; ``with_to`` lets "1 to 3" be a range."""
    found = numbers_said(phrase, at) if with_to else numbers_without_to(phrase, at)
    return Found(Pick(numbers=found.value.numbers), found.end) if found else _read_all(phrase, at)


def _read_all(phrase: Phrase, at: int) -> Found[Pick] | None:
    of_goals = ALL_GOALS(phrase, at)
    if of_goals:
        return Found(Pick(all=True, goals=True), at + of_goals)
    every = ALL(phrase, at)
    return _all_but(phrase, at + every) if every else None


def _all_but(phrase: Phrase, at: int) -> Found[Pick]:
    spared = numbers_said(phrase, at + 1) if phrase.word(at) in ("but", "except") else None
    if spared is None or not phrase.context.tasks:
        return Found(Pick(all=True), at)
    return Found(Pick(numbers=_without(phrase, spared.value)), spared.end)


def _without(phrase: Phrase, spared: Tasks) -> tuple[int, ...]:
    return tuple(number for number, _ in phrase.context.tasks if number not in spared.numbers)


def words_naming(phrase: Phrase, *, known_only: bool, routines: bool = False) -> Pick | None:
    """The words of the whole phrase as the name of a task; ``known_only`` when they must fit an open task of today.

    With ``routines`` they may as well be the name of a routine.
    """
    start = 1 if phrase.word(0) in ARTICLES else 0
    words = [token.text for token in phrase.tokens[start:]]
    while words and words[-1] in (".", "!", ","):
        words.pop()
    if not words:
        return None
    said = phrase.original(start, start + len(words))
    if words == [QUOTED] or fits_a_task(words, phrase) or (routines and _fits_any(words, phrase.context.routines)):
        return Pick(words=said)
    return None if known_only or start or phrase.piece or not _could_be_title(words, phrase) else Pick(words=said)


def fits_a_task(words: list[str], phrase: Phrase) -> bool:
    """Whether each word that carries meaning begins, or nearly is, a word of one open task's title."""
    return _fits_any(words, [title for _, title in phrase.context.tasks])


def fits_what_is_fixed(words: list[str], phrase: Phrase) -> bool:
    """The same of what is fixed on days to come."""
    return _fits_any(words, phrase.context.fixed)


def _fits_any(words: list[str], titles: Sequence[str]) -> bool:
    telling = [word for word in words if word not in FUNCTION_WORDS]
    if all(word in NO_TITLE for word in telling):
        return _is_whole(telling, titles)
    return any(_fits(telling, title.lower().split()) for title in titles)


def _is_whole(words: list[str], titles: Sequence[str]) -> bool:
    """Whether the words are the whole of a title, which they are then even if they are those of talk: shopping."""
    return any(words == title.lower().split() for title in titles)


def fits_an_open_goal(words: list[str], phrase: Phrase) -> bool:
    """The same of one open goal of the week or the month."""
    return words == [QUOTED] or _fits_any(words, (*phrase.context.week_goals, *phrase.context.goals))


def fits_a_goal(words: list[str], phrase: Phrase) -> bool:
    """Whether the words are those of one of the month's open goals."""
    return any(words == title.lower().split() or (len(words) > 1 and _fits(words, title.lower().split())) for title in phrase.context.goals)


def _fits(words: list[str], title: list[str]) -> bool:
    return all(any(part.startswith(word) or mistyped(word, part) is not None for part in title) for word in words)


def _could_be_title(words: list[str], phrase: Phrase) -> bool:
    if _is_whole(words, (*phrase.context.week_goals, *phrase.context.goals)):
        return True
    if len(words) > MOST_WORDS or words[0] in FUNCTION_WORDS or words[0] in NO_TITLE or words[-1] in FUNCTION_WORDS:
        return False
    if not any(word.isalpha() for word in words):
        return False
    return all((word.isalnum() or word == "-") and (word not in FUNCTION_WORDS or word in ARTICLES) for word in words)
