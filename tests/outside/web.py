"""The web as a test puts it there: urllib does all it does, but for connecting."""

from __future__ import annotations

import io
import json as json_text
import socket
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from email.utils import formatdate
from http.client import HTTPResponse
from typing import Any, cast
from urllib.error import URLError
from urllib.parse import parse_qsl, urlsplit
from urllib.request import AbstractHTTPHandler, Request

import pytest

Body = str | bytes | Exception


class _Line:
    """As much of a connection as an answer is read off."""

    def __init__(self, answer: bytes) -> None:
        self._answer = answer

    def makefile(self, _mode: str) -> io.BufferedReader:
        return io.BufferedReader(io.BytesIO(self._answer))


@dataclass(frozen=True, slots=True)
class Answer:
    """A status and what follows; an error is how connecting fails."""

    status: int
    body: Body
    headers: Mapping[str, str] = field(default_factory=dict)

    def given(self) -> HTTPResponse:
        """As it is read off a connection. Raises URLError as urllib does of what it meets on the way."""
        if isinstance(self.body, Exception):
            # What goes wrong on the way urllib wraps, what comes back broken it does not.
            raise URLError(self.body) if isinstance(self.body, OSError) else self.body
        content = self.body.encode() if isinstance(self.body, str) else self.body
        told = {"Date": formatdate(usegmt=True), "Content-Length": str(len(content)), **self.headers}
        head = "".join(f"{name}: {value}\r\n" for name, value in told.items())
        line = _Line(f"HTTP/1.1 {self.status} Said\r\n{head}\r\n".encode() + content)
        response = HTTPResponse(cast(socket.socket, line))
        response.begin()
        return response


class Web:
    """Answers for addresses without their queries, each in turn and the last of them for ever; nothing else is there."""

    def __init__(self) -> None:
        self.asked: list[Request] = []
        self._answers: dict[str, list[Answer]] = {}

    def get(self, url: str, *, body: Body = "", status: int = 200, json: Any = None, headers: Mapping[str, str] | None = None) -> None:
        """The next answer at ``url``; ``json`` instead of ``body``."""
        said = json_text.dumps(json) if json is not None else body
        self._answers.setdefault(url, []).append(Answer(status, said, headers or {}))

    def reset(self) -> None:
        """Nothing is there any more."""
        self._answers.clear()

    def question(self) -> dict[str, str]:
        """The query of what was asked first."""
        return dict(parse_qsl(urlsplit(self.asked[0].full_url).query))

    def opened(self, _handler: AbstractHTTPHandler, _kind: Callable[..., object], asked: Request, **_: object) -> HTTPResponse:
        """In place of ``AbstractHTTPHandler.do_open``."""
        self.asked.append(asked)
        answers = self._answers.get(asked.full_url.partition("?")[0])
        if answers is None:
            raise URLError(ConnectionRefusedError("nothing there"))
        answer = answers.pop(0) if len(answers) > 1 else answers[0]
        response = answer.given()
        response.msg = response.reason  # type: ignore[assignment]
        return response


def put(web: Web, monkeypatch: pytest.MonkeyPatch) -> None:
    """From now on the web is this one."""

    def do_open(handler: AbstractHTTPHandler, kind: Callable[..., object], asked: Request, **more: object) -> HTTPResponse:
        return web.opened(handler, kind, asked, **more)

    monkeypatch.setattr(AbstractHTTPHandler, "do_open", do_open)
    for name in ("http_proxy", "https_proxy", "all_proxy"):
        monkeypatch.delenv(name, raising=False)
        monkeypatch.delenv(name.upper(), raising=False)
