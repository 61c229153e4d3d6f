"""``weekwright run`` as a process of its own, with the stand-in, a forecast service and a clock that the test moves."""

from __future__ import annotations

import json
import os
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterable, Mapping
from contextlib import closing
from datetime import datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any
from zoneinfo import ZoneInfo

import psycopg

from storage.opening import is_server
from tests.channels.standin import PERSON, StandIn

ROOT = Path(__file__).resolve().parents[2]
GHENT = ZoneInfo("Europe/Brussels")
NOBODY_LISTENS = "http://127.0.0.1:9"


class Running:
    """One bot on one database, started and stopped as often as the test likes."""

    def __init__(
        self,
        standin: StandIn,
        folder: Path,
        people: Iterable[int] = (PERSON,),
        forecast_url: str = NOBODY_LISTENS,
        more: Mapping[str, str] | None = None,
    ) -> None:
        self.database = folder / "week.sqlite"
        self._clock = folder / "clock"
        self._log = folder / "log"
        self._process: subprocess.Popen[bytes] | None = None
        self._environment = {
            **{name: value for name, value in os.environ.items() if not name.startswith("WEEKWRIGHT_")},
            "WEEKWRIGHT_TOKEN": standin.token,
            "WEEKWRIGHT_TELEGRAM_URL": standin.url,
            "WEEKWRIGHT_DATABASE": f"sqlite:///{self.database}",
            "WEEKWRIGHT_ALLOWED": ",".join(map(str, people)),
            "WEEKWRIGHT_SETTINGS": str(ROOT / "sample_config" / "settings.toml"),
            "WEEKWRIGHT_FORECAST_URL": forecast_url,
            "WEEKWRIGHT_GEOCODING_URL": NOBODY_LISTENS,
            "TEST_CLOCK": str(self._clock),
            **(more or {}),
        }

    def __enter__(self) -> Running:
        return self

    def __exit__(self, *_: object) -> None:
        if self._process is not None:
            self.kill()

    def at(self, local: str) -> None:
        """The clock now shows this local time in Ghent, such as ``2026-03-02 06:00``."""
        moved = self._clock.with_suffix(".new")
        moved.write_text(datetime.fromisoformat(local).replace(tzinfo=GHENT).isoformat(), "utf-8")
        moved.replace(self._clock)

    def start(self) -> None:
        """Starts the bot; comes back at once."""
        with self._log.open("ab") as log:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "tests.channels.run_with_clock"], cwd=ROOT, env=self._environment, stderr=log
            )

    def kill(self) -> None:
        """SIGKILL: no chance to tidy up."""
        assert self._process is not None
        self._process.kill()
        self._process.wait()
        self._process = None

    def terminate(self) -> float:
        """SIGTERM; gives the seconds it took to end, which it has to do with exit code 0."""
        assert self._process is not None
        began = time.monotonic()
        self._process.send_signal(signal.SIGTERM)
        code = self._process.wait(timeout=20)
        self._process = None
        assert code == 0, self.log
        return time.monotonic() - began

    def ended(self) -> int:
        """Waits until it ends by itself and gives its exit code."""
        assert self._process is not None
        code = self._process.wait(timeout=20)
        self._process = None
        return code

    def set(self, name: str, value: str) -> None:
        """From its next start on its environment has this variable."""
        self._environment[name] = value

    def speak_to(self, standin: StandIn) -> None:
        """From its next start on it speaks to another stand-in, with the token it has."""
        self._environment["WEEKWRIGHT_TELEGRAM_URL"] = standin.url

    @property
    def log(self) -> str:
        """All that was written to standard error so far."""
        return self._log.read_text("utf-8")

    def count(self, query: str) -> int:
        """One number from the database."""
        ((number,),) = self.rows(query)
        return int(number)

    def rows(self, query: str) -> list[tuple[Any, ...]]:
        """Rows from the database."""
        url = self._environment["WEEKWRIGHT_DATABASE"]
        if is_server(url):
            with psycopg.connect(url) as server:
                return server.execute(query.encode()).fetchall()
        with closing(sqlite3.connect(self.database)) as connection:
            return connection.execute(query).fetchall()


class _Server(ThreadingHTTPServer):
    def handle_error(self, request: Any, client_address: Any) -> None:
        """A bot that was killed while it asked; standard error belongs to the tests."""


class ForecastService:
    """Answers every question with one forecast, on loopback, once it is opened."""

    def __init__(self, answer: dict[str, Any] | str) -> None:
        body = (answer if isinstance(answer, str) else json.dumps(answer)).encode()
        service = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                service.asked += 1
                time.sleep(service.delay_seconds)
                self.send_response(200 if service.is_open else 503)
                self.end_headers()
                self.wfile.write(body if service.is_open else b"<html>later</html>")

            def log_message(self, format: str, *arguments: Any) -> None:
                """Standard error belongs to the tests."""

        self.is_open = False
        self.asked = 0
        self.delay_seconds = 0.0
        self._server = _Server(("127.0.0.1", 0), Handler)
        self.url = f"http://127.0.0.1:{self._server.server_address[1]}"
        self._thread = Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)

    def __enter__(self) -> ForecastService:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()
