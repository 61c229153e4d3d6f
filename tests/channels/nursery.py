"""Starts workers quickly: ``weekwright run`` with a clock that the test moves, forked from a process that has loaded everything.

Reads a port a line, forks a worker that listens there, and writes its number.
A worker is a process like any other: it can be killed, and shares nothing.
"""

from __future__ import annotations

import os
import signal
import sys
import tempfile
from functools import cache
from pathlib import Path

from sqlalchemy import Dialect

import bot.channels.telegram_webhook
import bot.voice.post_said  # noqa: F401
from bot.channels import telegram
from bot.cli import main
from bot.commands import run
from storage import connections
from storage.statements import Statements
from tests.channels.run_with_clock import moved_now
from tests.stage import Stage


def serve() -> None:
    """Until the input ends."""
    run._now = moved_now
    telegram.TICK_SECONDS = 0.2
    connections.Statements = _compiled_once  # type: ignore[attr-defined,assignment]
    _hear_something(os.environ["WEEKWRIGHT_DATABASE"])
    # Whoever ends is forgotten by itself.
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    for line in sys.stdin:
        worker = os.fork()
        if not worker:
            _work(line.strip())
        sys.stdout.write(f"{worker}\n")
        sys.stdout.flush()


@cache
def _kept() -> dict[str, Statements]:
    return {}


def _compiled_once(dialect: Dialect) -> Statements:
    """What was compiled here serves all that are forked: else they would do little else in the seconds that they live."""
    return _kept().setdefault(dialect.name, Statements(dialect))


def _hear_something(url: str) -> None:
    """Has all loaded that a worker would load when it first hears something; who said it is erased."""
    with tempfile.TemporaryDirectory() as folder:
        stage = Stage(Path(folder), url=url)
        stage.say("5m workshop")
        stage.at("2026-03-03 07:00")
        stage.house.database.everything.erase(stage.person_id, stage.now)
        stage.close()


def _work(port: str) -> None:
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    os.environ["WEEKWRIGHT_LISTEN"] = f"127.0.0.1:{port}"
    os._exit(main(["run"]))


if __name__ == "__main__":
    serve()
