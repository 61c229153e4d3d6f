"""What a stage has noted."""

from __future__ import annotations

from storage.desk import Desk
from tests.stage import Stage


def noted(stage: Stage) -> list[int]:
    """The minutes of every stint, in order."""

    def read(desk: Desk) -> list[int]:
        return [each.minutes for each in desk.stints.all()]

    found = stage.look(read)
    assert isinstance(found, list)
    return found
