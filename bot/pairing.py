"""The code that a new person pairs with: made here, kept as a hash, printed once."""

from __future__ import annotations

import hashlib
import secrets
from datetime import timedelta
from typing import Final

HOLDS: Final = timedelta(days=1)
MOST_TRIES: Final = 10
ALPHABET: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"
"""No letters and digits that are easily taken for each other."""

LENGTH: Final = 8


def new_code() -> str:
    """A code that nobody can guess: 40 bits from the system's own source."""
    return "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))


def hashed(code: str) -> str:
    """What is kept of a code; upper and lower case are one."""
    return hashlib.sha256(code.strip().upper().encode()).hexdigest()
