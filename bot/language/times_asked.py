"""When something takes place, or when the person works.

asked := ("when is" | "what time is" | "when's" | …) ["my" | "the"] ["next"] words [span]
       | ("when do i work" | "when am i working" | "my shifts" | …) {category | span}

Days to come are meant. Without a span it is the next time, or the week ahead.
"""

from __future__ import annotations

from bot.language.meaning import Ask, Show
from bot.language.names import read_names
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.showing import span_said
from bot.language.slots import Called
from bot.language.spans import Span
from bot.language.tokens import Found
from bot.language.words import ARTICLES, AT_A_CATEGORY, FUNCTION_WORDS

WORK = opened_by(
    "when do i work | when do i have to work | when am i working | when will i work | when must i work | do i work | am i working | "
    "when am i | when do i have a shift | what shifts do i have | my shifts | shifts | show my shifts | when are my shifts"
)
WHEN = opened_by("when is | when's | whens | when are | what time is | what day is | when do i have | at what time is | when will")
SMALL = frozenset("at for in on of my the work job a shift shifts next ? . ! ,".split())
BEFORE = ARTICLES | {"next", "the", "my"}
ENDINGS = frozenset({"?", ".", "!", ",", "again", "please", "on"})
MOST_WORDS = 5


def read_times(phrase: Phrase) -> Show | Ask | None:
    """Something to look at, where nothing but its words, a category and a span are named."""
    work = WORK(phrase)
    return _read_work(phrase, work) if work else _read_when(phrase)


def _read_work(phrase: Phrase, start: int) -> Show | Ask | None:
    said = explain(phrase.part(start), (span_said, _job_said))
    if said.twice(Span, Called) or any(said.phrase.word(at) not in SMALL for at in said.left):
        return None
    call, span = said.one(Called), said.one(Span)
    if call is None and phrase.word(start - 1) == "i":
        return None  # "When am I" alone asks of no work.
    names = call.names if call else (None,)
    shows = tuple(Show("times", first=span.first if span else None, last=span.last if span else None, category=name) for name in names)
    return shows[0] if len(shows) == 1 else Ask(shows)


def _job_said(phrase: Phrase, at: int) -> Found[Called] | None:
    start = at + 1 if phrase.word(at) in AT_A_CATEGORY else at
    found = read_names(phrase.tokens, start + 1 if phrase.word(start) == "the" else start, phrase.names)
    return Found(Called(found.value), found.end) if found and phrase.word(start) not in SMALL - {"the"} else None


def _read_when(phrase: Phrase) -> Show | None:
    start, end = WHEN(phrase), len(phrase.tokens)
    while end > start and phrase.word(end - 1) in ENDINGS:
        end -= 1
    while start and start < end and phrase.word(start) in BEFORE:
        start += 1
    core = phrase.part(0, end)
    spans = ((at, found) for at in range(start + 1, end) if (found := span_said(core, at)) is not None and found.end == end)
    at, span = next(((at, found.value) for at, found in spans), (end, None))
    at = at - 1 if phrase.word(at - 1) in ("on", "in", "for") else at
    words = [phrase.word(each) for each in range(start, at)]
    if not start or not 0 < len(words) <= MOST_WORDS or words[0] in FUNCTION_WORDS or words[-1] in FUNCTION_WORDS:
        return None
    return Show("times", first=span.first if span else None, last=span.last if span else None, topic=phrase.original(start, at))
