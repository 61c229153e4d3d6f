"""Text -> tokens, the only thing that the readers look at.

token := word | number | mark

A word is letters, with apostrophes inside ("o'clock"); a number is digits, or
one vulgar fraction sign ("½"); a mark is any other character that is not a
space. So "9.30-11h" is 9 . 30 - 11 h, and ``glued`` tells "2.5" from "2. 5".
"w/" and "w/o" are the words they stand for.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, Literal, TypeAlias, TypeVar

Kind: TypeAlias = Literal["word", "number", "mark"]
Value = TypeVar("Value", covariant=True)
Given = TypeVar("Given")

FRACTION_SIGNS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"

_PIECES = re.compile(rf"((?<!\d)[wW]/(?:[oO]\b)?|[^\W\d_{FRACTION_SIGNS}]+(?:['’ʼ][^\W\d_{FRACTION_SIGNS}]+)*)|(\d+|[{FRACTION_SIGNS}])|\S")
_KINDS: dict[int | None, Kind] = {1: "word", 2: "number", None: "mark"}
_SHORT = {"w/": "with", "w/o": "without"}
_FOLDED = str.maketrans("’‘ʼ´`′“”″–—−‒‐‑―", "''''''\"\"\"-------")


@dataclass(frozen=True, slots=True)
class Token:
    """``text`` is in lower case and folded; ``start`` and ``end`` are offsets into the text as it came.

    ``glued`` says that no space stood before it (never true of the first).
    """

    text: str
    kind: Kind
    start: int
    end: int
    glued: bool


Tokens: TypeAlias = tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Found(Generic[Value]):
    """What a reader read: its value, and ``end``, the index of the first token after it."""

    value: Value
    end: int


def tokenize(text: str) -> Tokens:
    """All tokens of ``text``, in their order. Takes time linear in its length."""
    tokens: list[Token] = []
    before = -1
    plain = text.isascii()
    for piece in _PIECES.finditer(text):
        start, end = piece.span()
        said = piece.group().lower() if plain else _folded(piece.group())
        tokens.append(Token(_SHORT.get(said, said), _KINDS[piece.lastindex], start, end, start == before))
        before = end
    return tuple(tokens)


def text_at(tokens: Tokens, at: int) -> str:
    """The text of the token at ``at``; empty past the end, so that readers may look ahead freely."""
    return tokens[at].text if at < len(tokens) else ""


def is_glued(tokens: Tokens, at: int) -> bool:
    """Whether the token at ``at`` follows the one before without a space; False past the end."""
    return at < len(tokens) and tokens[at].glued


def is_number(tokens: Tokens, at: int) -> bool:
    """Whether digits or a fraction sign stand at ``at``; False past the end."""
    return at < len(tokens) and tokens[at].kind == "number"


def after_words(tokens: Tokens, at: int, *words: str) -> int | None:
    """The index after ``words`` when exactly these stand at ``at``, else None."""
    for word in words:
        if text_at(tokens, at) != word:
            return None
        at += 1
    return at


def longest(
    readers: Iterable[Callable[[Tokens, int, Given], Found[Value] | None]], tokens: Tokens, at: int, given: Given
) -> Found[Value] | None:
    """The reading that reaches furthest; of two as long, the first. Past one that reaches the end none is tried."""
    best = None
    for read in readers:
        found = read(tokens, at, given)
        if found is not None and (best is None or found.end > best.end):
            best = found
            if found.end == len(tokens):
                break
    return best


def _folded(piece: str) -> str:
    if piece in FRACTION_SIGNS:
        return piece
    return unicodedata.normalize("NFKC", piece).translate(_FOLDED).lower()
