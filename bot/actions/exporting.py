"""Everything that is kept of a person, as one file."""

from __future__ import annotations

from bot.actions.today import today
from bot.language.meaning import Show
from bot.voice.replies import Enclosing, ExportMade, Reply
from storage.desk import Desk


def show_export(desk: Desk, said: Show) -> Reply:
    """The archive, which is made when it is carried."""
    return Enclosing(ExportMade(), Show("export"), f"weekwright-{today(desk)}.zip")
