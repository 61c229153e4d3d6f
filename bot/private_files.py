"""Files that only their owner can read."""

from __future__ import annotations

import os
from pathlib import Path


def write_privately(path: Path, content: bytes) -> None:
    """Writes the file with mode 0600, in place of one that is there. Raises OSError."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with open(os.open(path, os.O_CREAT | os.O_WRONLY | os.O_TRUNC | os.O_CLOEXEC, 0o600), "wb") as file:
        # One that was there keeps its mode when it is opened.
        os.fchmod(file.fileno(), 0o600)
        file.write(content)
