"""Whether Telegram would take a message: core.telegram.org/bots/api, and for the number of buttons python-telegram-bot's constants."""

from __future__ import annotations

from bot.heard import button_data
from storage.records import Parcel, ParcelKind

MOST_IN_A_ROW, MOST_BUTTONS = 8, 100


def fault_of(parcel: Parcel) -> str | None:
    """Why it would be refused, or None."""
    units = len(parcel.text.encode("utf-16-le")) // 2
    if parcel.kind is not ParcelKind.FILE and not parcel.text.strip():
        return "an empty text"
    if units > (1024 if parcel.kind is ParcelKind.FILE else 4096):
        return f"a text of {units} units"
    if any(not 0 <= start < end <= len(parcel.text) for start, end in parcel.bold):
        return f"bold off the text: {parcel.bold}"
    return _fault_of_buttons(parcel)


def _fault_of_buttons(parcel: Parcel) -> str | None:
    if any(len(row) > MOST_IN_A_ROW or not row for row in parcel.buttons) or sum(map(len, parcel.buttons)) > MOST_BUTTONS:
        return "too many buttons, or a row of none"
    for row, buttons in enumerate(parcel.buttons):
        for place, button in enumerate(buttons):
            if not button.label.strip():
                return "a button without a label"
            if not 1 <= len(button_data(parcel.id, row, place).encode()) <= 64:
                return "a button that carries too much"
    return None
