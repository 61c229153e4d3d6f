"""Parts of the day: morning, afternoon, evening, night.

part  := ["early" | "late"] ("morning" | "afternoon" | "evening" | "night") | "first thing" ["in" "the" "morning"]
after := ["in" ["the"]] part | "at night" | "in the am" | "in the pm"

Until 12:00 is morning, until 17:00 afternoon, then evening (common practice,
no source). A part without an hour starts at: morning the waking window's
start, afternoon 15:00, evening 20:00, night 22:00 (a stated convention).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from bot.language.tokens import Found, Tokens, after_words, text_at

PartName: TypeAlias = Literal["morning", "afternoon", "evening", "night"]


@dataclass(frozen=True, slots=True)
class Part:
    """``first`` to ``last`` bound its minutes of the day, over midnight where first is later; ``start`` is its stated start."""

    name: PartName
    first: int
    last: int
    start: int | None

    def holds(self, minute: int) -> bool:
        """Whether a minute of the day may be called so."""
        if self.first <= self.last:
            return self.first <= minute <= self.last
        return minute >= self.first or minute <= self.last


MORNING = Part("morning", 0, 719, None)
AFTERNOON = Part("afternoon", 720, 1439, 15 * 60)
EVENING = Part("evening", 15 * 60, 2 * 60, 20 * 60)
TONIGHT = Part("night", 17 * 60, 5 * 60 + 59, 22 * 60)
NIGHT = Part("night", 18 * 60, 5 * 60 + 59, 22 * 60)
PARTS = {
    "morning": MORNING,
    "mornings": MORNING,
    "morn": MORNING,
    "afternoon": AFTERNOON,
    "afternoons": AFTERNOON,
    "evening": EVENING,
    "evenings": EVENING,
    "eve": EVENING,
    "night": NIGHT,
    "nights": NIGHT,
}
TONIGHT_WORDS = frozenset({"tonight", "tonight's"})
_HALVES = {"am": MORNING, "pm": AFTERNOON}


def read_part(tokens: Tokens, at: int) -> Found[Part] | None:
    """A part of the day by its name, early and late left aside: late afternoon."""
    if text_at(tokens, at) in ("early", "late", "mid"):
        at += 1
        if text_at(tokens, at) == "-":
            at += 1
    part = PARTS.get(text_at(tokens, at))
    if part is None and text_at(tokens, at) == "first" and text_at(tokens, at + 1) == "thing":
        return Found(MORNING, after_words(tokens, at + 2, "in", "the", "morning") or at + 2)
    return Found(part, at + 1) if part else None


def read_part_after(tokens: Tokens, at: int) -> Found[Part] | None:
    """What may follow a time: in the afternoon, at night, in the pm."""
    first = text_at(tokens, at)
    if first == "at" and text_at(tokens, at + 1) == "night":
        return Found(NIGHT, at + 2)
    if first not in ("in", "during"):
        return None
    at += 2 if text_at(tokens, at + 1) == "the" else 1
    half = _HALVES.get(text_at(tokens, at))
    return Found(half, at + 1) if half else read_part(tokens, at)
