"""Text from outside, tamed: what is shown is what is kept, and it stays in its line.

Everything that others wrote passes here once, on its way in: what people
write, names of files and places, titles of events. What is taken out cannot
be seen and only serves to deceive: controls of direction, characters without
width, letters that look like a blank, marks piled upon marks.

Sources: Unicode Standard Annex 9, section 2 (directional formatting
characters); Unicode Technical Report 36, section 2 (visual spoofing); Annex 15,
section 12 (why marks in a row must be bounded).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

MOST_MARKS = 4
"""Marks upon one letter. No living script needs more for one; common practice, no source."""

_BREAKS = re.compile("\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]")
_JOINERS = "\u200c\u200d"
"""They shape letters in some scripts and join emoji, so they stay between two that can be joined."""

_LOOK_BLANK = dict.fromkeys(map(ord, "\u115f\u1160\u2800\u3164\uffa0"), " ")
_GONE = frozenset({"Cc", "Cf", "Co", "Cs"})
_MARKS = frozenset({"Mn", "Me"})


def tame(text: str) -> str:
    """The text in one line, composed (NFC), with plain blanks and without what cannot be seen."""
    if text.isascii() and text.isprintable():
        return text
    before, tamed = text, _tamed_once(_BREAKS.sub(" ", text))
    while tamed != before:
        # What was taken out may have parted two that compose, or join, now.
        before, tamed = tamed, _tamed_once(tamed)
    return tamed


def tame_lines(text: str) -> str:
    """As ``tame``, line by line: what people write may have several."""
    return "\n".join(tame(line) for line in _BREAKS.split(text))


def _tamed_once(line: str) -> str:
    seen = "".join(_visible(line.translate(_LOOK_BLANK)))
    return "".join(_bounded(unicodedata.normalize("NFC", seen)))


def _visible(line: str) -> Iterator[str]:
    """The characters that can be seen, blanks as plain ones."""
    for at, char in enumerate(line):
        if char in _JOINERS:
            if _joins(line, at):
                yield char
        elif char.isspace():
            yield " "
        elif unicodedata.category(char) not in _GONE and not _is_no_character(char):
            yield char


def _joins(line: str, at: int) -> bool:
    """Whether a joiner stands between two characters that are neither ASCII nor out of sight."""
    before, after = line[at - 1 : at], line[at + 1 : at + 2]
    return all(char and not char.isascii() and unicodedata.category(char) not in _GONE for char in (before, after))


def _bounded(chars: str) -> Iterator[str]:
    """Without the marks beyond the most that one letter may carry."""
    marks = 0
    for char in chars:
        marks = marks + 1 if unicodedata.category(char) in _MARKS else 0
        if marks <= MOST_MARKS:
            yield char


def _is_no_character(char: str) -> bool:
    """The code points that Unicode promises never to use (section 23.7)."""
    return ord(char) & 0xFFFE == 0xFFFE or "\ufdd0" <= char <= "\ufdef"
