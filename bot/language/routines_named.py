"""A routine that its bare name tells of, and one that is left out today.

named    := title ["today"]
left out := ("skip" | "no" | "leave out" | …) title ["today"]

Only the routine's very title will do, and none that an open task of today has as well. What is said with a
bare name nobody can know, so it is asked: exercise. "Skip exercise" says it.
"""

from __future__ import annotations

from bot.language.meaning import Ask, Close
from bot.language.phrase import Phrase, opened_by
from bot.language.pick import Pick
from bot.language.plan_meaning import NotToday
from bot.language.spent_on import routine_titled
from bot.language.words import ARTICLES

LEFT_OUT = opened_by(
    "skip | skipped | skipping | i skip | i skipped | i'm skipping | i am skipping | leave out | left out | no | no time for | not"
)
TODAY = (("today",), ("for", "today"))
ENDINGS = (".", "!", "please")


def read_routine_named(phrase: Phrase) -> Ask | None:
    """Done, or left out today: both are choices."""
    title = None if phrase.piece else _title(phrase)
    return None if title is None else Ask((Close(Pick(words=title)), NotToday(Pick(words=title))))


def read_left_out(phrase: Phrase) -> NotToday | None:
    """Out of today's plan."""
    start = LEFT_OUT(phrase)
    title = _title(phrase.part(start)) if start else None
    return None if title is None else NotToday(Pick(words=title))


def _title(phrase: Phrase) -> str | None:
    """The routine whose title fills the phrase, perhaps before "today"."""
    start, end = int(phrase.word(0) in ARTICLES), len(phrase.tokens)
    while end and phrase.word(end - 1) in ENDINGS:
        end -= 1
    ends = [end, *(end - len(words) for words in TODAY if words == tuple(token.text for token in phrase.tokens[end - len(words) : end]))]
    titles = (routine_titled(phrase.original(start, each), phrase.context.routines) for each in ends if each > start)
    title = next((each for each in titles if each is not None), None)
    is_a_task = title is not None and any(title.lower() == task.lower() for _, task in phrase.context.tasks)
    return None if is_a_task else title
