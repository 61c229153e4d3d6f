"""Calls of the Bot API over connections of our own that are kept open.

python-telegram-bot leaves open how its requests travel; its usual way, httpx,
takes more of the processor than all the rest of an answer. Plain calls go this
way, and files go the usual one. HTTP/1.1 as in RFC 9112.
"""

from __future__ import annotations

import asyncio
import ssl
from dataclasses import dataclass
from typing import Any
from urllib.parse import SplitResult, urlencode, urlsplit

import certifi
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

MOST_HEAD_BYTES = 64 * 1024
MALFORMED = "an answer that is no HTTP/1.1"


class NotReachedError(OSError):
    """No connection came about, so nothing was sent."""


class MalformedError(ValueError):
    """What came back is no HTTP/1.1."""


@dataclass(frozen=True, slots=True)
class Open:
    """One open connection."""

    reader: asyncio.StreamReader
    writer: asyncio.StreamWriter

    @property
    def is_good(self) -> bool:
        """Whether the other side keeps it open, as far as is known."""
        return not (self.reader.at_eof() or self.writer.is_closing())


@dataclass(frozen=True, slots=True)
class Response:
    """Status and content of an answer, and whether another call may follow on the same connection."""

    status: int
    content: bytes
    goes_on: bool


class Wire(BaseRequest):
    """As python-telegram-bot's requests go, with ``usual`` for those that carry files. Seconds are the limits of time."""

    def __init__(self, usual: BaseRequest, connect_seconds: float, read_seconds: float) -> None:
        self._usual = usual
        self._connect_seconds = connect_seconds
        self._read_seconds = read_seconds
        self._idle: dict[tuple[str, int], list[Open]] = {}
        self._secure: ssl.SSLContext | None = None
        self._is_over = False

    @property
    def read_timeout(self) -> float:
        """Seconds an answer may take when the call does not say."""
        return self._read_seconds

    async def initialize(self) -> None:
        """Opens nothing yet."""
        await self._usual.initialize()

    async def shutdown(self) -> None:
        """Closes all connections; one that is still in use is closed when it has been used."""
        self._is_over = True
        writers = [each.writer for idle in self._idle.values() for each in idle]
        self._idle.clear()
        for writer in writers:
            writer.close()
        await asyncio.gather(*(writer.wait_closed() for writer in writers), return_exceptions=True)
        await self._usual.shutdown()

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, read_timeout: Any = None, *others: Any, **more: Any
    ) -> tuple[int, bytes]:
        """Status and content of the answer. Raises NetworkError, whose cause is NotReachedError if nothing was sent, and TimedOut."""
        if request_data is not None and request_data.contains_files:
            return await self._usual.do_request(url, method, request_data, read_timeout, *others, **more)
        seconds = float(read_timeout) if isinstance(read_timeout, (int, float)) else self._read_seconds
        place = urlsplit(url)
        response = await self._ask(place, _request(place, method, request_data), seconds)
        return response.status, response.content

    async def _ask(self, place: SplitResult, request: bytes, seconds: float) -> Response:
        connection, goes_on = await self._connection(place), False
        try:
            async with asyncio.timeout(seconds):
                connection.writer.write(request)
                await connection.writer.drain()
                response = await _response(connection.reader)
            goes_on = response.goes_on
        except TimeoutError as late:
            raise TimedOut from late
        except (OSError, EOFError, ValueError, asyncio.LimitOverrunError) as broken:
            # The text of the error may hold an address with the token in it.
            raise NetworkError(type(broken).__name__) from broken
        finally:
            if goes_on and not self._is_over:
                self._idle.setdefault(_host_and_port(place), []).append(connection)
            else:
                connection.writer.close()
        return response

    async def _connection(self, place: SplitResult) -> Open:
        idle = self._idle.get(_host_and_port(place), [])
        while idle:
            if (connection := idle.pop()).is_good:
                return connection
            connection.writer.close()
        try:
            async with asyncio.timeout(self._connect_seconds):
                host, port = _host_and_port(place)
                return Open(*await asyncio.open_connection(host, port, ssl=self._security(place), limit=MOST_HEAD_BYTES))
        except TimeoutError as late:
            raise TimedOut from NotReachedError(late)
        except OSError as failed:
            raise NetworkError(type(failed).__name__) from NotReachedError(failed)

    def _security(self, place: SplitResult) -> ssl.SSLContext | None:
        if place.scheme != "https":
            return None
        if self._secure is None:
            self._secure = ssl.create_default_context(cafile=certifi.where())
        return self._secure


def _host_and_port(place: SplitResult) -> tuple[str, int]:
    return place.hostname or "", place.port or (443 if place.scheme == "https" else 80)


def _request(place: SplitResult, method: str, data: RequestData | None) -> bytes:
    body = urlencode(data.json_parameters).encode() if data is not None else b""
    target = f"{place.path}?{place.query}" if place.query else place.path
    head = (
        f"{method} {target} HTTP/1.1\r\nHost: {place.netloc.rpartition('@')[2]}\r\nUser-Agent: {BaseRequest.USER_AGENT}\r\n"
        f"Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    return head.encode("ascii") + body


async def _response(reader: asyncio.StreamReader) -> Response:
    """Reads one answer. Raises MalformedError, and EOFError when the connection ended in the middle of it."""
    status, version, headers = await _head(reader)
    while 100 <= status < 200:
        status, version, headers = await _head(reader)
    closes = version != "HTTP/1.1" or headers.get("connection", "").lower() == "close"
    if headers.get("transfer-encoding", "").lower() == "chunked":
        return Response(status, await _chunks(reader), not closes)
    if "content-length" in headers:
        return Response(status, await reader.readexactly(_whole(headers["content-length"], 10)), not closes)
    if status in (204, 304):
        return Response(status, b"", not closes)
    return Response(status, await reader.read(), False)


async def _head(reader: asyncio.StreamReader) -> tuple[int, str, dict[str, str]]:
    lines = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1").split("\r\n")
    version, _, rest = lines[0].partition(" ")
    if not version.startswith("HTTP/1."):
        raise MalformedError(MALFORMED)
    pairs = (line.partition(":") for line in lines[1:] if line)
    return _whole(rest[:3], 10), version, {name.strip().lower(): value.strip() for name, _, value in pairs}


async def _chunks(reader: asyncio.StreamReader) -> bytes:
    """The parts of a content whose length was not known ahead (RFC 9112, section 7.1); what trails it is passed over."""
    parts = []
    while size := _whole((await reader.readuntil(b"\r\n")).decode("latin-1").partition(";")[0].strip(), 16):
        parts.append((await reader.readexactly(size + 2))[:-2])
    while await reader.readuntil(b"\r\n") != b"\r\n":
        pass
    return b"".join(parts)


def _whole(text: str, base: int) -> int:
    if not text.isalnum():
        raise MalformedError(MALFORMED)
    return int(text, base)
