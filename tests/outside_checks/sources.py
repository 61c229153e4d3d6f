"""Which tests check against something outside the project: those of this folder, and those that name their source."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

NAMED = re.compile(r"\bSource: (?!common practice|our own)")
HERE = Path(__file__).parent


@cache
def is_outside(path: Path) -> bool:
    """Whether the test file at ``path`` is one of them."""
    return path.parent == HERE or bool(NAMED.search(path.read_text("utf-8")))
