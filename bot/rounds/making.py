"""How a file that a parcel encloses comes about: here, or in a process of its own."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from typing import TypeAlias

from bot.actions.enclosures import file_of
from bot.apart.process import Apart
from storage.database import Database

Making: TypeAlias = Callable[[str, int, datetime], bytes]
"""What is enclosed, for whom, as of when -> the content. May block; raises as ``file_of``, and what a look at the database raises."""


def here(database: Database) -> Making:
    """Files are made in the thread that wants them."""

    def make(encloses: str, person_id: int, written: datetime) -> bytes:
        with database.look(person_id, written) as desk:
            return file_of(desk, encloses)

    return make


def apart(url: str, process: Apart) -> Making:
    """Files are made in the process, which opens the database at ``url`` for each. The making raises Died and TooSlow, too."""

    def make(encloses: str, person_id: int, written: datetime) -> bytes:
        return process.run(file_from, url, encloses, person_id, written)

    return make


def file_from(url: str, encloses: str, person_id: int, written: datetime) -> bytes:
    """The file's content, from the database at ``url``."""
    with closing(Database(url)) as database:
        return here(database)(encloses, person_id, written)
