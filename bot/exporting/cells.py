"""Cells of a CSV file that no spreadsheet runs."""

from __future__ import annotations

from typing import Final

FORMULA_STARTS: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""Cells that begin so may be run as formulas. Source: OWASP, "CSV Injection"."""


def inert(cell: str) -> str:
    """The cell with an apostrophe before it where a spreadsheet would take it for a formula."""
    return f"'{cell}" if cell.startswith(FORMULA_STARTS) else cell
