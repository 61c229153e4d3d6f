"""What a channel hears, on its way to the engine. Channels make these and nothing else.

``key`` names the delivery and is the same when it is delivered again.
``message_key`` names the person's message and is the same when it is edited.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias, Union


@dataclass(frozen=True, slots=True)
class Said:
    """A message. ``replies_to`` is the chat service's id of the bot's message it replies to."""

    address: str
    key: str
    message_key: str
    text: str
    replies_to: str | None = None


@dataclass(frozen=True, slots=True)
class Edited:
    """The person's message ``message_key`` now reads ``text``."""

    address: str
    key: str
    message_key: str
    text: str


@dataclass(frozen=True, slots=True)
class Tapped:
    """A tap on a button; ``data`` is what ``button_data`` made for it."""

    address: str
    key: str
    data: str


@dataclass(frozen=True, slots=True)
class Located:
    """A shared location, in degrees (WGS 84)."""

    address: str
    key: str
    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class SentFile:
    """A file with its content."""

    address: str
    key: str
    message_key: str
    name: str
    content: bytes


Heard: TypeAlias = Union[Said, Edited, Tapped, Located, SentFile]


def button_data(parcel_id: int, row: int, place: int) -> str:
    """The data that a button carries: which parcel, which row, which place in it. At most 64 bytes."""
    return f"{parcel_id}.{row}.{place}"


def button_place(data: str) -> tuple[int, int, int] | None:
    """The parcel, row and place that ``data`` names, or None when it is not of that form."""
    parts = data.split(".")
    if len(parts) != 3 or not all(part.isascii() and part.isdigit() and len(part) < 12 for part in parts):
        return None
    parcel_id, row, place = (int(part) for part in parts)
    return parcel_id, row, place
