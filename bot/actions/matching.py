"""Which of several titles a few words name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from rapidfuzz import fuzz, process, utils

SURE_ENOUGH = 78
"""Percent of likeness from which words count as naming a title; common practice, no source."""

T = TypeVar("T")


def best_match(words: str, things: Sequence[tuple[str, T]]) -> T | None:
    """The thing whose title ``words`` name best: all words in it, else the likeliest in spelling. None when none is near.

    Of equally near ones the first is taken, so callers give the nearest in time first.
    """
    wanted = set(words.lower().split())
    for title, thing in things:
        if wanted <= set(title.lower().split()):
            return thing
    for title, thing in things:
        if words.lower() in title.lower():
            return thing
    found = process.extractOne(
        words, [title for title, _ in things], scorer=fuzz.WRatio, processor=utils.default_process, score_cutoff=SURE_ENOUGH
    )
    return None if found is None else things[found[2]][1]
