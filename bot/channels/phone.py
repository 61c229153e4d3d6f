"""The person's screen where there is no chat service: what arrived stays on it, whatever becomes of the bot."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from bot.channels.dialogue import Line, Write
from bot.heard import button_data
from bot.private_files import write_privately
from storage.records import Parcel


class Phone:
    """A carrier that writes every parcel out and remembers its buttons."""

    def __init__(self, now: Callable[[], datetime], write: Write, files: Path | None = None) -> None:
        self._now = now
        self._write = write
        self._files = files
        self._shown: dict[str, Parcel] = {}

    async def carry(self, parcel: Parcel, rewrites: str | None) -> str:
        """Shows the parcel; its own id serves as the chat service's."""
        carried_as = rewrites or f"shown:{parcel.id}"
        self._shown[carried_as] = parcel
        if parcel.file_bytes is not None and parcel.file_name and self._files:
            write_privately(self._files / Path(parcel.file_name).name, parcel.file_bytes)
        self._write(_line(parcel, self._now()))
        return carried_as

    def button(self, label: str) -> str | None:
        """The data of the button with exactly this label in the newest message that has one."""
        for parcel in reversed(self._shown.values()):
            for row, buttons in enumerate(parcel.buttons):
                for place, button in enumerate(buttons):
                    if button.label == label:
                        return button_data(parcel.id, row, place)
        return None

    def newest_buttons(self) -> tuple[tuple[str, str], ...]:
        """Label and data of each button of the newest message that has any, row by row."""
        for parcel in reversed(self._shown.values()):
            if parcel.buttons:
                return tuple(
                    (button.label, button_data(parcel.id, row, place))
                    for row, buttons in enumerate(parcel.buttons)
                    for place, button in enumerate(buttons)
                )
        return ()


def _line(parcel: Parcel, now: datetime) -> Line:
    return Line(
        at=now,
        speaker="bot",
        kind=parcel.kind.value,
        text=parcel.text,
        buttons=tuple(tuple(button.label for button in row) for row in parcel.buttons),
        file=parcel.file_name,
        silent=parcel.silent,
        round=parcel.round,
    )
