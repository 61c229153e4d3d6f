"""A word on payday's eve."""

from __future__ import annotations

from datetime import date, timedelta

from bot.actions.paydays import payday_tomorrow
from bot.actions.today import today
from bot.owing import owe
from bot.rounds.daily import begin, is_late, kept_quiet
from storage.desk import Desk
from storage.records import Round


def payday_eve(desk: Desk, due: Round) -> None:
    """What is paid tomorrow, where the person wants to be told; until midnight."""
    day = date.fromisoformat(due.key)
    if begin(desk, due, today(desk) == day) and not kept_quiet(desk, due):
        reply = payday_tomorrow(desk, day + timedelta(days=1), late=is_late(desk, due))
        if reply is not None:
            owe(desk, reply, round=due.kind.value)
