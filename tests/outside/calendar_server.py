"""A web server on this machine that answers as it is told, in raw bytes, and remembers what it was asked."""

from __future__ import annotations

import socket
import ssl
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from ipaddress import ip_address
from threading import Thread

from bot.outside.calendars.addresses import Address
from bot.outside.calendars.fetching import CalendarLinks
from bot.outside.web_service import Patience

CALENDAR = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n"

Answer = bytes | Callable[[socket.socket], None]
"""What is sent, or who sends it."""


Answers = dict[str, Answer] | Answer
"""An answer for each path, or one for anything that is said."""


class Server:
    """Answers as ``answers`` says. ``asked`` are the requests so far, as they came."""

    def __init__(self, answers: Answers, tls: ssl.SSLContext | None) -> None:
        self.asked: list[str] = []
        self.answers = answers
        self._tls = tls
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listening.getsockname()[1]
        self._thread = Thread(target=self._serve, daemon=True)

    def start(self) -> None:
        """Answers from now on, one connection after the other."""
        self._thread.start()

    def stop(self) -> None:
        """Closes the door and waits until the last guest has left."""
        with suppress(OSError):
            self._listening.shutdown(socket.SHUT_RDWR)
        self._listening.close()
        self._thread.join(10)

    def _serve(self) -> None:
        while True:
            try:
                line, _ = self._listening.accept()
            except OSError:
                return
            with line, suppress(OSError):
                self._answer(line)

    def _answer(self, line: socket.socket) -> None:
        line.settimeout(5)
        if self._tls is not None:
            line = self._tls.wrap_socket(line, server_side=True)
        with line:
            answer = self._heard(line) if isinstance(self.answers, dict) else self.answers
            line.sendall(answer) if isinstance(answer, bytes) else answer(line)

    def _heard(self, line: socket.socket) -> Answer:
        """What is answered to the request that comes, once it is whole."""
        request = ""
        while "\r\n\r\n" not in request and (chunk := line.recv(4096)):
            request += chunk.decode("latin-1")
        self.asked.append(request)
        assert isinstance(self.answers, dict)
        return self.answers[request.split(" ")[1]]


@contextmanager
def served(answers: Answers, tls: ssl.SSLContext | None = None) -> Iterator[Server]:
    """A server that answers for as long as the block lasts."""
    server = Server(answers, tls)
    server.start()
    try:
        yield server
    finally:
        server.stop()


def response(body: bytes = CALENDAR, *headers: str, status: str = "200 OK", length: int | None = None) -> bytes:
    """A whole answer, with the length of its body unless another is given; a negative one is left out."""
    said = len(body) if length is None else length
    lines = [f"HTTP/1.1 {status}", *headers, *([f"Content-Length: {said}"] if said >= 0 else []), "", ""]
    return "\r\n".join(lines).encode() + body


def redirect(to: str, status: str = "302 Found") -> bytes:
    """An answer that leads on to another link."""
    return response(b"", f"Location: {to}", status=status)


def silent(line: socket.socket) -> None:
    """Takes everything and says nothing until the other side has had enough."""
    while line.recv(4096):
        pass


def dripping(start: bytes, drop: bytes) -> Callable[[socket.socket], None]:
    """Sends ``start`` and then a drop at a time for as long as anyone listens."""

    def drip(line: socket.socket) -> None:
        line.sendall(start)
        for _ in range(200):
            line.sendall(drop)
            time.sleep(0.05)

    return drip


HASTY = Patience(connect_seconds=1, read_seconds=1, whole_seconds=1.5, most_bytes=100_000)
HOSTS = {
    "calendar.example": ["127.0.0.1"],
    "other.example": ["127.0.0.1"],
    "two.example": ["127.0.0.2", "127.0.0.1"],
    "inside.example": ["10.0.0.7"],
    "half.example": ["127.0.0.1", "192.168.1.1"],
    "nowhere.example": [],
}


def look_up(host: str, port: int) -> list[Address]:
    """The addresses of the hosts that these tests know; any other is taken for an address."""
    return [ip_address(each) for each in HOSTS.get(host, [host])]


def links(patience: Patience = HASTY) -> CalendarLinks:
    """Links that may lead to this machine without TLS."""
    return CalendarLinks(patience, look_up, on_loopback=True)
