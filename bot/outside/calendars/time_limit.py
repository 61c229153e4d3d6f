"""An end to a conversation that the other side would never end."""

from __future__ import annotations

import socket
from threading import Timer
from types import TracebackType
from typing import Self


class TimeLimit:
    """Cuts the connection once ``seconds`` have passed: a server that sends a byte now and then never times out by itself."""

    def __init__(self, seconds: float) -> None:
        self.passed = False
        self._line: socket.socket | None = None
        self._timer = Timer(seconds, self._cut)
        self._timer.daemon = True

    def __enter__(self) -> Self:
        self._timer.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self._timer.cancel()

    def holds(self, line: socket.socket) -> None:
        """The connection to cut from now on."""
        self._line = line
        if self.passed:
            self._cut()

    def _cut(self) -> None:
        self.passed = True
        if self._line is None:
            return
        try:
            # Of a TLS connection, too, only what is below is shut: whoever reads from it then sees it end.
            socket.socket.shutdown(self._line, socket.SHUT_RDWR)
        except OSError:
            # It has ended already.
            return
