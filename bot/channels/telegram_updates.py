"""Telegram's updates, as they come in JSON, read into what the engine hears. Pure, and never surprised by a shape.

Source: https://core.telegram.org/bots/api#update
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from bot.heard import Edited, Located, Said, SentFile, Tapped

WANTED = ("message", "edited_message", "callback_query")
# A message of these kinds has no words, but whoever sent it waits for an answer.
WORDLESS = ("photo", "sticker", "voice", "audio", "video", "video_note", "animation", "contact", "poll", "dice", "story")

Json: TypeAlias = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class FileOffer:
    """A file that was sent and is still to be downloaded; ``size`` in bytes, where it is told."""

    file_id: str
    size: int | None
    as_heard: SentFile


Read: TypeAlias = Said | Edited | Tapped | Located | FileOffer


def update_id(update: Json) -> int | None:
    """The number of an update."""
    return _whole(update.get("update_id"))


def tap_id(update: Json) -> str | None:
    """The id under which a tap has to be answered."""
    return _text(_object(update.get("callback_query")).get("id"))


def read_update(update: Json) -> Read | None:
    """What a person said or did in a private chat; None for all else."""
    key = f"telegram:{update_id(update)}"
    if "callback_query" in update:
        return _tap(_object(update["callback_query"]), key)
    if "edited_message" in update:
        return _edit(_object(update["edited_message"]), key)
    return _message(_object(update.get("message")), key)


def _tap(tap: Json, key: str) -> Tapped | None:
    person = _whole(_object(tap.get("from")).get("id"))
    data = _text(tap.get("data"))
    if person is None or data is None or not _is_private(_object(tap.get("message"))):
        return None
    return Tapped(f"telegram:{person}", key, data)


def _edit(message: Json, key: str) -> Edited | None:
    address, message_key = _address(message), _message_key(message)
    words = _words(message)
    return Edited(address, key, message_key, words) if address and message_key and words else None


def _message(message: Json, key: str) -> Said | Located | FileOffer | None:
    address, message_key = _address(message), _message_key(message)
    if address is None or message_key is None:
        return None
    return _location(message, address, key) or _file(message, address, key, message_key) or _said(message, address, key, message_key)


def _location(message: Json, address: str, key: str) -> Located | None:
    location = _object(message.get("location"))
    latitude, longitude = _degrees(location.get("latitude"), 90), _degrees(location.get("longitude"), 180)
    return None if latitude is None or longitude is None else Located(address, key, latitude, longitude)


def _file(message: Json, address: str, key: str, message_key: str) -> FileOffer | None:
    document = _object(message.get("document"))
    file_id = _text(document.get("file_id"))
    if not file_id:
        return None
    name = _text(document.get("file_name")) or "file"
    return FileOffer(file_id, _whole(document.get("file_size")), SentFile(address, key, message_key, name, b""))


def _said(message: Json, address: str, key: str, message_key: str) -> Said | None:
    words = _words(message)
    if not words and not any(kind in message for kind in WORDLESS):
        return None
    return Said(address, key, message_key, words, _replies_to(message))


def _words(message: Json) -> str:
    return _text(message.get("text")) or _text(message.get("caption")) or ""


def _replies_to(message: Json) -> str | None:
    earlier = _object(message.get("reply_to_message"))
    is_ours = _object(earlier.get("from")).get("is_bot") is True
    number = _whole(earlier.get("message_id"))
    return str(number) if is_ours and number is not None else None


def _address(message: Json) -> str | None:
    person = _whole(_object(message.get("from")).get("id"))
    return f"telegram:{person}" if person is not None and _is_private(message) else None


def _message_key(message: Json) -> str | None:
    chat, number = _whole(_object(message.get("chat")).get("id")), _whole(message.get("message_id"))
    return None if chat is None or number is None else f"telegram:{chat}:{number}"


def _is_private(message: Json) -> bool:
    return _object(message.get("chat")).get("type") == "private"


def _degrees(value: object, most: int) -> float | None:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not abs(value) <= most:
        return None
    return float(value)


def _object(value: object) -> Json:
    return value if isinstance(value, dict) else {}


def _text(value: object) -> str | None:
    """A text that can be kept: JSON may hold halves of code points, which no encoding of text has room for."""
    return value.encode("utf-16", "surrogatepass").decode("utf-16", "replace") if isinstance(value, str) else None


def _whole(value: object) -> int | None:
    return value if isinstance(value, int) and not isinstance(value, bool) else None
