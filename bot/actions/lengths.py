"""How long a name, a title or a note may be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from bot.language.meaning import Meaning

LONGEST = 300
"""Characters; common practice, no source. A link has bounds of its own where it is followed."""

LINK = "link"


def is_too_long(meaning: Meaning) -> bool:
    """Whether any text in what was said is longer than what can be shown in a line or two."""
    return any(len(text) > LONGEST for text in _texts(meaning))


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _texts(each)
    elif is_dataclass(value):
        for field in fields(value):
            if field.name != LINK:
                yield from _texts(getattr(value, field.name))
