"""The parts that every channel shares, joined."""

from __future__ import annotations

from dataclasses import dataclass

from bot.door import Door
from bot.engine import Engine
from bot.rounds.alarm import Alarm
from bot.rounds.studio import Studio
from storage.database import Database


@dataclass(frozen=True, slots=True)
class House:
    """An open database and what works on it."""

    database: Database
    engine: Engine
    door: Door
    alarm: Alarm
    studio: Studio
