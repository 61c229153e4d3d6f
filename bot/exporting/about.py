"""What names a folder as an export, and what is wrong with one that is none."""

from __future__ import annotations

from pathlib import Path
from typing import Final

ABOUT: Final = "export.json"
FORMAT: Final = 1
"""Raised when files of before can no longer be read."""


class NoExport(Exception):
    """``path`` is not what an export has there; ``reason`` says why in a few words."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(f"{path}: {reason}")
        self.path = path
        self.reason = reason
