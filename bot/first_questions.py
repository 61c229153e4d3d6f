"""Whether a question of the first conversation waits for its answer."""

from __future__ import annotations

from bot.language.step_replies import skips
from bot.owing import WELCOME
from storage.desk import Desk
from storage.records import Step


def was_asked(desk: Desk, text: str) -> bool:
    """Whether the last thing the person was told is a question of the first conversation; one left open can be skipped at any time."""
    if desk.person.step in (Step.NEW, Step.DONE):
        return False
    latest = desk.outbox.latest()
    return skips(text) or (latest is not None and latest.round == WELCOME)
