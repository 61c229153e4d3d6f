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
from dataclasses import dataclass
from typing import Generic, Literal, TypeAlias, TypeVar

Kind: TypeAlias = Literal["word", "number", "mark"]
Value = TypeVar("Value", covariant=True)

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
    if len(tokens) - at < len(words) or any(tokens[at + i].text != word for i, word in enumerate(words)):
        return None
    return at + len(words)


def longest(*found: Found[Value] | None) -> Found[Value] | None:
    """The reading that reaches furthest; of two as long, the first."""
    best = None
    for one in found:
        if one is not None and (best is None or one.end > best.end):
            best = one
    return best


def _folded(piece: str) -> str:
    if piece in FRACTION_SIGNS:
        return piece
    return unicodedata.normalize("NFKC", piece).translate(_FOLDED).lower()
