"""The HTTP side of the Bot API stand-in: one thread a connection, kept alive, with as little work a request as will do."""

from __future__ import annotations

import json
import socket
import socketserver
import struct
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from email.message import Message
from email.parser import BytesHeaderParser
from threading import Thread
from typing import Any, Literal, TypeAlias
from urllib.parse import parse_qsl, unquote

Behaviour: TypeAlias = Literal["answer", "hang", "reset", "garbage"]


@dataclass(frozen=True, slots=True)
class Fault:
    """How the next answer goes wrong. ``accepted`` says whether the call takes effect all the same."""

    status: int = 200
    description: str = ""
    retry_after: float | None = None
    behaviour: Behaviour = "answer"
    accepted: bool = False
    seconds: float = 0.0


def too_many(retry_after: float) -> Fault:
    """429, with the seconds to wait."""
    return Fault(429, f"Too Many Requests: retry after {retry_after}", retry_after)


def refuses(status: int, description: str) -> Fault:
    """An error answer, such as 403 or 500."""
    return Fault(status, description)


def hangs(seconds: float, *, accepted: bool) -> Fault:
    """No answer for so long, and then the connection closes."""
    return Fault(behaviour="hang", accepted=accepted, seconds=seconds)


def resets(*, accepted: bool) -> Fault:
    """The connection is torn down."""
    return Fault(behaviour="reset", accepted=accepted)


def garbles(*, accepted: bool) -> Fault:
    """Status 200 with something that is no JSON, as from a captive portal."""
    return Fault(behaviour="garbage", accepted=accepted)


@dataclass(frozen=True, slots=True)
class Call:
    """One request: the method's name in lower case, its plain fields, and its files as (name, content)."""

    method: str
    fields: dict[str, str]
    files: tuple[tuple[str, bytes], ...] = ()

    def json(self, name: str) -> Any:
        """A field that is written in JSON, or None."""
        return json.loads(self.fields[name]) if name in self.fields else None

    def whole(self, name: str, default: int = 0) -> int:
        """A field that is a whole number."""
        return int(self.fields.get(name, default))


@dataclass(frozen=True, slots=True)
class Answer:
    """What goes back: a result, or a fault. ``then`` runs right after it was written."""

    result: object = True
    fault: Fault | None = None
    raw: bytes | None = None
    then: Callable[[], None] | None = field(default=None, compare=False)


class Service:
    """Serves ``respond`` on a free port of loopback until closed."""

    def __init__(self, token: str, respond: Callable[[Call], Answer]) -> None:
        self._server = _Server(("127.0.0.1", 0), _Connection)
        self._server.token = token
        self._server.respond = respond
        self._thread = Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        self._thread.start()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self._server.server_address[1]}"

    def close(self) -> None:
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()


class _Server(socketserver.ThreadingTCPServer):
    allow_reuse_address = True
    daemon_threads = True
    block_on_close = False
    request_queue_size = 128
    token: str
    respond: Callable[[Call], Answer]

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A client that went away is what many tests are about."""


class _Connection(socketserver.StreamRequestHandler):
    disable_nagle_algorithm = True
    server: _Server

    def handle(self) -> None:
        while request := self._request():
            path, kind, body = request
            answer = self._answer(path, kind, body)
            if answer.fault is not None and not self._misbehave(answer.fault):
                return
            if answer.fault is None:
                self._write(200, answer.raw if answer.raw is not None else _json({"ok": True, "result": answer.result}))
            if answer.then is not None:
                answer.then()

    def _request(self) -> tuple[str, str, bytes] | None:
        line = self.rfile.readline()
        if not line:
            return None
        headers: dict[str, str] = {}
        while (header := self.rfile.readline().strip()) != b"":
            name, _, value = header.decode("latin-1").partition(":")
            headers[name.lower()] = value.strip()
        body = self.rfile.read(int(headers.get("content-length", "0")))
        return unquote(line.split()[1].decode()), headers.get("content-type", ""), body

    def _answer(self, path: str, kind: str, body: bytes) -> Answer:
        if path.startswith(f"/file/bot{self.server.token}/"):
            return self.server.respond(Call("file", {"path": path.rpartition("/")[2]}))
        prefix = f"/bot{self.server.token}/"
        if not path.startswith(prefix):
            return Answer(fault=refuses(401, "Unauthorized"))
        fields, files = _form(kind, body)
        return self.server.respond(Call(path.removeprefix(prefix).lower(), fields, files))

    def _misbehave(self, fault: Fault) -> bool:
        """Whether the connection can still be used."""
        if fault.behaviour == "answer":
            parameters = {} if fault.retry_after is None else {"parameters": {"retry_after": fault.retry_after}}
            self._write(fault.status, _json({"ok": False, "error_code": fault.status, "description": fault.description, **parameters}))
            return True
        if fault.behaviour == "garbage":
            self._write(200, b"<html>Please log in to this network</html>")
            return True
        time.sleep(fault.seconds)
        if fault.behaviour == "reset":
            # Closing with a linger time of zero sends a reset (socket(7)).
            self.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        self.connection.close()
        return False

    def _write(self, status: int, body: bytes) -> None:
        head = f"HTTP/1.1 {status} x\r\nContent-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n"
        self.wfile.write(head.encode() + body)


def _json(value: object) -> bytes:
    return json.dumps(value).encode()


def _form(kind: str, body: bytes) -> tuple[dict[str, str], tuple[tuple[str, bytes], ...]]:
    if not kind.startswith("multipart/form-data"):
        return dict(parse_qsl(body.decode(), keep_blank_values=True)), ()
    boundary = b"--" + _header(f"Content-Type: {kind}").get_param("boundary", "").encode()  # type: ignore[union-attr]
    fields: dict[str, str] = {}
    files: list[tuple[str, bytes]] = []
    for part in body.split(boundary)[1:-1]:
        head, _, content = part.removeprefix(b"\r\n").partition(b"\r\n\r\n")
        header = _header(head.decode())
        name = str(header.get_param("name", header="content-disposition"))
        if header.get_filename() is None:
            fields[name] = content.removesuffix(b"\r\n").decode()
        else:
            files.append((str(header.get_filename()), content.removesuffix(b"\r\n")))
    return fields, tuple(files)


def _header(text: str) -> Message:
    return BytesHeaderParser().parsebytes(text.encode())
