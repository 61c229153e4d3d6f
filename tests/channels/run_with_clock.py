"""``weekwright run`` with a clock that the test moves: the file named by TEST_CLOCK holds the instant that it is now."""

from __future__ import annotations

import os
import sys
from datetime import datetime
from pathlib import Path

from bot.channels import telegram
from bot.cli import main
from bot.commands import run


def moved_now() -> datetime:
    """What the file says."""
    return datetime.fromisoformat(Path(os.environ["TEST_CLOCK"]).read_text("utf-8"))


if __name__ == "__main__":
    run._now = moved_now
    telegram.TICK_SECONDS = 0.05
    sys.exit(main(["run"]))
