"""What a server answers: its body, unpacked within bounds, or why there is none."""

from __future__ import annotations

import zlib

from bot.outside.faults import CalendarUnavailable, Fault

ENCODINGS = frozenset({"gzip", "x-gzip", "deflate"})
GZIP_OR_ZLIB = zlib.MAX_WBITS | 32


class Body:
    """What was received so far, unpacked and never more than ``most`` bytes."""

    def __init__(self, encoding: str, most: int) -> None:
        if encoding not in ("", "identity", *ENCODINGS):
            raise CalendarUnavailable(Fault.NOT_UNDERSTOOD, f"content encoding {encoding[:20]}")
        self.content = bytearray()
        self._most = most
        self._received = 0
        self._unpacking = zlib.decompressobj(GZIP_OR_ZLIB) if encoding in ENCODINGS else None

    @property
    def is_whole(self) -> bool:
        """Whether nothing packed is left open."""
        return self._unpacking is None or self._unpacking.eof

    def add(self, chunk: bytes) -> None:
        """Takes what was received next. Raises CalendarUnavailable once there is too much of it."""
        self._received += len(chunk)
        room = self._most + 1 - len(self.content)
        self.content += chunk if self._unpacking is None else self._unpacking.decompress(chunk, room)
        if len(self.content) > self._most or self._received > self._most:
            raise CalendarUnavailable(Fault.TOO_LARGE)


def refusal(status: int, retry_after: str) -> CalendarUnavailable:
    """Why a server gave nothing, by its HTTP status; a Retry-After in seconds is kept, its other form, a date, is not (RFC 9110)."""
    seconds = float(retry_after) if retry_after.isascii() and retry_after.isdecimal() and len(retry_after) < 7 else None
    if status == 429:
        return CalendarUnavailable(Fault.TOO_MANY_REQUESTS, str(status), seconds)
    return CalendarUnavailable(Fault.SERVER_ERROR if status >= 500 else Fault.REFUSED, str(status), seconds)
