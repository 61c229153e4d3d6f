"""Replies about calendars that are near to one that was not understood.

A link with words around it is a calendar with a name; a calendar with a verb is
one to pause, resume or remove; words with "minor" or the like are a mark.
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.language.calendars_said import FLAGS
from bot.language.phrase import Phrase
from bot.language.splitting import LINK
from bot.language.words import ARTICLES, FUNCTION_WORDS

CHANGES = {
    "pause": "pause stop hold mute",
    "resume": "resume continue restart unpause",
    "remove": "remove delete drop forget unsubscribe cancel",
}
HOW = {word: how for how, words in CHANGES.items() for word in words.split()}
ADDING = frozenset("calendar calendars subscribe follow add import read use link ics sync connect new".split())
PASSED_OVER = FUNCTION_WORDS | ARTICLES | ADDING | frozenset(HOW) | {"make", "set", "mark", "events"}


def as_calendar(phrase: Phrase) -> Iterator[str]:
    """calendar museum https://…, pause calendar museum, mark choir minor; what the calendars are, where nothing more is clear."""
    link = LINK.search(phrase.text)
    if link is not None:
        yield f"calendar {_telling(phrase.text[: link.start()] + phrase.text[link.end() :])} {link[0]}".replace("  ", " ")
        return
    words = [token.text for token in phrase.tokens]
    if "calendar" in words or "calendars" in words:
        name, hows = _telling(phrase.text), dict.fromkeys(HOW[word] for word in words if word in HOW)
        yield from (f"{how} calendar {name}" for how in hows if name)
        yield "calendars"
    flags = [word for word in words if word in FLAGS]
    name = _telling(" ".join(word for word in phrase.text.split() if word.lower() not in FLAGS))
    if flags and name and not any(token.kind == "number" for token in phrase.tokens):
        yield f"mark {name} {' '.join(flags)}"


def _telling(text: str) -> str:
    """The words that may be a name."""
    return " ".join(word for word in text.split() if word.lower().strip(".,:;!?'\"") not in PASSED_OVER).strip(" ,.:;!?")
