"""The engine, the alarm and the voice under one adversary."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from random import Random

from bot.channels.telegram_updates import FileOffer, read_update
from bot.heard import button_data
from storage.records import Carried
from tests.engine.acceptable import fault_of
from tests.engine.hostile_updates import Adversary
from tests.stage import Stage
from tests.storage.given import still_owed

ME = "telegram:1"


def endure(folder: Path, seed: int, updates: int, url: str | None = None) -> int:
    """Hears so many hostile updates over some weeks; gives how many messages came of it.

    Raises whatever the engine or a round raises, and AssertionError for a message that Telegram would refuse.
    """
    stage, adversary, random = Stage(folder, me=ME, url=url), Adversary(seed), Random(f"{seed} ordeal")
    seen = 0
    try:
        for _ in range(updates):
            update = adversary.update()
            read = read_update(update)
            if read is not None:
                heard = replace(read.as_heard, content=adversary.content_of_a_file()) if isinstance(read, FileOffer) else read
                stage.house.engine.receive(heard)
            stage.now += timedelta(seconds=random.choice((1, 60, 60, 3600)))
            if random.random() < 0.05:
                asyncio.run(stage.house.alarm.tick())
            seen = _look(stage, adversary, seen)
    finally:
        stage.close()
    return seen


def _look(stage: Stage, adversary: Adversary, seen: int) -> int:
    """Every message that is owed must be one that Telegram takes. Then it counts as sent."""
    owed = still_owed(stage.house.database)
    for parcel in owed:
        assert (fault := fault_of(parcel)) is None, f"{fault}: {parcel.text[:300]!r} {parcel.buttons}"
        adversary.buttons += [
            button_data(parcel.id, row, place) for row, buttons in enumerate(parcel.buttons) for place in range(len(buttons))
        ]
    if owed:
        stage.house.database.outbox.note_and_take([Carried(parcel.id, str(parcel.id)) for parcel in owed], (), stage.now)
    return seen + len(owed)
