"""``weekwright run`` with a clock that the test moves: the file named by TEST_CLOCK holds the instant that it is now."""

from __future__ import annotations

import logging
import os
import sys
from datetime import datetime
from pathlib import Path

from bot.cli import main
from bot.commands import run
from bot.commands.left_out import left_out

# As ``run`` itself loads them.
with left_out("cryptography"):
    from bot.channels import telegram, telegram_line


def moved_now() -> datetime:
    """What the file says."""
    return datetime.fromisoformat(Path(os.environ["TEST_CLOCK"]).read_text("utf-8"))


def let_all_talk() -> None:
    """Every library logs all it has to say, as no setting of ours would have it: who sets the log up first decides its level."""
    logging.basicConfig(stream=sys.stderr, level=logging.DEBUG)
    telegram_line.TALKATIVE = ()


if __name__ == "__main__":
    run._now = moved_now
    telegram.TICK_SECONDS = 0.05
    if os.environ.get("TEST_DEBUG"):
        let_all_talk()
    sys.exit(main(["run"]))
