"""Reads the tables of phrases in these tests: a line is a phrase, ``=>`` and what it means."""

from __future__ import annotations


def rows(*tables: str) -> list[tuple[str, str]]:
    """All phrases of the tables, each with its meaning as written."""
    found: list[tuple[str, str]] = []
    for line in "".join(tables).splitlines():
        phrase, arrow, meaning = line.partition(" => ")
        if arrow:
            found.append((phrase, meaning.strip()))
    return found
