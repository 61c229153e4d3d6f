"""The months by their names."""

from __future__ import annotations

_NAMES = (
    "january jan january's",
    "february feb febr feb's febuary",
    "march mar",
    "april apr",
    "may",
    "june jun",
    "july jul",
    "august aug",
    "september sep sept",
    "october oct",
    "november nov",
    "december dec",
)
MONTHS = {word: number for number, words in enumerate(_NAMES, 1) for word in words.split()}
