"""Tasks and routines that are told as done in the words of their titles.

told := ["i" | "we" | "i've" …] title in the past [took] | title without its verb, verb in the past [took]     (``took_said``)

"Called the glazier" closes the task "call the glazier", and so does "glazier called". All words of the title must be there, but for
articles: what resembles it may be another thing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from bot.language.meaning import Close
from bot.language.past_tense import plain_forms
from bot.language.phrase import Phrase
from bot.language.pick import Pick
from bot.language.tokens import tokenize
from bot.language.took_said import read_took
from bot.language.words import ARTICLES, BETWEEN_SPEAKER_AND_VERB, SPEAKERS

LONGEST_TITLE = 12
"""In tokens."""


def tells_of_past(words: set[str]) -> bool:
    """Whether any of the words may be a verb in the past."""
    return any(map(plain_forms, words))


def read_told_done(phrase: Phrase) -> Close | None:
    """The open task or the routine whose title the phrase tells in the past, with how long it took where that was said."""
    start = _behind_speaker(phrase)
    titles = (*(title for _, title in phrase.context.tasks), *phrase.context.routines)
    asked = {words: title for title in titles if len(words := _telling(token.text for token in tokenize(title.lower()))) > 1}
    for end in range(min(len(phrase.tokens), start + LONGEST_TITLE), start + 1, -1):
        said = _telling(token.text for token in phrase.tokens[start:end])
        title = next((asked[words] for words in _in_the_present(said) if words in asked), None)
        took = read_took(phrase, end) if title is not None else None
        if took is not None:
            return took.of(Pick(words=title))
    return None


def _behind_speaker(phrase: Phrase) -> int:
    at = int(phrase.word(0) in SPEAKERS)
    return at + 1 if at and phrase.word(at) in BETWEEN_SPEAKER_AND_VERB else at


def _telling(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(word for word in words if word not in ARTICLES)


def _in_the_present(said: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """What it would be as a title, with its verb first."""
    for verb, rest in ((said[:1], said[1:]), (said[-1:], said[:-1])):
        yield from ((plain, *rest) for word in verb for plain in plain_forms(word))
