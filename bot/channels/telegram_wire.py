"""Calls of the Bot API over connections of our own that are kept open.

python-telegram-bot leaves open how its requests travel; its usual way, httpx,
takes more of the processor than all the rest of an answer. What bytes mean in
HTTP/1.1 is h11's business, and how a form holds files httpx's; here they are
carried.
"""

from __future__ import annotations

import asyncio
import ssl
from dataclasses import dataclass
from typing import Any
from urllib.parse import SplitResult, urlencode, urlsplit

import certifi
import h11
import httpx
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

READ_BYTES = 64 * 1024
# Beyond the largest file that bots may fetch, which is 20 MB: https://core.telegram.org/bots/faq
MOST_CONTENT_BYTES = 32 * 1024 * 1024
SLOWEST_BYTES_A_SECOND = 32 * 1024
"""A line that carries less is as good as none: so much longer may a call take whose content is long."""

Answer = tuple[int, bytes]


class NotReachedError(OSError):
    """No connection came about, so nothing was sent."""


@dataclass(frozen=True, slots=True)
class Content:
    """What a call carries, and its media type."""

    type: str
    body: bytes


class Wire(BaseRequest):
    """As python-telegram-bot's requests go. Seconds are the limits of time."""

    def __init__(self, connect_seconds: float, read_seconds: float) -> None:
        self._connect_seconds = connect_seconds
        self._read_seconds = read_seconds
        self._idle: dict[tuple[str, int], list[Talk]] = {}
        self._secure: ssl.SSLContext | None = None
        self._is_over = False

    @property
    def read_timeout(self) -> float:
        """Seconds an answer may take when the call does not say."""
        return self._read_seconds

    async def initialize(self) -> None:
        """Opens nothing yet."""

    async def shutdown(self) -> None:
        """Closes all connections; one that is still in use is closed when it has been used."""
        self._is_over = True
        talks = [talk for idle in self._idle.values() for talk in idle]
        self._idle.clear()
        await asyncio.gather(*(talk.end() for talk in talks), return_exceptions=True)

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, read_timeout: Any = None, *others: Any, **more: Any
    ) -> Answer:
        """Status and content of the answer. Raises NetworkError, whose cause is NotReachedError if nothing was sent, and TimedOut."""
        content = content_of(request_data)
        seconds = float(read_timeout) if isinstance(read_timeout, (int, float)) else self._read_seconds
        place = urlsplit(url)
        talk = await self._talk(place)
        try:
            async with asyncio.timeout(seconds + len(content.body) / SLOWEST_BYTES_A_SECOND):
                return await talk.ask(place, method, content)
        except TimeoutError as late:
            raise TimedOut from late
        except (OSError, h11.ProtocolError, UnicodeError) as broken:
            # The text of the error may hold an address with the token in it.
            raise NetworkError(type(broken).__name__) from broken
        finally:
            self._keep(place, talk)

    def _keep(self, place: SplitResult, talk: Talk) -> None:
        if talk.is_free and not self._is_over:
            self._idle.setdefault(_host_and_port(place), []).append(talk)
        else:
            talk.close()

    async def _talk(self, place: SplitResult) -> Talk:
        """A connection that is free, or a new one."""
        idle = self._idle.get(_host_and_port(place), [])
        while idle:
            if (talk := idle.pop()).is_free:
                return talk
            talk.close()
        try:
            async with asyncio.timeout(self._connect_seconds):
                host, port = _host_and_port(place)
                return Talk(*await asyncio.open_connection(host, port, ssl=self._security(place)))
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


class Talk:
    """One open connection, on which one call follows another."""

    def __init__(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._reader = reader
        self._writer = writer
        self._http = h11.Connection(h11.CLIENT)

    @property
    def is_free(self) -> bool:
        """Whether another call may follow, as far as is known."""
        return self._http.our_state is h11.IDLE and not (self._reader.at_eof() or self._writer.is_closing())

    async def ask(self, place: SplitResult, method: str, content: Content) -> Answer:
        """Status and content of the answer. Raises OSError, UnicodeError and h11.ProtocolError."""
        said = (_request(place, method, content), h11.Data(content.body), h11.EndOfMessage())
        self._writer.write(b"".join(self._http.send(each) or b"" for each in said))
        await self._writer.drain()
        status, answer = 0, bytearray()
        while not isinstance(event := await self._next_event(), h11.EndOfMessage):
            if isinstance(event, h11.Response):
                status = event.status_code
            elif isinstance(event, h11.Data) and len(answer) < MOST_CONTENT_BYTES:
                answer += event.data
            elif isinstance(event, h11.Data):
                raise h11.RemoteProtocolError("an answer without end")
        if self._http.our_state is self._http.their_state is h11.DONE and not self._http.trailing_data[0]:
            self._http.start_next_cycle()
        return status, bytes(answer)

    async def _next_event(self) -> object:
        while (event := self._http.next_event()) is h11.NEED_DATA:
            self._http.receive_data(await self._reader.read(READ_BYTES))
        return event

    def close(self) -> None:
        """Nothing more is sent or heard."""
        self._writer.close()

    async def end(self) -> None:
        """As ``close``, and waits until it is closed. Raises OSError."""
        self._writer.close()
        await self._writer.wait_closed()


def _host_and_port(place: SplitResult) -> tuple[str, int]:
    return place.hostname or "", place.port or (443 if place.scheme == "https" else 80)


def content_of(data: RequestData | None) -> Content:
    """A call's parameters as a form: where there are files among them, one in parts (RFC 7578)."""
    if data is not None and data.contains_files:
        form = httpx.Request("POST", "", data=data.json_parameters, files=data.multipart_data)
        return Content(form.headers["Content-Type"], form.read())
    return Content("application/x-www-form-urlencoded", urlencode(data.json_parameters).encode() if data else b"")


def _request(place: SplitResult, method: str, content: Content) -> h11.Request:
    """The head of a call."""
    headers = [
        ("Host", place.netloc.rpartition("@")[2]),
        ("User-Agent", BaseRequest.USER_AGENT),
        ("Content-Type", content.type),
        ("Content-Length", str(len(content.body))),
    ]
    return h11.Request(method=method, target=f"{place.path}?{place.query}" if place.query else place.path, headers=headers)
