"""When something takes place, or when the person works.

asked := ("when is" | "what time is" | "when's" | …) ["my" | "the"] ["next"] words [span]
       | ("when does" | "what time does") ["my" | "the"] ["next"] words ("start" | "begin" | …) [span]
       | ("when do i work" | "when am i working" | "my shifts" | …) {category | span}

Days to come are meant. Without a span it is the next time, or the week ahead.
"""

from __future__ import annotations

from dataclasses import replace

from bot.language.meaning import Ask, Show
from bot.language.names import read_names
from bot.language.phrase import Phrase, explain, opened_by
from bot.language.showing import span_said
from bot.language.slots import Called
from bot.language.spans import Span, month_ahead
from bot.language.tokens import Found
from bot.language.words import ARTICLES, AT_A_CATEGORY, FUNCTION_WORDS

WORK = opened_by(
    "when do i work | when do i have to work | when am i working | when will i work | when must i work | do i work | am i working | "
    "when am i | when do i have a shift | when do i start | when do i start work | when do i finish | when do i finish work | "
    "what time do i start | what time do i start work | what time do i work | until when do i work | "
    "my shifts | shifts | show my shifts | when are my shifts | what shifts do i have"
)
WHEN = opened_by("when is | when's | whens | when are | what time is | what day is | when do i have | at what time is")
DOES = opened_by("when does | when do | what time does | at what time does")
DOING = frozenset("start starts begin begins end ends finish".split())
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
    span = month_ahead(phrase, span) if span else None
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
    core = _what_is_asked(phrase)
    if core is None:
        return None
    size = len(core.tokens)
    at, span = next(((at, found.value) for at in range(1, size) if (found := span_said(core, at)) and found.end == size), (size, None))
    end = at - 1 if core.word(at - 1) in ("on", "in", "for") else at
    words = [token.text for token in core.tokens[:end]]
    if not 0 < len(words) <= MOST_WORDS or words[0] in FUNCTION_WORDS or words[-1] in FUNCTION_WORDS:
        return None
    span = month_ahead(phrase, span) if span else None
    return Show("times", first=span.first if span else None, last=span.last if span else None, topic=core.original(0, end))


def _what_is_asked(phrase: Phrase) -> Phrase | None:
    """What is asked about, with its span; "does" asks so only of its start or end."""
    start, does, end = WHEN(phrase), DOES(phrase), len(phrase.tokens)
    doing = next((at for at in range(does + 1, end) if phrase.word(at) in DOING), None) if does else None
    if not start and doing is None:
        return None
    if doing is not None:
        phrase, start, end = replace(phrase, tokens=phrase.tokens[:doing] + phrase.tokens[doing + 1 :]), does, end - 1
    while end > start and phrase.word(end - 1) in ENDINGS:
        end -= 1
    while start < end and phrase.word(start) in BEFORE:
        start += 1
    return phrase.part(start, end)
