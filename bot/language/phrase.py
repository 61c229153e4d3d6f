"""A stretch of a reply, and what is recognised in it.

Every kind of reply is read the same way: its readers are tried at each token
in turn, the longest reading wins and becomes a ``Piece``, and a token that no
reader knows is left over. What the pieces and the leftovers amount to is for
the kind to say; most kinds refuse a reply with leftovers they cannot use.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import TypeAlias, TypeVar

from bot.language.context import Context
from bot.language.meaning import Meaning
from bot.language.names import Names, names_known
from bot.language.tokens import Found, Token, after_words, tokenize

T = TypeVar("T")

QUOTES = {'"': '"', "“": "”", "«": "»", "„": "“"}
QUOTED = "\N{LEFT DOUBLE QUOTATION MARK}"
"""The text of a token that stands for a whole quotation: no reader knows it, so it can only be a title or a note."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """A stretch of a reply.

    ``tokens`` are those of a part of ``text``; ``day`` is the day that was said earlier on its line, if one was.

    ``piece`` tells that the line is being tried in pieces: then a piece must say everything itself, but for
    what it shares with the piece just ``before`` it: workshop 9-12, 13-17.
    """

    text: str
    tokens: tuple[Token, ...]
    context: Context
    names: Names
    day: date | None = None
    piece: bool = False
    before: Meaning | None = None

    def word(self, at: int) -> str:
        """The token at ``at``, or the empty text where there is none."""
        return self.tokens[at].text if 0 <= at < len(self.tokens) else ""

    def part(self, at: int, end: int | None = None) -> Phrase:
        """The phrase of the tokens from ``at`` up to ``end``."""
        return Phrase(self.text, self.tokens[at:end], self.context, self.names, self.day, self.piece, self.before)

    def original(self, at: int, end: int) -> str:
        """The words from ``at`` up to ``end`` as they were typed, in one line; a quotation without its quotes."""
        if at >= end:
            return ""
        if end - at == 1 and self.tokens[at].text == QUOTED:
            return in_one_line(self.text[self.tokens[at].start + 1 : self.tokens[at].end - 1]).strip()
        return in_one_line(self.text[self.tokens[at].start : self.tokens[end - 1].end])


def in_one_line(text: str) -> str:
    """The text with blanks for breaks: a title is one line, however it was typed."""
    return text.replace("\n", " ")


def phrase_of(text: str, context: Context) -> Phrase:
    """The whole of ``text``, with each quotation folded into one token."""
    tokens = tokenize(text)
    if text.startswith("/"):
        tokens = _without_addressee(tokens)
    if not QUOTES.keys().isdisjoint(text):
        tokens = _quotations_folded(text, tokens)
    return Phrase(text, tokens, context, names_known(context.categories))


def _without_addressee(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """A command without the bot it is addressed to: /today@our_bot."""
    at = next((at for at, token in enumerate(tokens) if token.text == "@" and token.glued), len(tokens))
    end = next((end for end in range(at + 1, len(tokens)) if not tokens[end].glued), len(tokens))
    return tokens[:at] + tokens[end:]


def _quotations_folded(text: str, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    folded: list[Token] = []
    quoted_until = 0
    for token in tokens:
        if token.start < quoted_until:
            continue
        closing = None if token.glued else QUOTES.get(text[token.start])
        close_at = text.find(closing, token.start + 1) if closing else -1
        if close_at > token.start:
            quoted_until = close_at + 1
            folded.append(replace(token, text=QUOTED, kind="word", end=quoted_until))
        else:
            folded.append(token)
    return tuple(folded)


@dataclass(frozen=True, slots=True)
class Piece:
    """What a reader made of the tokens from ``at`` up to ``end``."""

    at: int
    end: int
    value: object


Reader: TypeAlias = Callable[[Phrase, int], Found[object] | None]


@dataclass(frozen=True, slots=True)
class Explained:
    """``left`` are the indexes of the tokens that no reader knew."""

    phrase: Phrase
    pieces: tuple[Piece, ...]
    left: tuple[int, ...]

    def all(self, kind: type[T]) -> list[T]:
        """The values of this kind, in the order they were said."""
        return [piece.value for piece in self.pieces if isinstance(piece.value, kind)]

    def one(self, kind: type[T]) -> T | None:
        """The first value of this kind, if there is one."""
        for piece in self.pieces:
            if isinstance(piece.value, kind):
                return piece.value
        return None

    def twice(self, *kinds: type[object]) -> bool:
        """Whether any of these kinds was said more than once, so that it is not clear which one holds."""
        said = [type(piece.value) for piece in self.pieces]
        return len(said) > len(set(said)) and any(said.count(kind) > 1 for kind in kinds)

    def stretches(self) -> list[tuple[int, int]]:
        """The leftovers as runs of neighbouring tokens, each from its first token up to the one after its last."""
        runs: list[tuple[int, int]] = []
        for at in self.left:
            if runs and runs[-1][1] == at:
                runs[-1] = (runs[-1][0], at + 1)
            else:
                runs.append((at, at + 1))
        return runs


def explain(phrase: Phrase, readers: tuple[Reader, ...]) -> Explained:
    """Reads ``phrase`` from left to right; at each token the longest reading wins, an earlier reader before a later one."""
    pieces: list[Piece] = []
    left: list[int] = []
    at, end = 0, len(phrase.tokens)
    while at < end:
        best = longest(phrase, at, readers)
        if best is None:
            left.append(at)
            at += 1
        else:
            pieces.append(Piece(at, best.end, best.value))
            at = best.end
    return Explained(phrase, tuple(pieces), tuple(left))


def longest(phrase: Phrase, at: int, readers: Iterable[Callable[[Phrase, int], Found[T] | None]]) -> Found[T] | None:
    """The longest reading that starts at ``at``, or None. Past one that reaches the end none is tried."""
    best: Found[T] | None = None
    for reader in readers:
        found = reader(phrase, at)
        if found is not None and (best is None or found.end > best.end):
            best = found
            if found.end == len(phrase.tokens):
                break
    return best


@dataclass(frozen=True, slots=True)
class Opening:
    """The ways in which a kind of reply may begin, by their first word, the longest first."""

    calls: dict[str, tuple[tuple[str, ...], ...]]

    def __call__(self, phrase: Phrase, at: int = 0) -> int:
        """How many tokens the longest opening at ``at`` takes; 0 when there is none."""
        for words in self.calls.get(phrase.word(at), ()):
            if after_words(phrase.tokens, at + 1, *words[1:]) is not None:
                return len(words)
        return 0


def opened_by(ways: str) -> Opening:
    """An opening that may be said in these ways, "|" between them; a way's words are parted by spaces, as tokens are."""
    calls: dict[str, list[tuple[str, ...]]] = {}
    for words in sorted((tuple(way.split()) for way in ways.split("|")), key=len, reverse=True):
        calls.setdefault(words[0], []).append(words)
    return Opening({first: tuple(called) for first, called in calls.items()})
